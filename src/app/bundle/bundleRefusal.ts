import { ApiFailure } from '../apiFailure.ts';

/** Why a file is not taken in as a project. Nothing has been written when one of these is thrown. */
const advice = {
  'bundle-not-a-zip': 'This file is not a project file: it is no ZIP archive.',
  'bundle-damaged': 'This project file is damaged. Ask for it again.',
  'bundle-unsupported': 'This project file uses a part of ZIP that project files never use.',
  'bundle-too-large': 'This project file unpacks to more than a project can hold.',
  'bundle-path-outside': 'This project file names a place outside itself. It may be made to do harm.',
  'bundle-unknown-entry': 'This project file holds something that belongs in none.',
  'bundle-entry-missing': 'This project file is not whole.',
  'bundle-tampered':
    'A part of this project file is not what its manifest says. It was changed after it was made.',
  'bundle-not-ours': 'This ZIP archive is not a project file: its manifest is not one of Footrail.',
  'bundle-newer': 'This project file was made by a newer Footrail. Open it with that version.',
  'bundle-project-unreadable': 'The project in this file can’t be read.',
  'bundle-history-broken':
    'The changes in this project file do not lead to its project. It was changed after it was made.',
  'bundle-issue-broken':
    'An issue in this project file is not what its own record says. It was changed after it was issued.',
  'bundle-issue-differs':
    'This archive and the file gave the same number to different issues. What was issued is never changed, so that neither can take the other’s place: take the file in as a copy to have both.',
  'bundle-stock-range-differs':
    'This archive has a stock range of the same name and version with other pieces. Save one of them under an id of its own first.',
  'bundle-project-differs':
    'This archive has this very project with other changes. Keep yours, take the file’s state over (yours stays in the history), or take the file in as a copy to have both.',
} as const;

export type BundleRefusal = keyof typeof advice;

/** The failure to throw, with what exactly was found. */
export const bundleRefusal = (code: BundleRefusal, found: string): ApiFailure =>
  new ApiFailure(code, `${advice[code]} (${found}) Nothing was taken in.`, 'bytes');

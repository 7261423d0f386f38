import type { IssueSettings } from '../../src/document/issueSettings.ts';

export const purposeNames: Readonly<Record<IssueSettings['purpose'], string>> = {
  information: 'Information',
  tender: 'Tender',
  approval: 'Approval',
  construction: 'Construction, after site measure',
  'as-built': 'As built',
};

/** What an issue went out for, in the words of a list. */
export const purposeWords = (purpose: string): string =>
  purpose === 'as-built' ? 'as built' : `for ${purpose}`;

/** A size as people say it. @example sizeWords(1_250_000) // '1.3 MB' */
export const sizeWords = (byteLength: number): string => {
  if (byteLength < 1000) return `${byteLength} B`;
  if (byteLength < 1_000_000) return `${Math.round(byteLength / 1000)} kB`;
  return `${(byteLength / 1_000_000).toFixed(1)} MB`;
};

const names: readonly (readonly [ending: RegExp, name: string])[] = [
  [/setting-out\.pdf$/, 'Setting-out drawing'],
  [/plan\.pdf$/, 'Plan with runs'],
  [/offer\.pdf$/, 'Offer'],
  [/\.dxf$/, 'CAD file'],
  [/\.xlsx$/, 'Workbook'],
  [/^manifest\.json$/, 'Manifest'],
  [/^SHA256SUMS$/, 'Sums'],
];

/** What a file of an issue is called in a list: its kind, or the words at the end of its name. */
export const fileWords = (fileName: string, stem: string): string => {
  const known = names.find(([ending]) => ending.test(fileName))?.[1];
  if (known !== undefined) return known;
  const own = fileName.startsWith(`${stem}-`) ? fileName.slice(stem.length + 1) : fileName;
  const words = own.replace(/\.[^.]*$/, '').replaceAll('-', ' ');
  return `${words.slice(0, 1).toUpperCase()}${words.slice(1)}`;
};

/** What several names begin with, up to a hyphen; empty where they have nothing in common. */
export const commonStem = (fileNames: readonly string[]): string => {
  const [parts = [], ...others] = fileNames.map((name) => name.split('-'));
  let length = parts.length - 1;
  for (const other of others) {
    let same = 0;
    while (same < length && other[same] === parts[same]) same += 1;
    length = same;
  }
  return parts.slice(0, Math.max(0, length)).join('-');
};

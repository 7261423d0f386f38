import { issueCautions } from '../issueCautions.ts';
import { thisIssue } from '../issuedAs.ts';
import { across } from './cells.ts';
import type { WorkbookRow } from './workbook.ts';
import type { WorkbookInput } from './workbookInput.ts';

/** The rows above a sheet's table: its title, the project, what to know before reading, and the cautions. */
export const sheetHead = (
  name: string,
  { job, at, range, notFitted, issue }: WorkbookInput,
  caption: string,
): readonly WorkbookRow[] => {
  const project = [job.number, job.name, job.client, job.site].filter((part) => part !== '').join(' · ');
  return [
    across(name, 'title'),
    across(
      `${project} · ${issue ? `issue ${thisIssue(issue).number}, ` : 'made '}${at.slice(0, 10)} · stock range ${range.name}, version ${range.version}`,
      'caption',
    ),
    across(caption, 'caption'),
    ...notFitted.map(({ name: run, why }) => across(`${run} is not in this workbook: ${why}`, 'caption')),
    across(issueCautions.join(' '), 'caption'),
  ];
};

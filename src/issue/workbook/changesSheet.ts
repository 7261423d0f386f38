import { changesTitle, type IssuedAs, noChangesWords } from '../issuedAs.ts';
import { cells, section, text } from './cells.ts';
import { sheetHead } from './sheetHead.ts';
import type { WorkbookSheet } from './workbook.ts';
import type { WorkbookInput } from './workbookInput.ts';

/** What changed since the last issue, and all issues up to this one. */
export const changesSheet = (input: WorkbookInput, issue: IssuedAs): WorkbookSheet => ({
  name: 'Changes',
  above: sheetHead(
    changesTitle(issue),
    input,
    'Lengths are listed where they changed by more than both their uncertainties (k = 2).',
  ),
  columns: [
    { heading: 'Where', width: 24 },
    { heading: 'What', width: 56 },
    { heading: 'Was', width: 28 },
    { heading: 'Is', width: 28 },
  ],
  rows: [
    ...(issue.changes && issue.changes.rows.length > 0
      ? issue.changes.rows.map(({ where, what, was, is }) =>
          cells(text(where || 'Whole project'), text(what), text(was), text(is)),
        )
      : [cells(text(''), text(noChangesWords(issue)))]),
    ...section(
      'Issued up to now',
      issue.revisions.map(
        ({ letter, number, date, purpose }) => `Issue ${number}, revision ${letter}, ${date}, ${purpose}`,
      ),
    ),
  ],
});

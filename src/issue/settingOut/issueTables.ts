import { changesTitle, type IssuedAs, noChangesWords, type RevisionLine } from '../issuedAs.ts';
import type { SheetTable } from './tableBlocks.ts';

/** A revision as one line beside the title block. */
export const revisionWords = ({ letter, number, date, purpose }: RevisionLine): string =>
  `${letter}: ${date}, issue ${number}, ${purpose}`;

/** How many of the latest revisions stand beside the title block; the table has them all. */
export const revisionsBeside = 4;

/** The revision table and what changed since the last issue. */
export const issueTables = (issue: IssuedAs): readonly SheetTable[] => [
  {
    title: 'Revisions',
    columns: [
      { title: 'Revision', share: 20 },
      { title: 'Issue', share: 15 },
      { title: 'Date', share: 25 },
      { title: 'Issued for', share: 40 },
    ],
    rows: issue.revisions.map(({ letter, number, date, purpose }) => [letter, String(number), date, purpose]),
  },
  issue.changes && issue.changes.rows.length > 0
    ? {
        title: changesTitle(issue),
        columns: [
          { title: 'Where', share: 20 },
          { title: 'What', share: 48 },
          { title: 'Was', share: 22, align: 'end' },
          { title: 'Is', share: 22, align: 'end' },
        ],
        rows: issue.changes.rows.map(({ where, what, was, is }) => [where || 'Whole project', what, was, is]),
      }
    : { title: changesTitle(issue), columns: [{ title: '', share: 1 }], rows: [[noChangesWords(issue)]] },
];

import type { ChangeRow } from './changes/changeRows.ts';

/** One line of the revision table: an issue up to now. */
export interface RevisionLine {
  /** Its letter in the title block: A for issue 1. */
  readonly letter: string;
  readonly number: number;
  /** ISO 8601 calendar date. */
  readonly date: string;
  /** What it went out for, in words. */
  readonly purpose: string;
}

/** As what a document goes out: its place among the issues of its project, and what changed since the last one. */
export interface IssuedAs {
  /** All issues up to this one, the first first; this one is the last. */
  readonly revisions: readonly RevisionLine[];
  /** Null for a first issue. */
  readonly changes: { readonly since: number; readonly rows: readonly ChangeRow[] } | null;
}

/** The issue that it is. @throws RangeError where there is none */
export const thisIssue = ({ revisions }: IssuedAs): RevisionLine => {
  const last = revisions.at(-1);
  if (!last) throw new RangeError('A document that is issued has at least one line of revisions');
  return last;
};

/** The heading over what changed. */
export const changesTitle = ({ changes }: IssuedAs): string =>
  changes ? `Changes since issue ${changes.since}` : 'Changes';

/** What to say where there is no change to list. */
export const noChangesWords = ({ changes }: IssuedAs): string =>
  changes
    ? `Nothing that is measured, fitted, checked or priced has changed since issue ${changes.since}.`
    : 'This is the first issue.';

import type { ProjectId } from '../../document/ids.ts';
import type { IssueSettings } from '../../document/issueSettings.ts';
import { migrateDocument } from '../../document/migrateDocument.ts';
import type { ProjectDocument } from '../../document/projectDocument.ts';
import { changeRows } from '../../issue/changes/changeRows.ts';
import type { TakeoffChange } from '../../issue/changes/takeoffChange.ts';
import type { TakeoffFacts } from '../../issue/changes/takeoffFacts.ts';
import type { IssuedAs, RevisionLine } from '../../issue/issuedAs.ts';
import type { StockRange } from '../../stock/stockSchema.ts';
import { ApiFailure } from '../apiFailure.ts';
import type { IssueSource } from './issueDocuments.ts';

export const issueInputsFormat = 'footrail-issue-inputs';
export const issueInputsVersion = 1;

/** The parts of the program that decide what comes out. */
export interface ProgramVersions {
  readonly app: string;
  readonly solver: string;
  readonly reader: string;
}

/**
 * Everything that an issue's files were made from, save the plans' bytes, which the archive keeps under the SHA-256
 * that the document names. Kept with the issue as JSON.
 */
export interface IssueInputs {
  readonly format: typeof issueInputsFormat;
  readonly formatVersion: typeof issueInputsVersion;
  readonly projectId: ProjectId;
  readonly number: number;
  /** ISO 8601 instant in UTC: the date of every file. */
  readonly at: string;
  readonly by: string;
  /** The change of the project that `document` is after. */
  readonly revision: number;
  readonly document: ProjectDocument;
  readonly range: StockRange;
  readonly settings: IssueSettings;
  readonly quote?: IssueSource['quote'];
  /** Keys of the documents that go out, in their order. */
  readonly documents: readonly string[];
  readonly program: ProgramVersions;
  readonly facts: TakeoffFacts;
  readonly revisions: readonly RevisionLine[];
  readonly changes: { readonly since: number; readonly changes: readonly TakeoffChange[] } | null;
}

/** As what the files of these inputs go out. */
export const issuedAsOf = ({ revisions, changes, settings }: IssueInputs): IssuedAs => ({
  revisions,
  changes: changes && {
    since: changes.since,
    rows: changeRows(changes.changes, settings.paper === 'us' ? 'ft-in' : 'mm'),
  },
});

/**
 * Reads kept inputs, lifting the document to this program's version.
 *
 * @throws ApiFailure `issue-newer` for inputs of a later format, and what `migrateDocument` refuses
 */
export const readIssueInputs = (text: string): IssueInputs => {
  const inputs = JSON.parse(text) as IssueInputs;
  if (inputs.format !== issueInputsFormat || inputs.formatVersion > issueInputsVersion)
    throw new ApiFailure(
      'issue-newer',
      'This issue was made by a newer Footrail. Its files can be saved; drawing it again or comparing it needs that version.',
      'number',
    );
  const migrated = migrateDocument(inputs.document);
  if (!migrated.ok) throw new ApiFailure(migrated.code, migrated.message, migrated.path);
  return { ...inputs, document: migrated.document };
};

import type { Database } from 'better-sqlite3';
import type {
  BroughtIssues,
  IssuedEntry,
  IssueStore,
  NewIssue,
  StoredIssue,
} from '../app/issue/issuePort.ts';
import { type ArchiveConnection, BrokenContentError } from './archiveConnection.ts';
import { issuePartsOf, type KeptBytes } from './issueParts.ts';
import { storableText } from './rowDigest.ts';
import { changeTally, digestOfRow, isRowIntact, verifyTable } from './talliedTables.ts';

interface IssueRecord {
  readonly issue_key: number;
  readonly project_key: number;
  readonly number: number;
  readonly issued_at: string;
  readonly issued_by: string;
  readonly purpose: string;
  readonly revision: number;
  readonly program: string;
  readonly contents: string;
  readonly digest: Uint8Array;
}

/** What the column `contents` says, as JSON. */
interface Contents {
  readonly inputs: KeptBytes;
  readonly files: readonly (Omit<IssuedEntry, keyof KeptBytes> & KeptBytes)[];
}

const contentsOf = ({ contents }: IssueRecord): Contents => JSON.parse(contents) as Contents;

const entryOf = ({ document, fileName, mediaType, byteLength, sha256 }: Contents['files'][number]) => ({
  document,
  fileName,
  mediaType,
  byteLength,
  sha256,
});

const issueOf = (record: IssueRecord): StoredIssue => {
  const { inputs, files } = contentsOf(record);
  return {
    number: record.number,
    issuedAt: record.issued_at,
    issuedBy: record.issued_by,
    purpose: record.purpose,
    revision: record.revision,
    program: record.program,
    inputsSha256: inputs.sha256,
    files: files.map(entryOf),
  };
};

/** The statements that listing and reading issues pass through; tests assert how SQLite plans them. */
export const issueQueries = {
  all: `SELECT issues.* FROM issues JOIN projects USING (project_key)
          WHERE project_id = ? AND removed_at IS NULL ORDER BY number`,
  one: `SELECT issues.* FROM issues JOIN projects USING (project_key)
          WHERE project_id = ? AND removed_at IS NULL AND number = ?`,
  last: `SELECT max(coalesce((SELECT max(number) FROM issues WHERE project_key = :key), 0),
                    coalesce((SELECT max(number) FROM purged_issues WHERE project_key = :key), 0)) AS last`,
  given: `SELECT 1 FROM issues WHERE project_key = :key AND number = :number
            UNION ALL SELECT 1 FROM purged_issues WHERE project_key = :key AND number = :number`,
  elsewhere: `SELECT * FROM issue_numbers WHERE project_key = ?`,
} as const;

interface NumbersRecord {
  readonly project_key: number;
  readonly last_number: number;
  readonly digest: Uint8Array;
}

const hasTable = (database: Database, name: string): boolean =>
  database.prepare<[string]>('SELECT 1 FROM sqlite_schema WHERE name = ?').get(name) !== undefined;
const hasIssues = (database: Database): boolean => hasTable(database, 'issues');

/** What is known of the numbers given out in other archives; null where nothing is. */
const numbersElsewhere = (database: Database, projectKey: number): NumbersRecord | null => {
  // An archive of an older version that can't be written has no such table.
  if (!hasTable(database, 'issue_numbers')) return null;
  const record = database.prepare<[number], NumbersRecord>(issueQueries.elsewhere).get(projectKey);
  if (!record) {
    const [problem] = verifyTable(database, 'issue_numbers');
    if (problem !== undefined) throw new BrokenContentError(problem);
    return null;
  }
  if (!isRowIntact('issue_numbers', record))
    throw new BrokenContentError('the last number of an issue given out elsewhere is not as it was written');
  return record;
};

/** The highest number that was given out to an issue of the project, here or elsewhere. */
const lastNumber = (database: Database, projectKey: number): number =>
  Math.max(
    database.prepare<[{ key: number }], { last: number }>(issueQueries.last).get({ key: projectKey })?.last ??
      0,
    numbersElsewhere(database, projectKey)?.last_number ?? 0,
  );

/**
 * Keeps an issue of a project, inside the caller's transaction. False, with nothing kept, where its number was
 * given out already.
 */
export const keepIssue = (database: Database, projectKey: number, issue: NewIssue): boolean => {
  // Not "the next one": what is salvaged from a damaged archive may have lost an issue in between.
  if (issue.number <= lastNumber(database, projectKey)) return false;
  insertIssue(database, projectKey, issue);
  return true;
};

/** Notes that numbers up to this one were given out in another archive. */
const noteNumbersElsewhere = (database: Database, projectKey: number, last: number): void => {
  if (last <= lastNumber(database, projectKey)) return;
  const before = numbersElsewhere(database, projectKey);
  const record = { project_key: projectKey, last_number: last };
  const digest = digestOfRow('issue_numbers', record);
  database
    .prepare(
      `INSERT INTO issue_numbers (project_key, last_number, digest) VALUES (:project_key, :last_number, :digest)
       ON CONFLICT (project_key) DO UPDATE SET last_number = excluded.last_number, digest = excluded.digest`,
    )
    .run({ ...record, digest });
  changeTally(database, 'issue_numbers', { before: before?.digest ?? null, after: digest });
};

/**
 * Keeps issues that were given out in another archive, under the numbers that they have, inside the caller's transaction.
 * False where one of the numbers was given out here; the caller's transaction is then to be taken back.
 */
export const keepBrought = (database: Database, projectKey: number, brought: BroughtIssues): boolean => {
  const given = database.prepare<[{ key: number; number: number }]>(issueQueries.given);
  for (const issue of brought.issues) {
    if (given.get({ key: projectKey, number: issue.number }) !== undefined) return false;
    insertIssue(database, projectKey, issue);
  }
  noteNumbersElsewhere(database, projectKey, brought.lastNumber);
  return true;
};

const insertIssue = (database: Database, projectKey: number, issue: NewIssue): void => {
  const parts = issuePartsOf(database);
  const contents: Contents = {
    inputs: parts.keep(Buffer.from(issue.inputs, 'utf8')),
    files: issue.files.map(({ document, fileName, mediaType, bytes }) => ({
      document,
      fileName,
      mediaType,
      ...parts.keep(bytes),
    })),
  };
  const { key } = database
    .prepare<[], { key: number }>(
      `SELECT max(coalesce((SELECT max(issue_key) FROM issues), 0),
                  coalesce((SELECT max(issue_key) FROM purged_issues), 0)) + 1 AS key`,
    )
    .get()!;
  const record = {
    issue_key: key,
    project_key: projectKey,
    number: issue.number,
    issued_at: issue.issuedAt,
    issued_by: storableText(issue.issuedBy),
    purpose: storableText(issue.purpose),
    revision: issue.revision,
    program: issue.program,
    contents: JSON.stringify(contents),
  };
  const digest = digestOfRow('issues', record);
  database
    .prepare(
      `INSERT INTO issues (issue_key, project_key, number, issued_at, issued_by, purpose, revision, program, contents, digest)
       VALUES (:issue_key, :project_key, :number, :issued_at, :issued_by, :purpose, :revision, :program, :contents, :digest)`,
    )
    .run({ ...record, digest });
  changeTally(database, 'issues', { before: null, after: digest });
};

/** The part of the store that gives out what was issued; `keepIssue` and `keepBrought` are what fills it. */
export const createIssueStore = (archive: ArchiveConnection): Omit<IssueStore, 'keepBroughtIssues'> => {
  const { database } = archive;

  const intact = (record: IssueRecord): IssueRecord => {
    if (!isRowIntact('issues', record))
      throw new BrokenContentError(`the entry of issue ${record.number} is not as it was written`);
    return record;
  };

  const find = (projectId: string, number: number): IssueRecord | null => {
    // An archive of an older version that can't be written has none.
    if (!hasIssues(database)) return null;
    const record = database.prepare<[string, number], IssueRecord>(issueQueries.one).get(projectId, number);
    return record ? intact(record) : null;
  };

  return {
    listIssues: async (projectId) =>
      archive.read(() => {
        if (!hasIssues(database)) return { issues: [], nextNumber: 1 };
        const project = database
          .prepare<[string], { project_key: number }>('SELECT project_key FROM projects WHERE project_id = ?')
          .get(projectId);
        const records = database.prepare<[string], IssueRecord>(issueQueries.all).all(projectId);
        if (records.length === 0) {
          const [problem] = verifyTable(database, 'issues');
          if (problem !== undefined) throw new BrokenContentError(problem);
        }
        return {
          issues: records.map((record) => issueOf(intact(record))),
          nextNumber: (project ? lastNumber(database, project.project_key) : 0) + 1,
        };
      }),

    issueInputs: async (projectId, number) =>
      archive.read(() => {
        const record = find(projectId, number);
        if (!record) return null;
        const bytes = issuePartsOf(database).read(contentsOf(record).inputs);
        return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('utf8');
      }),

    issuedBytes: async (projectId, number, fileName) =>
      archive.read(() => {
        const record = find(projectId, number);
        const file = record && contentsOf(record).files.find((one) => one.fileName === fileName);
        return file ? issuePartsOf(database).read(file) : null;
      }),
  };
};

/** Reads every file and the inputs of every issue: what is wrong with them, and how many issues there are. */
export const checkIssues = (
  archive: ArchiveConnection,
): { readonly problems: readonly string[]; readonly issues: number } =>
  archive.read(() => {
    const { database } = archive;
    if (!hasIssues(database)) return { problems: [], issues: 0 };
    const parts = issuePartsOf(database);
    const problems: string[] = [];
    let issues = 0;
    for (const record of database.prepare<[], IssueRecord>('SELECT * FROM issues NOT INDEXED').iterate()) {
      issues += 1;
      if (!isRowIntact('issues', record)) continue; // The tally of the table says so.
      const { inputs, files } = contentsOf(record);
      for (const { name, kept } of [
        { name: 'inputs', kept: inputs },
        ...files.map((file) => ({ name: file.fileName, kept: file })),
      ]) {
        try {
          parts.read(kept);
        } catch (error) {
          if (!(error instanceof BrokenContentError)) throw error;
          problems.push(`issue ${record.number} of project ${record.project_key}: ${name}: ${error.message}`);
        }
      }
    }
    return { problems, issues };
  });

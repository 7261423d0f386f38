import type { Database } from 'better-sqlite3';
import { changeSum, digestShare, rowDigest, sameDigest } from './rowDigest.ts';

/**
 * Tables whose rows each carry a digest over the named columns, and whose digests are counted and summed in `tallies`.
 * Reading a whole table against its tally tells that no row was changed, added or lost behind our back.
 */
const digestedColumns = {
  projects: [
    'project_key',
    'project_id',
    'name',
    'job_number',
    'client',
    'site',
    'state',
    'tender_date',
    'sheets',
    'runs',
    'created_at',
    'modified_at',
    'removed_at',
    'change_number',
    'revision',
    'last_event_digest',
    'document_digest',
  ],
  plans: ['plan_key', 'sha256', 'file_name', 'byte_length', 'added_at'],
  stock_ranges: ['range_key', 'range_id', 'version', 'range', 'added_at'],
  search_rows: [
    'project_key',
    'revision',
    'facts_version',
    'is_removed',
    'change_number',
    'modified_at',
    'name_key',
    'number_key',
    'client',
    'client_key',
    'state',
    'tender_date',
    'retain_until',
    'range_id',
    'run_lengths_mm',
    'shortest_run_mm',
    'longest_run_mm',
    'total_length_mm',
    'pieces',
    'facts_digest',
  ],
  saved_searches: ['search_key', 'name', 'search', 'saved_at'],
  issues: [
    'issue_key',
    'project_key',
    'number',
    'issued_at',
    'issued_by',
    'purpose',
    'revision',
    'program',
    'contents',
  ],
  issue_numbers: ['project_key', 'last_number'],
} as const satisfies Readonly<Record<string, readonly string[]>>;

export type TalliedTable = keyof typeof digestedColumns;

/** All columns of a tallied table: those that its digest covers, and the digest. */
export const columnsOf = (table: TalliedTable): readonly string[] => [...digestedColumns[table], 'digest'];

/** The tallied tables that a file has; one of an older version has fewer. */
export const talliedTablesIn = (database: Database): readonly TalliedTable[] => {
  const named = database.prepare<[string]>(`SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = ?`);
  return (Object.keys(digestedColumns) as TalliedTable[]).filter((table) => named.get(table) !== undefined);
};

type Cell = string | number | null | Uint8Array;
export type DigestedRow = { readonly digest: Uint8Array };

/** The digest that a row of the table must carry. */
export const digestOfRow = (table: TalliedTable, row: object): Buffer =>
  rowDigest(digestedColumns[table].map((column) => (row as Readonly<Record<string, Cell>>)[column] ?? null));

export const isRowIntact = (table: TalliedTable, row: DigestedRow): boolean =>
  sameDigest(row.digest, digestOfRow(table, row));

/** Notes in the table's tally that a row came, went, or changed from one digest to another. */
export const changeTally = (
  database: Database,
  table: TalliedTable,
  change: { readonly before: Uint8Array | null; readonly after: Uint8Array | null },
): void => {
  const tally = database
    .prepare<[string], { digest_sum: number }>('SELECT digest_sum FROM tallies WHERE name = ?')
    .get(table);
  if (!tally) throw new Error(`No tally of ${table}.`);
  const sum = changeSum(
    tally.digest_sum,
    change.after === null ? 0 : digestShare(change.after),
    change.before === null ? 0 : digestShare(change.before),
  );
  database
    .prepare('UPDATE tallies SET row_count = row_count + ?, digest_sum = ? WHERE name = ?')
    .run((change.after === null ? 0 : 1) - (change.before === null ? 0 : 1), sum, table);
};

/** Holds rows, which must be all of the table's, against the table's tally: the problems found. */
export const verifyRows = (
  database: Database,
  table: TalliedTable,
  rows: Iterable<DigestedRow>,
): readonly string[] => {
  let count = 0;
  let broken = 0;
  let sum = 0;
  for (const row of rows) {
    count += 1;
    if (!isRowIntact(table, row)) broken += 1;
    sum = changeSum(sum, digestShare(row.digest), 0);
  }
  const tally = database
    .prepare<[string], { row_count: number; digest_sum: number }>('SELECT * FROM tallies WHERE name = ?')
    .get(table);
  const problems: string[] = [];
  if (broken > 0) problems.push(`${broken} of ${count} rows of ${table} are not as they were written`);
  if (tally?.row_count !== count)
    problems.push(`${table} has ${count} rows where ${tally?.row_count ?? 'no'} were counted`);
  else if (tally.digest_sum !== sum) problems.push(`the rows of ${table} are not those that were counted`);
  return problems;
};

/** Reads a whole table, in the order of its own b-tree and past every index, against its tally. */
export const verifyTable = (database: Database, table: TalliedTable): readonly string[] =>
  verifyRows(
    database,
    table,
    database.prepare<[], DigestedRow>(`SELECT * FROM ${table} NOT INDEXED`).iterate(),
  );

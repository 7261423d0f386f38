import Database from 'better-sqlite3';
import { archiveApplicationId, archiveMigrations, type Migration } from './archiveMigrations.ts';
import { archiveVersionOf, migrateArchive, newestVersion, schemaTextOf } from './migrateArchive.ts';
import { saysCorrupt } from './storeErrors.ts';
import { talliedTablesIn, verifyTable } from './talliedTables.ts';
import { isAboutWordIndex } from './wordIndex.ts';

type Connection = Database.Database;

/** Up to this size the whole file is checked on opening; above it, the small tables that everything hangs on. */
const wholeCheckBytesMost = 64 * 1024 * 1024;
const smallTables = (database: Connection): readonly string[] => [
  'archive_facts',
  'tallies',
  ...talliedTablesIn(database),
];
/** SQLite lists at most this many problems; a person needs the first few. */
const problemsMost = 20;

const expectedSchemaText = (migrations: readonly Migration[]): string => {
  const fresh = new Database(':memory:');
  try {
    migrateArchive(fresh, migrations);
    return schemaTextOf(fresh);
  } finally {
    fresh.close();
  }
};

/**
 * SQLite's own check: of the whole file with `integrity_check` or `quick_check`, or of one table. What it says of the
 * index of words alone is left out: that is made of the rest, and can be made again (`wordIndex.ts`).
 */
export const runSqliteCheck = (
  database: Connection,
  check: 'integrity_check' | 'quick_check',
  table?: string,
  onBrokenIndex?: () => void,
): readonly string[] => {
  const argument = table === undefined ? problemsMost : `'${table}'`;
  const rows = database.pragma(`${check}(${argument})`) as readonly Record<string, string>[];
  const lines = rows.slice(0, problemsMost).map((row) => Object.values(row)[0] ?? '');
  if (lines.some(isAboutWordIndex)) onBrokenIndex?.();
  return lines.filter((line) => line !== 'ok' && !isAboutWordIndex(line));
};

/** Runs a check; an error of SQLite's while checking is a problem found, not a failure to check. */
export const collectProblems = (check: () => readonly string[]): readonly string[] => {
  try {
    return check();
  } catch (error) {
    if (saysCorrupt(error) || error instanceof RangeError || error instanceof SyntaxError)
      return [(error as Error).message];
    // Statements of ours that no longer compile: a table or column has another name.
    if (!(error instanceof Database.SqliteError && error.code === 'SQLITE_ERROR')) throw error;
    return [error.message];
  }
};

/** Whether the whole file is checked when it is opened. */
const isSmall = (database: Connection): boolean => {
  const pages = database.pragma('page_count', { simple: true }) as number;
  const pageBytes = database.pragma('page_size', { simple: true }) as number;
  return pages * pageBytes <= wholeCheckBytesMost;
};

const versionProblems = (database: Connection, migrations: readonly Migration[]): readonly string[] => {
  const version = archiveVersionOf(database);
  const noted = database
    .prepare<[], { value: string }>(`SELECT value FROM archive_facts WHERE name = 'version'`)
    .get()?.value;
  if (noted !== String(version))
    return [`its header says version ${version}, its own note says ${noted ?? 'nothing'}`];
  const made = migrations.filter((migration) => migration.version <= version);
  return newestVersion(made) === version && schemaTextOf(database) !== expectedSchemaText(made)
    ? ['its tables are not as Footrail makes them']
    : [];
};

/**
 * Whether an archive of a version known here can be trusted: version, tables, SQLite's check, and every row of the
 * tables that are tallied. Reads only; a broken index of words is told apart (`onBrokenIndex`), for it can be made anew. The answer is a list of problems, empty for a sound archive.
 */
export const inspectArchive = (
  database: Connection,
  migrations: readonly Migration[] = archiveMigrations,
  onBrokenIndex?: () => void,
): readonly string[] => {
  const applicationId = database.pragma('application_id', { simple: true });
  if (applicationId !== archiveApplicationId) return ['its header does not carry Footrail’s mark'];
  const structure = collectProblems(() => versionProblems(database, migrations));
  if (structure.length > 0) return structure;
  const found = collectProblems(() =>
    isSmall(database)
      ? runSqliteCheck(database, 'quick_check', undefined, onBrokenIndex)
      : smallTables(database).flatMap((table) => runSqliteCheck(database, 'quick_check', table)),
  );
  if (found.length > 0) return found;
  return talliedTablesIn(database).flatMap((table) => collectProblems(() => verifyTable(database, table)));
};

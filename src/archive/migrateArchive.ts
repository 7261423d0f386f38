import type { Database } from 'better-sqlite3';
import { archiveApplicationId, archiveMigrations, type Migration } from './archiveMigrations.ts';

/** The version of an archive's tables; 0 in a new file. */
export const archiveVersionOf = (database: Database): number =>
  database.pragma('user_version', { simple: true }) as number;

/** The version that a list of migrations leads to. */
export const newestVersion = (migrations: readonly Migration[]): number => migrations.at(-1)?.version ?? 0;

/**
 * Brings an archive to the newest version, all missing steps in one transaction: it has all of them or none. A second
 * process that does the same waits, then finds nothing left to do. Throws where the steps do not count up by one.
 */
export const migrateArchive = (
  database: Database,
  migrations: readonly Migration[] = archiveMigrations,
): void => {
  for (const [index, migration] of migrations.entries()) {
    if (migration.version !== index + 1)
      throw new Error(`Migration ${index + 1} is numbered ${migration.version}.`);
  }
  database
    .transaction(() => {
      const from = archiveVersionOf(database);
      const missing = migrations.filter((migration) => migration.version > from);
      if (missing.length === 0) return;
      for (const migration of missing) database.exec(migration.sql);
      const version = String(newestVersion(migrations));
      database
        .prepare(
          `INSERT INTO archive_facts VALUES ('version', ?) ON CONFLICT (name) DO UPDATE SET value = excluded.value`,
        )
        .run(version);
      database.pragma(`application_id = ${archiveApplicationId}`);
      database.pragma(`user_version = ${version}`);
    })
    .immediate();
};

/** Every table, index and trigger as SQL text, for telling whether a file's are those that the migrations make. */
export const schemaTextOf = (database: Database): string =>
  database
    .prepare<[], { line: string }>(
      `SELECT type || ' ' || name || ' ' || tbl_name || ' ' || coalesce(sql, '') AS line
         FROM sqlite_schema WHERE name NOT LIKE 'sqlite_stat%' ORDER BY type, name`,
    )
    .all()
    .map((row) => row.line)
    .join('\n');

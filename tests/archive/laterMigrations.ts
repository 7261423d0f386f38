import { archiveMigrations, type Migration } from '../../src/archive/archiveMigrations.ts';

/** The archive's migrations and eight more, each of which rewrites a table, so that a kill has something to hit. */
export const laterMigrations: readonly Migration[] = [
  ...archiveMigrations,
  ...Array.from(
    { length: 8 },
    (_, index): Migration => ({
      version: archiveMigrations.length + 1 + index,
      sql: `
      CREATE TABLE notes_${index} (note_key INTEGER PRIMARY KEY, note TEXT NOT NULL) STRICT;
      INSERT INTO notes_${index} SELECT project_key, document FROM documents;`,
    }),
  ),
];

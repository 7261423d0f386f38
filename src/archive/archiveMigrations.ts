/**
 * How the archive's tables came to be, step by step. A step that was released is frozen: later needs get a new step.
 *
 * What SQLite's own check can't see (a changed letter inside a text) is covered by digests: every row that matters
 * carries a SHA-256 over its content, the events of a project form a chain, and `tallies` keeps count and sum of each
 * table's digests, so that a vanished row is missed.
 */

/** "FTRL", in the header of every archive file. */
export const archiveApplicationId = 0x4654524c;

export interface Migration {
  /** The version that the archive has after this step; steps count up from 1 without gaps. */
  readonly version: number;
  readonly sql: string;
}

export const archiveMigrations: readonly Migration[] = [
  {
    version: 1,
    sql: `
      CREATE TABLE archive_facts (
        name TEXT PRIMARY KEY,
        value TEXT NOT NULL
      ) STRICT, WITHOUT ROWID;

      CREATE TABLE tallies (
        name TEXT PRIMARY KEY,
        row_count INTEGER NOT NULL,
        digest_sum INTEGER NOT NULL
      ) STRICT, WITHOUT ROWID;
      INSERT INTO tallies VALUES ('projects', 0, 0), ('plans', 0, 0), ('stock_ranges', 0, 0);

      CREATE TABLE projects (
        project_key INTEGER PRIMARY KEY,
        project_id TEXT NOT NULL UNIQUE,
        name TEXT NOT NULL,
        job_number TEXT NOT NULL,
        client TEXT NOT NULL,
        site TEXT NOT NULL,
        state TEXT NOT NULL,
        tender_date TEXT NOT NULL,
        sheets INTEGER NOT NULL,
        runs INTEGER NOT NULL,
        created_at TEXT NOT NULL,
        modified_at TEXT NOT NULL,
        removed_at TEXT,
        -- Counts the archive's changes: the order of last changes, whatever the clock said.
        change_number INTEGER NOT NULL,
        revision INTEGER NOT NULL,
        last_event_digest BLOB NOT NULL,
        document_digest BLOB NOT NULL,
        digest BLOB NOT NULL
      ) STRICT;
      CREATE UNIQUE INDEX projects_by_change ON projects (change_number);

      CREATE TABLE documents (
        project_key INTEGER PRIMARY KEY REFERENCES projects (project_key),
        document TEXT NOT NULL
      ) STRICT;

      CREATE TABLE events (
        project_key INTEGER NOT NULL REFERENCES projects (project_key),
        revision INTEGER NOT NULL,
        kind TEXT NOT NULL,
        label TEXT NOT NULL,
        patch TEXT NOT NULL,
        at TEXT NOT NULL,
        digest BLOB NOT NULL,
        PRIMARY KEY (project_key, revision)
      ) STRICT;
      CREATE TRIGGER events_are_never_changed BEFORE UPDATE ON events
        BEGIN SELECT RAISE(ABORT, 'an event is never changed'); END;

      CREATE TABLE plans (
        plan_key INTEGER PRIMARY KEY,
        sha256 TEXT NOT NULL UNIQUE,
        file_name TEXT NOT NULL,
        byte_length INTEGER NOT NULL,
        added_at TEXT NOT NULL,
        digest BLOB NOT NULL
      ) STRICT;
      CREATE TABLE plan_bytes (
        plan_key INTEGER PRIMARY KEY REFERENCES plans (plan_key),
        bytes BLOB NOT NULL
      ) STRICT;

      CREATE TABLE readings (
        reading_key INTEGER PRIMARY KEY,
        sha256 TEXT NOT NULL,
        page INTEGER NOT NULL,
        part TEXT NOT NULL,
        reader_version TEXT NOT NULL,
        reading ANY NOT NULL,
        digest BLOB NOT NULL,
        UNIQUE (sha256, page, part)
      ) STRICT;

      CREATE TABLE stock_ranges (
        range_key INTEGER PRIMARY KEY,
        range_id TEXT NOT NULL,
        version INTEGER NOT NULL,
        range TEXT NOT NULL,
        added_at TEXT NOT NULL,
        digest BLOB NOT NULL,
        UNIQUE (range_id, version)
      ) STRICT;
    `,
  },
];

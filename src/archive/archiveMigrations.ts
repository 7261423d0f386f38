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
  {
    version: 2,
    sql: `
      ALTER TABLE events ADD COLUMN made_by TEXT;

      -- What projects are found by. Derived from their documents by the app, which alone knows lengths; kept in the
      -- transaction of each change. A project in stale_facts has its facts worked out before the next search.
      CREATE TABLE search_rows (
        project_key INTEGER PRIMARY KEY REFERENCES projects (project_key),
        revision INTEGER NOT NULL,
        facts_version INTEGER NOT NULL,
        is_removed INTEGER NOT NULL,
        change_number INTEGER NOT NULL,
        modified_at TEXT NOT NULL,
        name_key TEXT NOT NULL,
        number_key TEXT NOT NULL,
        client TEXT NOT NULL,
        client_key TEXT NOT NULL,
        state TEXT NOT NULL,
        tender_date TEXT NOT NULL,
        retain_until TEXT NOT NULL,
        range_id TEXT NOT NULL,
        -- A JSON array of whole mm; the shortest and the longest spare most searches reading it.
        run_lengths_mm TEXT NOT NULL,
        shortest_run_mm INTEGER,
        longest_run_mm INTEGER,
        total_length_mm INTEGER,
        pieces INTEGER,
        facts_digest BLOB NOT NULL,
        digest BLOB NOT NULL
      ) STRICT;
      CREATE INDEX search_rows_by_change ON search_rows (is_removed, change_number);
      CREATE INDEX search_rows_by_name ON search_rows (is_removed, name_key, change_number);
      CREATE INDEX search_rows_by_tender ON search_rows (is_removed, tender_date, change_number);
      CREATE INDEX search_rows_by_state ON search_rows (is_removed, state);
      CREATE INDEX search_rows_by_client ON search_rows (is_removed, client);
      CREATE INDEX search_rows_by_version ON search_rows (facts_version);
      CREATE TABLE search_facts (
        project_key INTEGER PRIMARY KEY REFERENCES projects (project_key),
        facts TEXT NOT NULL
      ) STRICT;
      CREATE TABLE stale_facts (
        project_key INTEGER PRIMARY KEY REFERENCES projects (project_key)
      ) STRICT;
      INSERT INTO stale_facts SELECT project_key FROM projects WHERE removed_at IS NULL;

      -- Words come folded and parted by spaces, so that every rule about letters is the app's: to the tokenizer
      -- "ascii" whatever is not ASCII is a letter.
      CREATE VIRTUAL TABLE project_search USING fts5 (
        words, plan_words, marks, tokenize = 'ascii', detail = 'column', prefix = '2 3'
      );

      CREATE TABLE plan_words (
        words_key INTEGER PRIMARY KEY,
        sha256 TEXT NOT NULL,
        page INTEGER NOT NULL,
        words TEXT NOT NULL,
        digest BLOB NOT NULL,
        UNIQUE (sha256, page)
      ) STRICT;

      CREATE TABLE saved_searches (
        search_key INTEGER PRIMARY KEY,
        name TEXT NOT NULL UNIQUE,
        search TEXT NOT NULL,
        saved_at TEXT NOT NULL,
        digest BLOB NOT NULL
      ) STRICT;
      INSERT INTO tallies VALUES ('search_rows', 0, 0), ('saved_searches', 0, 0);
    `,
  },
  {
    version: 3,
    sql: `
      -- What was sent out, each issue for good: never changed, and let go of only through purged_issues. A row's
      -- digest covers all of it; the contents name every file and the inputs by SHA-256, and the parts that they are
      -- put together from. What two issues have in common (the architect's page, above all) is kept once.
      CREATE TABLE issues (
        issue_key INTEGER PRIMARY KEY,
        project_key INTEGER NOT NULL REFERENCES projects (project_key),
        number INTEGER NOT NULL,
        issued_at TEXT NOT NULL,
        issued_by TEXT NOT NULL,
        purpose TEXT NOT NULL,
        -- The change of the project that the issued document came from.
        revision INTEGER NOT NULL,
        program TEXT NOT NULL,
        contents TEXT NOT NULL,
        digest BLOB NOT NULL,
        UNIQUE (project_key, number)
      ) STRICT;
      CREATE TABLE issue_parts (
        part_key INTEGER PRIMARY KEY,
        -- Of the bytes as they come out, whatever they are packed in.
        sha256 TEXT NOT NULL UNIQUE,
        byte_length INTEGER NOT NULL,
        packing TEXT NOT NULL,
        packed BLOB NOT NULL
      ) STRICT;
      -- The one way to let an issue go (personal data that must not be kept): note it here first, in the transaction
      -- that deletes it. Its number is not given out again.
      CREATE TABLE purged_issues (
        issue_key INTEGER PRIMARY KEY,
        project_key INTEGER NOT NULL,
        number INTEGER NOT NULL,
        purged_at TEXT NOT NULL,
        reason TEXT NOT NULL
      ) STRICT;

      CREATE TRIGGER issues_are_never_changed BEFORE UPDATE ON issues
        BEGIN SELECT RAISE(ABORT, 'an issue is never changed'); END;
      CREATE TRIGGER issues_are_never_deleted BEFORE DELETE ON issues
        WHEN NOT EXISTS (SELECT 1 FROM purged_issues WHERE issue_key = old.issue_key)
        BEGIN SELECT RAISE(ABORT, 'an issue is never deleted'); END;
      -- REPLACE takes rows away without asking the triggers above.
      CREATE TRIGGER issues_are_never_replaced BEFORE INSERT ON issues
        WHEN EXISTS (SELECT 1 FROM issues WHERE issue_key = new.issue_key
                       OR (project_key = new.project_key AND number = new.number))
          OR EXISTS (SELECT 1 FROM purged_issues WHERE issue_key = new.issue_key
                       OR (project_key = new.project_key AND number = new.number))
        BEGIN SELECT RAISE(ABORT, 'an issue is never replaced'); END;
      CREATE TRIGGER issue_parts_are_never_changed BEFORE UPDATE ON issue_parts
        BEGIN SELECT RAISE(ABORT, 'a part of an issue is never changed'); END;
      CREATE TRIGGER issue_parts_are_never_deleted BEFORE DELETE ON issue_parts
        WHEN EXISTS (SELECT 1 FROM issues WHERE instr(contents, old.sha256) > 0)
        BEGIN SELECT RAISE(ABORT, 'a part of an issue is never deleted'); END;
      CREATE TRIGGER issue_parts_are_never_replaced BEFORE INSERT ON issue_parts
        WHEN EXISTS (SELECT 1 FROM issue_parts WHERE part_key = new.part_key OR sha256 = new.sha256)
        BEGIN SELECT RAISE(ABORT, 'a part of an issue is never replaced'); END;
      CREATE TRIGGER purged_issues_are_never_changed BEFORE UPDATE ON purged_issues
        BEGIN SELECT RAISE(ABORT, 'a purge is never changed'); END;
      CREATE TRIGGER purged_issues_are_never_deleted BEFORE DELETE ON purged_issues
        BEGIN SELECT RAISE(ABORT, 'a purge is never deleted'); END;
      INSERT INTO tallies VALUES ('issues', 0, 0);
    `,
  },
  {
    version: 4,
    sql: `
      -- One row for each run with a length, so that runs like another are found without reading every project's
      -- facts. Made of the facts, kept with them.
      CREATE TABLE run_rows (
        project_key INTEGER NOT NULL REFERENCES projects (project_key),
        run_number INTEGER NOT NULL,
        straights INTEGER NOT NULL,
        length_mm INTEGER NOT NULL,
        PRIMARY KEY (project_key, run_number)
      ) STRICT, WITHOUT ROWID;
      CREATE INDEX run_rows_by_shape ON run_rows (straights, length_mm);
      INSERT INTO run_rows
        SELECT project_key, run.key, json_array_length(run.value, '$.straightsMm'),
          (SELECT sum(straight.value) FROM json_each(run.value, '$.straightsMm') AS straight)
        FROM search_rows JOIN search_facts USING (project_key), json_each(search_facts.facts, '$.runs') AS run
        WHERE is_removed = 0 AND json_array_length(run.value, '$.straightsMm') > 0;
    `,
  },
  {
    version: 5,
    sql: `
      -- Up to which number a project's issues were given out in another archive, as a project file said that left their
      -- files out: none of these numbers is given out here.
      CREATE TABLE issue_numbers (
        project_key INTEGER PRIMARY KEY REFERENCES projects (project_key),
        last_number INTEGER NOT NULL,
        digest BLOB NOT NULL
      ) STRICT;
      INSERT INTO tallies VALUES ('issue_numbers', 0, 0);
    `,
  },
];

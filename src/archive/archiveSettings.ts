import type { Database } from 'better-sqlite3';

/** What every connection to an archive is set to, whether it writes or not. */
export const setUpConnection = (database: Database): void => {
  database.pragma('foreign_keys = ON');
  database.pragma('trusted_schema = OFF');
  database.pragma('cell_size_check = ON');
};

/** Accepted means on disk: every commit is synced, on macOS down to the medium. */
export const setUpWriting = (database: Database): void => {
  database.pragma('journal_mode = WAL');
  database.pragma('synchronous = FULL');
  database.pragma('fullfsync = ON');
  database.pragma('checkpoint_fullfsync = ON');
  database.pragma('journal_size_limit = 67108864');
};

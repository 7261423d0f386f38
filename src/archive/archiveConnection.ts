import { statSync } from 'node:fs';
import type { Database } from 'better-sqlite3';
import { StoreError } from '../app/ports.ts';
import { asStoreError, saysCorrupt, saysWordIndexBroken, storeTrouble } from './storeErrors.ts';

/** A content that is not as it was written. The connection turns it into `archive-damaged` and stops all writing. */
export class BrokenContentError extends Error {
  constructor(problem: string) {
    super(problem);
    this.name = 'BrokenContentError';
  }
}

/** One opened archive file: every use goes through `read` or `write`, so that each trouble gets its message. */
export interface ArchiveConnection {
  readonly path: string;
  readonly database: Database;
  /** What was found broken, at opening or since; anything in it ends all writing. */
  readonly problems: () => readonly string[];
  /** Why nothing can be written though nothing is broken, or null. */
  readonly readOnlyBecause: StoreError | null;
  /** What a person should know though nothing is broken (any more). */
  readonly notices: () => readonly string[];
  readonly notice: (words: string) => void;
  /** Makes the index of words anew; everything else stays as it is. */
  readonly rebuildWordIndex: () => void;
  /** The same because it was broken: a person is told. */
  readonly renewWordIndex: () => void;
  /** Runs what SQLite takes outside of transactions only, such as VACUUM. */
  readonly alone: <Value>(work: () => Value) => Value;
  /** Notes something broken that was found in another way, and throws the error that refuses to write. */
  readonly noticeDamage: (problem: string) => never;
  /** The error that refuses to write to a damaged archive; names what is broken and the backups. */
  readonly damagedError: () => StoreError;
  /** Runs `work` on one moment of the archive, whatever other processes write meanwhile. */
  readonly read: <Value>(work: () => Value) => Value;
  /** Runs `work` in one transaction that is on disk when this returns, or has left nothing behind when it throws. */
  readonly write: <Value>(work: () => Value) => Value;
  readonly close: () => void;
}

const identityOf = (path: string): string | null => {
  const stat = statSync(path, { bigint: true, throwIfNoEntry: false });
  return stat ? `${stat.dev}:${stat.ino}` : null;
};

export const createArchiveConnection = (options: {
  readonly path: string;
  readonly database: Database;
  readonly problems: readonly string[];
  readonly readOnlyBecause: StoreError | null;
  readonly describeDamage: (problems: readonly string[]) => string;
  readonly notices?: readonly string[];
  /** Makes the index of words anew, within a transaction, and says so in words. */
  readonly rebuildWordIndex: (database: Database) => string;
}): ArchiveConnection => {
  const { path, database, readOnlyBecause } = options;
  const problems = [...options.problems];
  const notices = [...(options.notices ?? [])];
  const notice = (words: string): void => {
    if (!notices.includes(words)) notices.push(words);
  };
  const fileIdentity = identityOf(path);
  const logPath = `${path}-wal`;
  let logIdentity: string | null = null;

  let described = { problemCount: -1, message: '' };
  /** Finding the good backups reads them, so the words are kept until another problem is found. */
  const damagedError = (): StoreError => {
    if (described.problemCount !== problems.length)
      described = { problemCount: problems.length, message: options.describeDamage(problems) };
    return new StoreError('archive-damaged', described.message);
  };

  const refuseMoved = (): void => {
    if (identityOf(path) !== fileIdentity) throw storeTrouble('archive-moved', path);
    if (logIdentity !== null && identityOf(logPath) !== logIdentity)
      throw storeTrouble('archive-moved', logPath);
  };

  const guard = <Value>(work: () => Value): Value => {
    if (!database.open) throw storeTrouble('archive-closed');
    try {
      return work();
    } catch (error) {
      if (error instanceof BrokenContentError || saysCorrupt(error)) {
        const problem = (error as Error).message;
        if (!problems.includes(problem)) problems.push(problem);
        throw damagedError();
      }
      throw asStoreError(error) ?? error;
    }
  };

  /** Runs `work` in one transaction that is on disk when this returns. */
  const change = <Value>(work: () => Value): Value => {
    if (problems.length > 0) throw damagedError();
    if (readOnlyBecause) throw readOnlyBecause;
    refuseMoved();
    const value = database
      .transaction(() => {
        const result = work();
        // A file moved away between the look above and here would take the change with it.
        refuseMoved();
        return result;
      })
      .immediate();
    logIdentity ??= identityOf(logPath);
    return value;
  };

  const renewWordIndex = (): void => notice(change(() => options.rebuildWordIndex(database)));

  /** What failed at the index of words, which is made of the rest, is tried again once that is made anew. */
  const withWholeIndex = <Value>(work: () => Value): Value => {
    try {
      return work();
    } catch (error) {
      if (!saysWordIndexBroken(error) || readOnlyBecause || problems.length > 0) throw error;
      renewWordIndex();
      return work();
    }
  };

  return {
    path,
    database,
    problems: () => problems,
    readOnlyBecause,
    notices: () => notices,
    notice,
    rebuildWordIndex: () => guard(() => void change(() => options.rebuildWordIndex(database))),
    renewWordIndex: () => guard(renewWordIndex),
    alone: (work) =>
      guard(() => {
        if (problems.length > 0) throw damagedError();
        if (readOnlyBecause) throw readOnlyBecause;
        refuseMoved();
        return work();
      }),
    damagedError,
    noticeDamage: (problem) => {
      if (!problems.includes(problem)) problems.push(problem);
      throw damagedError();
    },
    read: (work) => guard(() => withWholeIndex(() => database.transaction(work)())),
    write: (work) => guard(() => withWholeIndex(() => change(work))),
    close: () => {
      if (database.open) database.close();
    },
  };
};

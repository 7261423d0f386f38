import { accessSync, constants, copyFileSync, mkdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { type Store, StoreError } from '../app/ports.ts';
import type { StoreHealth } from '../app/search/searchPort.ts';
import { type ArchiveConnection, createArchiveConnection } from './archiveConnection.ts';
import { readArchiveHeader } from './archiveHeader.ts';
import { archiveApplicationId, archiveMigrations, type Migration } from './archiveMigrations.ts';
import { setUpConnection, setUpWriting } from './archiveSettings.ts';
import { backUpArchive, copyArchive, removeAbandonedDrafts, syncFolder } from './backUpArchive.ts';
import { type BackupFile, findGoodBackups, listBackups } from './backupFiles.ts';
import { type ArchiveCheck, checkArchive } from './checkArchive.ts';
import { areCopiesDue, removeDueCopies } from './dueCopies.ts';
import { eraseDeleted, isErasureDue } from './eraseDeleted.ts';
import { inspectArchive } from './inspectArchive.ts';
import { createIssueStore } from './issueStore.ts';
import { archiveVersionOf, migrateArchive, newestVersion } from './migrateArchive.ts';
import { createPlanStore } from './planStore.ts';
import { createProjectStore } from './projectStore.ts';
import { createPurgeStore } from './purgeStore.ts';
import { createSearchStore } from './searchStore.ts';
import { asStoreError, saysCorrupt, storeTrouble } from './storeErrors.ts';
import { rebuildWordIndex } from './wordIndex.ts';
import { inspectLog } from './writeAheadLog.ts';

export interface ArchiveOptions {
  /** The archive folder; made when it is not there. */
  readonly folder: string;
  /** Now, ISO 8601 in UTC; names backups. */
  readonly now: () => string;
  /** How long to wait for another process's lock, in ms. Default 5000. */
  readonly lockWaitMs?: number;
  /** Leave out to use the archive's own; tests of later versions pass more. */
  readonly migrations?: readonly Migration[];
}

export interface ArchiveHealth {
  readonly state: 'sound' | 'read-only' | 'damaged';
  /** What is broken, in words. Not empty exactly when `damaged`. */
  readonly problems: readonly string[];
  /** What to do about it; empty when sound. */
  readonly advice: string;
  /** What a person should know though nothing need be wrong. */
  readonly notices: readonly string[];
}

export interface Archive {
  readonly folder: string;
  readonly path: string;
  readonly store: Store;
  readonly health: () => ArchiveHealth;
  /** Adds to the rotating backups in the archive folder; null when nothing changed since the newest. */
  readonly backUp: () => Promise<BackupFile | null>;
  /** Copies the archive to a file of its own, which must not exist yet. */
  readonly backUpTo: (path: string) => Promise<void>;
  readonly backups: () => readonly BackupFile[];
  /** Reads everything in the archive and says what is wrong with it. */
  readonly check: () => Promise<ArchiveCheck>;
  readonly close: () => void;
}

export const archiveFileName = 'archive.sqlite';
export const archivePathOf = (folder: string): string => join(folder, archiveFileName);

const describeDamage = (folder: string, problems: readonly string[]): string => {
  const [newest, ...older] = findGoodBackups(folder, 3);
  const restore = newest
    ? `The last good backup is ${newest.name} (${newest.at}): close Footrail and run "footrail archive restore ${newest.name} --archive ${folder}".${older.length > 0 ? ` Older good ones: ${older.map(({ name }) => name).join(', ')}.` : ''}`
    : 'There is no good backup in the folder "backups" beside it; look for a copy made elsewhere.';
  return `The archive ${archivePathOf(folder)} is damaged (${problems.join('; ')}). Nothing more is written to it, and it is kept as it is; what can still be read can be opened. ${restore}`;
};

const damaged = (folder: string, problem: string): StoreError =>
  new StoreError('archive-damaged', describeDamage(folder, [problem]));

/** SQLite writes over what is cut off; a copy of it stays. Answers what to tell the person. */
const keepCutOffLog = (path: string, now: string): string => {
  const copy = `${path}-wal-cut-off-${now.slice(0, 19).replaceAll(':', '')}Z`;
  copyFileSync(`${path}-wal`, copy);
  return `The last entry of the write-ahead log is incomplete. After a power cut that is as it should be: the change was not accepted yet. If there was none, look whether the last change is there, and check the disk. The log as it was found is kept as ${copy}.`;
};

/** An SQLite file without a version is ours only when it is still without content. */
const refuseForeign = (database: Database.Database, folder: string): void => {
  if (database.pragma('application_id', { simple: true }) === archiveApplicationId)
    throw damaged(folder, 'its header names no version');
  const tables = database.prepare<[], { count: number }>('SELECT count(*) AS count FROM sqlite_schema').get();
  if (tables?.count !== 0) throw notOurs(archivePathOf(folder));
};

const notOurs = (path: string): StoreError =>
  new StoreError(
    'archive-not-ours',
    `${path} is not a Footrail archive. It was left untouched. Choose another folder.`,
  );

const refuseNewer = (version: number, own: number): never => {
  throw new StoreError(
    'archive-newer',
    `This archive was written by a newer Footrail (archive version ${version}; this one reads up to ${own}). It was left untouched. Open it with that version.`,
  );
};

const makeFolder = (folder: string): void => {
  if (statSync(folder, { throwIfNoEntry: false })?.isDirectory()) return;
  mkdirSync(folder, { recursive: true });
  syncFolder(dirname(folder));
};

/** Looks at the file before SQLite touches it. True when there is an archive to open, false when one is to be made. */
const isThere = (folder: string, own: number): boolean => {
  const path = archivePathOf(folder);
  const header = readArchiveHeader(path);
  switch (header.kind) {
    case 'archive':
      if (header.version > own) refuseNewer(header.version, own);
      return true;
    case 'foreign':
      throw notOurs(path);
    case 'broken':
      throw damaged(folder, header.problem);
    case 'absent':
    case 'empty':
      if (listBackups(folder).length > 0)
        throw new StoreError(
          'archive-missing',
          `There is no archive at ${path}, but there are backups of one beside it. Put the archive back, or restore a backup with "footrail archive restore NAME --archive ${folder}". Nothing was changed.`,
        );
      return false;
  }
};

const isWritable = (path: string): boolean => {
  try {
    accessSync(path, constants.W_OK);
    return true;
  } catch {
    return false;
  }
};

/** Up to this size an archive on a write-protected disk is read by way of memory. */
const inMemoryBytesMost = 1024 * 1024 * 1024;

/**
 * Reads an archive from memory, which takes no files beside it: SQLite can't open a file that is kept with a log where
 * it can't put a log. The two header bytes that say so are changed in memory. Null where the log holds changes, or the
 * file is too large.
 */
const openInMemory = (path: string): Database.Database | null => {
  const logSize = statSync(`${path}-wal`, { throwIfNoEntry: false })?.size ?? 0;
  if (logSize > 0 || statSync(path).size > inMemoryBytesMost) return null;
  const bytes = readFileSync(path);
  bytes.fill(1, 18, 20);
  return new Database(bytes, { readonly: true });
};

const openForReading = (path: string, lockWaitMs: number): Database.Database => {
  let database = new Database(path, { readonly: true, fileMustExist: true, timeout: lockWaitMs });
  try {
    archiveVersionOf(database);
  } catch (error) {
    database.close();
    const wantsLog = error instanceof Database.SqliteError && /^SQLITE_(CANTOPEN|READONLY)/.test(error.code);
    if (!wantsLog) throw error;
    const inMemory = openInMemory(path);
    if (!inMemory) throw storeTrouble('archive-read-only', path);
    database = inMemory;
  }
  setUpConnection(database);
  return database;
};

/**
 * Opens the archive in a folder, or makes a new one. What is there is inspected first, through a connection that can't
 * write; a damaged archive keeps that connection, so that it can be read and not written.
 *
 * @throws StoreError `archive-newer`, `archive-not-ours`, `archive-missing`, `archive-damaged` (where nothing at all can
 * be read), `archive-busy`, `archive-full`, `archive-read-only`, `archive-unreadable`
 */
export const openArchive = async (options: ArchiveOptions): Promise<Archive> => {
  const folder = resolve(options.folder);
  try {
    return await open({ ...options, folder });
  } catch (error) {
    if (saysCorrupt(error)) throw damaged(folder, (error as Error).message);
    throw asStoreError(error) ?? error;
  }
};

const open = async ({
  folder,
  now,
  lockWaitMs = 5000,
  migrations = archiveMigrations,
}: ArchiveOptions): Promise<Archive> => {
  const path = archivePathOf(folder);
  const own = newestVersion(migrations);
  makeFolder(folder);
  const wasThere = isThere(folder, own);
  const canWrite = isWritable(folder) && (!wasThere || isWritable(path));
  if (!wasThere && !canWrite) throw storeTrouble('archive-read-only', folder);

  const connect = (database: Database.Database, problems: readonly string[]): ArchiveConnection =>
    createArchiveConnection({
      path,
      database,
      problems,
      readOnlyBecause: canWrite ? null : storeTrouble('archive-read-only', path),
      describeDamage: (found) => describeDamage(folder, found),
      notices,
      rebuildWordIndex,
    });

  const log = inspectLog(path);
  const notices = log.kind === 'cut-off' ? [keepCutOffLog(path, now())] : [];
  let isIndexWhole = true;
  const noteBrokenIndex = (): void => {
    isIndexWhole = false;
  };
  if (wasThere) {
    const reading = openForReading(path, lockWaitMs);
    let keepsReading = false;
    try {
      const version = archiveVersionOf(reading);
      if (version > own) refuseNewer(version, own);
      if (version === 0) refuseForeign(reading, folder);
      const problems = [
        ...(log.kind === 'damaged' ? [log.problem] : []),
        // In one transaction: another process may be writing.
        ...(version === 0
          ? []
          : reading.transaction(() => inspectArchive(reading, migrations, noteBrokenIndex))()),
      ];
      if (problems.length > 0 || !canWrite) {
        const archive = assembleDamaged({ folder, connection: connect(reading, problems), now });
        keepsReading = true;
        return archive;
      }
      if (version > 0 && version < own) await backUpArchive(connect(reading, []), folder, now());
    } finally {
      if (!keepsReading) reading.close();
    }
  }

  const database = new Database(path, { timeout: lockWaitMs });
  try {
    setUpConnection(database);
    setUpWriting(database);
    if (archiveVersionOf(database) < own) {
      migrateArchive(database, migrations);
      // So that the file's own header says its version.
      database.pragma('wal_checkpoint(TRUNCATE)');
      syncFolder(folder);
    }
    removeAbandonedDrafts(folder);
    const connection = connect(database, []);
    if (!isIndexWhole) connection.renewWordIndex();
    if (isErasureDue(connection) || areCopiesDue(connection)) await finishPurge(connection, folder, now());
    noteClockSetBack(connection, now);
    return assemble({ folder, connection, now });
  } catch (error) {
    database.close();
    throw error;
  }
};

/** Clocks of machines that share an archive differ by less. */
const clocksDifferMs = 24 * 60 * 60 * 1000;

/** Nothing hangs on the clock but the dates that people read; those they should be able to trust. */
const noteClockSetBack = (connection: ArchiveConnection, clock: () => string): void => {
  const last = connection.read(() =>
    connection.database
      .prepare<[], { at: string }>(
        'SELECT modified_at AS at FROM projects ORDER BY change_number DESC LIMIT 1',
      )
      .get(),
  );
  if (!last) return;
  const now = clock();
  if (Date.parse(last.at) - Date.parse(now) <= clocksDifferMs) return;
  connection.notice(
    `This machine’s clock says ${now.slice(0, 10)}, but the last change in the archive was made on ${last.at.slice(0, 10)}: the clock was set back, or was wrong then. Nothing is lost, and the order of changes and backups does not hang on it; set the clock right, so that dates on what is issued are.`,
  );
};

/** A purge was cut short before its bytes were out of the files; whatever hinders it now leaves it for the next time. */
const finishPurge = async (connection: ArchiveConnection, folder: string, at: string): Promise<void> => {
  try {
    if (!isErasureDue(connection) || eraseDeleted(connection)) {
      await removeDueCopies(connection, folder, at);
      return;
    }
  } catch (error) {
    if (!(error instanceof StoreError)) throw error;
  }
  connection.notice(
    'What was purged is deleted, but its bytes are still in the archive’s files or in copies that were to go: another program uses them, or the disk has no room to write them anew. It is tried again whenever the archive is opened.',
  );
};

/** Where the tables are so broken that no question can be put to them, the archive can't be opened at all. */
const assembleDamaged = (parts: Parameters<typeof assemble>[0]): Archive => {
  try {
    return assemble(parts);
  } catch (error) {
    if (error instanceof Database.SqliteError && error.code === 'SQLITE_ERROR')
      throw damaged(parts.folder, parts.connection.problems()[0] ?? error.message);
    throw error;
  }
};

const assemble = ({
  folder,
  connection,
  now,
}: {
  readonly folder: string;
  readonly connection: ArchiveConnection;
  readonly now: () => string;
}): Archive => {
  const health = (): ArchiveHealth => {
    const problems = connection.problems();
    const notices = [...connection.notices()];
    if (problems.length > 0)
      return { state: 'damaged', problems, advice: connection.damagedError().message, notices };
    const { readOnlyBecause } = connection;
    return readOnlyBecause
      ? { state: 'read-only', problems: [], advice: readOnlyBecause.message, notices }
      : { state: 'sound', problems: [], advice: '', notices };
  };
  const store: Store = {
    ...createProjectStore(connection),
    ...createPlanStore(connection),
    ...createSearchStore(connection),
    ...createPurgeStore(connection, folder, now),
    ...createIssueStore(connection),
    health: async () => storeHealth(folder, health()),
  };
  return {
    folder,
    path: connection.path,
    store,
    health,
    backUp: () => backUpArchive(connection, folder, now()),
    backUpTo: (path) => copyArchive(connection, () => resolve(path), dirname(resolve(path))),
    backups: () => listBackups(folder),
    check: () => checkArchive(connection),
    close: connection.close,
  };
};

/** Looks through the backups only where one of them may be needed: that reads them. */
const storeHealth = (folder: string, health: ArchiveHealth): StoreHealth => {
  const isNeeded = health.state === 'damaged';
  const backups = listBackups(folder).slice(0, 10);
  const good = isNeeded ? new Set(findGoodBackups(folder, 3).map(({ name }) => name)) : null;
  return {
    ...health,
    place: archivePathOf(folder),
    backups: backups.map(({ name, at, byteLength }) => ({
      name,
      at,
      byteLength,
      isGood: good?.has(name) ? true : null,
    })),
  };
};

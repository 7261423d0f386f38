import {
  closeSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  statfsSync,
  statSync,
} from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { StoreError } from '../app/ports.ts';
import type { ArchiveConnection } from './archiveConnection.ts';
import {
  type BackupFile,
  backupFolderOf,
  backupName,
  inspectBackup,
  listBackups,
  openBackup,
  outlivedBackups,
  removeBackups,
} from './backupFiles.ts';
import { collectProblems, inspectArchive, runSqliteCheck } from './inspectArchive.ts';
import { storeTrouble } from './storeErrors.ts';

const draftPattern = /^draft-(\d+)-/;

const isProcessRunning = (processId: number): boolean => {
  try {
    process.kill(processId, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
};

/** Whether a file of the backup folder is a draft that an ended process left behind. */
export const isAbandonedDraft = (name: string): boolean => {
  const owner = draftPattern.exec(name)?.[1];
  return owner !== undefined && !isProcessRunning(Number(owner));
};

/** Takes away the drafts that ended processes left behind. */
export const removeAbandonedDrafts = (archiveFolder: string): void => {
  const folder = backupFolderOf(archiveFolder);
  if (!statSync(folder, { throwIfNoEntry: false })) return;
  for (const name of readdirSync(folder))
    if (isAbandonedDraft(name)) rmSync(join(folder, name), { force: true });
};

/** Puts a file's content on disk. */
export const syncFile = (path: string): void => {
  const file = openSync(path, 'r+');
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
};

/** Puts a folder's list of names on disk, where the system knows such a thing. */
export const syncFolder = (path: string): void => {
  if (process.platform === 'win32') return;
  const folder = openSync(path, 'r');
  try {
    fsyncSync(folder);
  } finally {
    closeSync(folder);
  }
};

/** Which changes a file holds: its tallies change with every change of a project, a plan or a stock range. */
const talliesOf = (database: Database.Database): string =>
  JSON.stringify(database.prepare('SELECT * FROM tallies ORDER BY name').all());

const holdsTallies = (path: string, tallies: string): boolean => {
  let backup: Database.Database | null = null;
  try {
    backup = openBackup(path);
    return talliesOf(backup) === tallies;
  } catch (error) {
    if (error instanceof Database.SqliteError) return false;
    throw error;
  } finally {
    backup?.close();
  }
};

/** Turns the draft from a log-keeping file into one that stands alone, and verifies it. */
const finishDraft = (draft: string): readonly string[] => {
  const database = new Database(draft);
  try {
    database.pragma('journal_mode = DELETE');
  } finally {
    database.close();
  }
  return inspectBackup(draft);
};

/** A bad copy: the archive's own damage where it has any, else that of the disk copied to. */
const blame = (archive: ArchiveConnection, draft: string, problem: string): never => {
  const [own] = archive.read(() => [
    ...inspectArchive(archive.database),
    ...collectProblems(() => runSqliteCheck(archive.database, 'quick_check')),
  ]);
  if (own !== undefined) return archive.noticeDamage(own);
  throw new StoreError(
    'backup-failed',
    `The copy of the archive at ${draft} did not come out as it should (${problem}). The archive itself is sound. Check the disk that the copy was to go to.`,
  );
};

/** A backup leaves at least this much of the disk free, in bytes, so that it never stops the work itself. */
const bytesLeftLeast = 256 * 1024 * 1024;

/** Whether a copy of `copyBytes` may go to a disk with `freeBytes` left. */
export const leavesRoom = (freeBytes: number, copyBytes: number): boolean =>
  freeBytes - copyBytes >= bytesLeftLeast;

const refuseWithoutRoom = (archive: ArchiveConnection, draftFolder: string): void => {
  const { bavail, bsize } = statfsSync(draftFolder);
  const { size } = statSync(archive.path);
  if (leavesRoom(bavail * bsize, size)) return;
  throw new StoreError(
    'backup-no-room',
    `A backup of ${Math.ceil(size / 1024 / 1024)} MiB would fill the disk of ${draftFolder}. The archive itself is safe. Make room there, or back up to another disk with "footrail archive backup --out FILE".`,
  );
};

let draftCount = 0;

/**
 * Copies the archive, while it is in use, into a file that is checked before it counts as a backup.
 *
 * @param destinationNow asked once the copy is good
 * @throws StoreError `archive-damaged` when the copy shows the archive to be damaged, `backup-exists` where
 * the destination is taken, or the disk's trouble.
 */
export const copyArchive = async (
  archive: ArchiveConnection,
  destinationNow: (draft: string) => string,
  draftFolder: string,
): Promise<void> => {
  if (archive.problems().length > 0) throw archive.damagedError();
  draftCount += 1;
  const draft = join(draftFolder, `draft-${process.pid}-${draftCount}.sqlite`);
  rmSync(draft, { force: true });
  try {
    refuseWithoutRoom(archive, draftFolder);
    await archive.database.backup(draft);
    const [problem] = finishDraft(draft);
    if (problem !== undefined) blame(archive, draft, problem);
    syncFile(draft);
    const destination = destinationNow(draft);
    if (statSync(destination, { throwIfNoEntry: false }))
      throw new StoreError(
        'backup-exists',
        `There is a file at ${destination} already. Choose another name.`,
      );
    renameSync(draft, destination);
    syncFolder(draftFolder);
  } catch (error) {
    return archive.read(() => {
      throw error;
    });
  } finally {
    for (const ending of ['', '-journal', '-wal', '-shm']) rmSync(`${draft}${ending}`, { force: true });
  }
};

/** What purges have done to an archive: how many projects are purged, and whether their bytes are still to be erased. */
const purgesIn = (database: Database.Database): string =>
  JSON.stringify(
    database
      .prepare(
        `SELECT (SELECT count(*) FROM projects WHERE project_key NOT IN (SELECT project_key FROM documents)) AS purged,
                (SELECT count(*) FROM archive_facts WHERE name = 'erasure-due') AS unclean`,
      )
      .get(),
  );

/** Another process may purge while the copy, which is whole already, is looked through: then it holds what is gone. */
const isPurgedSince = (archive: ArchiveConnection, copy: string): boolean => {
  const database = openBackup(copy);
  try {
    return purgesIn(database) !== archive.read(() => purgesIn(archive.database));
  } finally {
    database.close();
  }
};

class PurgedMeanwhile extends Error {}

const attemptsMost = 5;

/** Makes a backup under the next number; answers its name, or null where it would hold what was purged meanwhile. */
const makeNumbered = async (
  archive: ArchiveConnection,
  archiveFolder: string,
  now: string,
): Promise<string | null> => {
  const folder = backupFolderOf(archiveFolder);
  let name = '';
  const nameNow = (draft: string): string => {
    if (isPurgedSince(archive, draft)) throw new PurgedMeanwhile();
    // Another process may have made one meanwhile.
    name = backupName((listBackups(archiveFolder)[0]?.number ?? 0) + 1, now);
    return join(folder, name);
  };
  try {
    await copyArchive(archive, nameNow, folder);
  } catch (error) {
    if (error instanceof PurgedMeanwhile) return null;
    throw error;
  }
  // A purge that looked for copies just before it had its name has not seen it; this look comes after that one.
  if (!isPurgedSince(archive, join(folder, name))) return name;
  rmSync(join(folder, name), { force: true });
  return null;
};

/** The last backup of each connection that was begun; one that failed counts as done. */
const lastBegun = new WeakMap<ArchiveConnection, Promise<unknown>>();

/** Waits for the backups of this connection that are under way: they read the archive. */
export const backupsDone = async (archive: ArchiveConnection): Promise<void> => {
  await lastBegun.get(archive);
};

/**
 * Adds a backup to the archive's rotation and lets outlived ones go; null when nothing changed since the last one.
 *
 * @param now the time to name it by, ISO 8601 in UTC
 * @param evenUnchanged makes one in any case
 */
export const backUpArchive = (
  archive: ArchiveConnection,
  archiveFolder: string,
  now: string,
  { evenUnchanged = false }: { readonly evenUnchanged?: boolean } = {},
): Promise<BackupFile | null> => {
  // One after another: two at once would take the same number.
  const begun = backupsDone(archive).then(() => makeBackup(archive, archiveFolder, now, evenUnchanged));
  lastBegun.set(
    archive,
    begun.catch(() => null),
  );
  return begun;
};

const makeBackup = async (
  archive: ArchiveConnection,
  archiveFolder: string,
  now: string,
  evenUnchanged: boolean,
): Promise<BackupFile | null> => {
  if (archive.problems().length > 0) throw archive.damagedError();
  if (archive.readOnlyBecause) throw archive.readOnlyBecause;
  if (!archive.database.open) throw storeTrouble('archive-closed');
  const folder = backupFolderOf(archiveFolder);
  archive.read(() => mkdirSync(folder, { recursive: true }));
  const [newest] = listBackups(archiveFolder);
  if (
    newest &&
    !evenUnchanged &&
    holdsTallies(
      newest.path,
      archive.read(() => talliesOf(archive.database)),
    )
  )
    return null;
  let name: string | null = null;
  for (let attempt = 0; name === null; attempt += 1) {
    name = await makeNumbered(archive, archiveFolder, now);
    if (name === null && attempt === attemptsMost)
      throw new StoreError(
        'backup-failed',
        'Personal data is being purged from the archive, again and again while it was copied. The next backup tries again.',
      );
  }
  removeBackups(outlivedBackups(listBackups(archiveFolder)));
  return listBackups(archiveFolder).find((backup) => backup.name === name) ?? null;
};

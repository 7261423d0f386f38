import { copyFileSync, mkdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { StoreError } from '../app/ports.ts';
import { syncFile, syncFolder } from './backUpArchive.ts';
import { type BackupFile, inspectBackup, listBackups } from './backupFiles.ts';
import { archivePathOf } from './openArchive.ts';
import { asStoreError } from './storeErrors.ts';

export interface Restored {
  readonly backup: BackupFile;
  /** The folder that the archive as it was went to; null where there was none. */
  readonly setAside: string | null;
}

const endings = ['', '-wal', '-shm'] as const;

const setAsideArchive = (folder: string, now: string): string | null => {
  const path = archivePathOf(folder);
  const present = endings.filter((ending) => statSync(`${path}${ending}`, { throwIfNoEntry: false }));
  if (present.length === 0) return null;
  const aside = join(folder, `set-aside-${now.slice(0, 19).replaceAll(':', '')}Z`);
  mkdirSync(aside);
  for (const ending of present) renameSync(`${path}${ending}`, `${archivePathOf(aside)}${ending}`);
  syncFolder(aside);
  return aside;
};

/**
 * Puts a backup in the place of the archive, which is set aside, never deleted. The backup is checked first and stays
 * where it is. A process that still has the old archive open notices at its next change and takes it no further.
 *
 * @param now names the folder that the old archive goes to, ISO 8601 in UTC
 * @throws StoreError `backup-missing`, `backup-damaged`, or the disk's trouble
 */
export const restoreArchive = (options: {
  readonly folder: string;
  readonly backupName: string;
  readonly now: string;
}): Restored => {
  const folder = resolve(options.folder);
  const backup = listBackups(folder).find(({ name }) => name === options.backupName);
  if (!backup)
    throw new StoreError(
      'backup-missing',
      `There is no backup "${options.backupName}" in ${join(folder, 'backups')}. List those that are there with "footrail archive backups".`,
    );
  const [problem] = inspectBackup(backup.path);
  if (problem !== undefined)
    throw new StoreError(
      'backup-damaged',
      `The backup ${backup.name} is damaged itself (${problem}). Nothing was changed. Choose another one.`,
    );
  const draft = `${archivePathOf(folder)}.draft-${process.pid}`;
  try {
    copyFileSync(backup.path, draft);
    syncFile(draft);
    const setAside = setAsideArchive(folder, options.now);
    renameSync(draft, archivePathOf(folder));
    syncFolder(folder);
    return { backup, setAside };
  } catch (error) {
    throw asStoreError(error) ?? error;
  } finally {
    rmSync(draft, { force: true });
  }
};

import { readdirSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import type { HoldingCopy } from '../app/purge/purgePort.ts';
import { isAbandonedDraft, syncFolder } from './backUpArchive.ts';
import { backupFolderOf, listBackups } from './backupFiles.ts';

/** Files beside the archive that are, or were, an archive: each may hold a project that was purged here. */

interface Copy {
  /** Path within the archive folder, with `/`. */
  readonly name: string;
  readonly path: string;
  readonly byteLength: number;
}

const filesIn = (folder: string, within: string, isWanted: (name: string) => boolean): readonly Copy[] => {
  if (!statSync(folder, { throwIfNoEntry: false })?.isDirectory()) return [];
  return readdirSync(folder)
    .filter(isWanted)
    .flatMap((name) => {
      const path = join(folder, name);
      const stat = statSync(path, { throwIfNoEntry: false });
      return stat?.isFile() ? [{ name: `${within}${name}`, path, byteLength: stat.size }] : [];
    });
};

const copiesOf = (folder: string): readonly Copy[] => [
  ...listBackups(folder).map(({ name, path, byteLength }) => ({ name: `backups/${name}`, path, byteLength })),
  // A draft that is being written is looked at by its writer, who throws it away where it holds what was purged.
  ...filesIn(backupFolderOf(folder), 'backups/', isAbandonedDraft),
  // Logs and drafts of the archive, and archives set aside when a backup was restored.
  ...filesIn(folder, '', (name) => /^archive\.sqlite(-wal-cut-off-|\.draft-)/.test(name)),
  ...readdirSync(folder)
    .filter((name) => name.startsWith('set-aside-'))
    .flatMap((name) => filesIn(join(folder, name), `${name}/`, (one) => one.startsWith('archive.sqlite'))),
];

/** Whether an archive's file has the project unpurged, or pages that were not yet cleaned of it. */
const holdsProject = (path: string, projectId: string): HoldingCopy['holds'] | null => {
  let database: Database.Database | null = null;
  try {
    database = new Database(path, { readonly: true, fileMustExist: true });
    const found = database
      .prepare(
        `SELECT 1 FROM projects JOIN documents USING (project_key) WHERE project_id = ?
         UNION ALL SELECT 1 FROM archive_facts WHERE name = ?`,
      )
      .get(projectId, erasureDue);
    return found === undefined ? null : 'project';
  } catch (error) {
    if (error instanceof Database.SqliteError) return 'unread';
    throw error;
  } finally {
    database?.close();
  }
};

/** The name of the fact that pages still hold what was purged. */
export const erasureDue = 'erasure-due';

const isStandingAlone = (name: string): boolean => name.endsWith('.sqlite') && !name.startsWith('set-aside-');

/** Every file in the archive folder, beside the archive's own, that holds the project or may do so. */
export const findHoldingCopies = (folder: string, projectId: string): readonly HoldingCopy[] =>
  copiesOf(folder).flatMap(({ name, path, byteLength }) => {
    // Looking into an archive with a log of its own would change it; logs alone can't be looked into.
    const holds = isStandingAlone(name) ? holdsProject(path, projectId) : 'unread';
    return holds === null ? [] : [{ name, byteLength, holds }];
  });

/** The backups whose pages were not yet cleaned of what was purged, whatever that was. */
export const uncleanBackups = (folder: string): readonly string[] =>
  findHoldingCopies(folder, '').flatMap(({ name, holds }) => (holds === 'project' ? [name] : []));

/** Whether any of the named copies is there. */
export const areThere = (folder: string, names: readonly string[]): boolean =>
  copiesOf(folder).some(({ name }) => names.includes(name));

/** Takes copies away, by the names that `findHoldingCopies` gave them; what is none of them stays, whatever its name. */
export const removeCopies = (folder: string, names: readonly string[]): void => {
  for (const { name, path } of copiesOf(folder)) if (names.includes(name)) rmSync(path, { force: true });
  syncFolder(folder);
  if (statSync(backupFolderOf(folder), { throwIfNoEntry: false })) syncFolder(backupFolderOf(folder));
};

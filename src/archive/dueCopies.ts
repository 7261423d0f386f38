import type { ArchiveConnection } from './archiveConnection.ts';
import { backUpArchive } from './backUpArchive.ts';
import { areThere, removeCopies, uncleanBackups } from './holdingCopies.ts';

/** The name of the fact that copies of what was purged are still to be taken away: their names, as a JSON array. */
const factName = 'copies-due';

const dueIn = ({ database }: ArchiveConnection): readonly string[] | null => {
  const value = database
    .prepare<[string], { value: string }>('SELECT value FROM archive_facts WHERE name = ?')
    .get(factName)?.value;
  return value === undefined ? null : (JSON.parse(value) as readonly string[]);
};

/** Notes, in the transaction that purges, which copies are to go with it, so that a purge cut short is finished. */
export const noteCopiesDue = (archive: ArchiveConnection, names: readonly string[]): void => {
  archive.database
    .prepare(
      `INSERT INTO archive_facts VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET value = excluded.value`,
    )
    .run(factName, JSON.stringify([...new Set([...(dueIn(archive) ?? []), ...names])]));
};

/** Whether copies may still be to go. */
export const areCopiesDue = (archive: ArchiveConnection): boolean =>
  archive.read(() => dueIn(archive)) !== null;

/**
 * Takes the noted copies away, once the archive's own bytes are clean, and the backups that were made in between: first
 * a fresh backup without what was purged, so that there is one at every moment.
 */
export const removeDueCopies = async (
  archive: ArchiveConnection,
  folder: string,
  at: string,
): Promise<void> => {
  const due = archive.read(() => dueIn(archive));
  if (due === null) return;
  const names = [...due, ...uncleanBackups(folder)];
  if (areThere(folder, names)) {
    await backUpArchive(archive, folder, at, { evenUnchanged: true });
    removeCopies(folder, names);
  }
  archive.write(() => archive.database.prepare('DELETE FROM archive_facts WHERE name = ?').run(factName));
};

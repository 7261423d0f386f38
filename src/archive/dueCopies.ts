import type { ArchiveConnection } from './archiveConnection.ts';
import { backUpArchive } from './backUpArchive.ts';
import { removeCopies } from './holdingCopies.ts';

/** The name of the fact that copies of what was purged are still to be taken away: their names, as a JSON array. */
const factName = 'copies-due';

const dueIn = ({ database }: ArchiveConnection): readonly string[] => {
  const value = database
    .prepare<[string], { value: string }>('SELECT value FROM archive_facts WHERE name = ?')
    .get(factName)?.value;
  return value === undefined ? [] : (JSON.parse(value) as readonly string[]);
};

/** Notes, in the transaction that purges, which copies are to go with it, so that a purge cut short is finished. */
export const noteCopiesDue = (archive: ArchiveConnection, names: readonly string[]): void => {
  if (names.length === 0) return;
  archive.database
    .prepare(
      `INSERT INTO archive_facts VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET value = excluded.value`,
    )
    .run(factName, JSON.stringify([...new Set([...dueIn(archive), ...names])]));
};

/** The names of the copies that are still to go. */
export const copiesDue = (archive: ArchiveConnection): readonly string[] =>
  archive.read(() => dueIn(archive));

/**
 * Takes the noted copies away, once the archive's own bytes are clean: first a fresh backup without what was purged, so
 * that there is one at every moment.
 */
export const removeDueCopies = async (
  archive: ArchiveConnection,
  folder: string,
  at: string,
): Promise<void> => {
  const names = copiesDue(archive);
  if (names.length === 0) return;
  await backUpArchive(archive, folder, at, { evenUnchanged: true });
  removeCopies(folder, names);
  archive.write(() => archive.database.prepare('DELETE FROM archive_facts WHERE name = ?').run(factName));
};

import { statfsSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import type { ArchiveConnection } from './archiveConnection.ts';
import { erasureDue } from './holdingCopies.ts';
import { storeTrouble } from './storeErrors.ts';

/** Notes, in the transaction that deletes something for good, that its bytes are still to be erased. */
export const noteErasureDue = (archive: ArchiveConnection, at: string): void => {
  archive.database
    .prepare(
      `INSERT INTO archive_facts VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET value = excluded.value`,
    )
    .run(erasureDue, at);
};

export const isErasureDue = (archive: ArchiveConnection): boolean =>
  archive.read(
    () =>
      archive.database.prepare('SELECT 1 FROM archive_facts WHERE name = ?').get(erasureDue) !== undefined,
  );

const refuseWithoutRoom = ({ path }: ArchiveConnection): void => {
  const { bavail, bsize } = statfsSync(dirname(path));
  // The archive is written anew into its log, and from there into its file.
  if (bavail * bsize < 2 * statSync(path).size) throw storeTrouble('archive-full', path);
};

/** Moves the log into the file and empties it. False while another process reads an older state. */
const emptyLog = ({ database }: ArchiveConnection): boolean => {
  const [result] = database.pragma('wal_checkpoint(TRUNCATE)') as readonly { readonly busy: number }[];
  return result?.busy === 0;
};

/**
 * Takes what was deleted out of the bytes of the archive's files. SQLite leaves deleted content in free pages and
 * between cells, FTS5 deleted words in its segments, and the log older states of pages; so the index is made anew, the
 * file is written anew (VACUUM), and the log is emptied (https://sqlite.org/lang_vacuum.html). Blocks that the file
 * system or the medium keeps are out of reach.
 *
 * @returns false where another process reads an older state, so that the log can't be emptied now; the next opening
 * tries again
 * @throws StoreError `archive-full`, `archive-busy` and the other troubles of writing
 */
export const eraseDeleted = (archive: ArchiveConnection): boolean => {
  const { database } = archive;
  refuseWithoutRoom(archive);
  archive.rebuildWordIndex();
  return archive.alone(() => {
    database.exec('VACUUM');
    if (!emptyLog(archive)) return false;
    // The note itself goes last; what it leaves behind is no one's.
    database.prepare('DELETE FROM archive_facts WHERE name = ?').run(erasureDue);
    return emptyLog(archive);
  });
};

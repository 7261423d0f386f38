import { closeSync, openSync, readSync, statSync } from 'node:fs';
import { archiveApplicationId } from './archiveMigrations.ts';

/**
 * What the first 100 bytes of a file say, read without SQLite so that a file which is not ours, or newer than this
 * program, is left untouched. Offsets: sqlite.org/fileformat2.html, "The Database Header".
 */
export type ArchiveHeader =
  | { readonly kind: 'absent' }
  | { readonly kind: 'empty' }
  | { readonly kind: 'foreign' }
  | { readonly kind: 'broken'; readonly problem: string }
  | { readonly kind: 'archive'; readonly version: number };

const headerBytes = 100;
const magic = 'SQLite format 3\0';
const offsets = { writeVersion: 18, readVersion: 19, userVersion: 60, applicationId: 68 } as const;
/** Both version bytes are 2 in a file that is kept with a write-ahead log. */
const writeAheadLogVersion = 2;

const sizeOf = (path: string): number => statSync(path, { throwIfNoEntry: false })?.size ?? 0;

/** Reads a file's header. An archive of ours whose header contradicts itself or its log is `broken`. */
export const readArchiveHeader = (path: string): ArchiveHeader => {
  if (!statSync(path, { throwIfNoEntry: false })) return { kind: 'absent' };
  const bytes = Buffer.alloc(headerBytes);
  const file = openSync(path, 'r');
  let length: number;
  try {
    length = readSync(file, bytes, 0, headerBytes, 0);
  } finally {
    closeSync(file);
  }
  if (length === 0) return { kind: 'empty' };
  if (length < headerBytes) return { kind: 'broken', problem: `the file ends after ${length} bytes` };
  const isSqlite = bytes.toString('latin1', 0, magic.length) === magic;
  const applicationId = bytes.readUInt32BE(offsets.applicationId);
  const version = bytes.readUInt32BE(offsets.userVersion);
  if (!isSqlite)
    return applicationId === archiveApplicationId
      ? { kind: 'broken', problem: 'its first bytes are not those of an SQLite file' }
      : { kind: 'foreign' };
  // A process that ended while it made a new archive leaves all of it in the log and this header without an id.
  const isUnfinished = applicationId === 0 && version === 0;
  if (applicationId !== archiveApplicationId && !isUnfinished) return { kind: 'foreign' };
  const isLogged =
    bytes[offsets.writeVersion] === writeAheadLogVersion &&
    bytes[offsets.readVersion] === writeAheadLogVersion;
  if (!isLogged && sizeOf(`${path}-wal`) > 0)
    return {
      kind: 'broken',
      problem: 'there is a write-ahead log beside it, but its header denies having one',
    };
  return { kind: 'archive', version };
};

import Database from 'better-sqlite3';
import { StoreError } from '../app/ports.ts';

/** What each trouble with the archive is called, and what a person can do about it. */
const advice = {
  'archive-busy':
    'Another program keeps the archive locked. Nothing was changed. Close other windows that use it, or try again in a moment.',
  'archive-full':
    'The disk that holds the archive is full. The last change was not taken; everything before it is safe. Make room and try again.',
  'archive-read-only':
    'The archive can be read but not written: the disk or the folder is write-protected. Nothing was changed. Give this account write access, or copy the archive folder to a disk that can be written.',
  'archive-moved':
    'The archive file is no longer where it was opened: it was moved, replaced or its disk was removed. The last change was not taken. Put it back, then close and open Footrail again.',
  'archive-unreadable':
    'The disk did not answer as it should while the archive was used. The last change may not be taken; everything before it is safe. Check the disk and its connection, then open Footrail again.',
  'archive-closed': 'The archive has been closed.',
} as const;

export type TroubleCode = keyof typeof advice;

/** The error for a trouble, with its advice; `detail` names the file or what the system said. */
export const storeTrouble = (code: TroubleCode, detail = ''): StoreError =>
  new StoreError(code, detail === '' ? advice[code] : `${advice[code]} (${detail})`);

const bySystemCode: Readonly<Record<string, TroubleCode>> = {
  ENOSPC: 'archive-full',
  EDQUOT: 'archive-full',
  EFBIG: 'archive-full',
  EROFS: 'archive-read-only',
  EACCES: 'archive-read-only',
  EPERM: 'archive-read-only',
  EIO: 'archive-unreadable',
  ENOENT: 'archive-moved',
};

const bySqliteCode = (code: string): TroubleCode | null => {
  if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED') || code === 'SQLITE_PROTOCOL')
    return 'archive-busy';
  if (code === 'SQLITE_FULL') return 'archive-full';
  if (code === 'SQLITE_READONLY_DBMOVED' || code === 'SQLITE_IOERR_VNODE') return 'archive-moved';
  if (code.startsWith('SQLITE_READONLY') || code.startsWith('SQLITE_PERM')) return 'archive-read-only';
  if (code.startsWith('SQLITE_IOERR') || code.startsWith('SQLITE_CANTOPEN')) return 'archive-unreadable';
  return null;
};

/** True for SQLite's own word that the file's content is broken. */
export const saysCorrupt = (error: unknown): boolean =>
  error instanceof Database.SqliteError &&
  (error.code.startsWith('SQLITE_CORRUPT') || error.code === 'SQLITE_NOTADB');

/**
 * True where SQLite failed at the content of the index of words, whatever else was asked. FTS5 is the one module of
 * virtual tables that the archive has.
 */
export const saysWordIndexBroken = (error: unknown): boolean =>
  error instanceof Database.SqliteError &&
  (error.code === 'SQLITE_CORRUPT_VTAB' ||
    (error.code === 'SQLITE_ERROR' && /fts5|vtable constructor failed/.test(error.message)));

/**
 * Turns what SQLite or the file system threw into a `StoreError`; null when it is neither (a fault of the program,
 * which must go on as it is). Broken content ({@link saysCorrupt}) is for the caller, who knows the backups.
 */
export const asStoreError = (error: unknown): StoreError | null => {
  if (error instanceof StoreError) return error;
  if (error instanceof Database.SqliteError) {
    const code = bySqliteCode(error.code);
    return code === null ? null : storeTrouble(code, error.code);
  }
  if (error instanceof Error && 'code' in error && typeof error.code === 'string') {
    const code = bySystemCode[error.code];
    return code === undefined ? null : storeTrouble(code, error.code);
  }
  return null;
};

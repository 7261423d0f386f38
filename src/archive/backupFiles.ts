import { readdirSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { readArchiveHeader } from './archiveHeader.ts';
import { inspectArchive, runSqliteCheck } from './inspectArchive.ts';

/** One finished backup. Its number counts up, so that their order does not hang on the clock. */
export interface BackupFile {
  readonly name: string;
  readonly path: string;
  readonly number: number;
  /** When it was made, ISO 8601 in UTC, to the second. */
  readonly at: string;
  readonly byteLength: number;
}

export const backupFolderOf = (archiveFolder: string): string => join(archiveFolder, 'backups');

const namePattern = /^archive-(\d{6,})-(\d{4}-\d\d-\d\d)T(\d\d)(\d\d)(\d\d)Z\.sqlite$/;

/** @example backupName(7, '2027-03-15T10:20:30.123Z') // 'archive-000007-2027-03-15T102030Z.sqlite' */
export const backupName = (number: number, at: string): string =>
  `archive-${String(number).padStart(6, '0')}-${at.slice(0, 19).replaceAll(':', '')}Z.sqlite`;

/** The finished backups of an archive folder, newest first; drafts and other files are not among them. */
export const listBackups = (archiveFolder: string): readonly BackupFile[] => {
  const folder = backupFolderOf(archiveFolder);
  if (!statSync(folder, { throwIfNoEntry: false })) return [];
  const backups: BackupFile[] = [];
  for (const name of readdirSync(folder)) {
    const match = namePattern.exec(name);
    if (!match) continue;
    const path = join(folder, name);
    const stat = statSync(path, { throwIfNoEntry: false });
    if (!stat?.isFile()) continue;
    const [, number, day, hour, minute, second] = match;
    backups.push({
      name,
      path,
      number: Number(number),
      at: `${day}T${hour}:${minute}:${second}Z`,
      byteLength: stat.size,
    });
  }
  return backups.sort((one, other) => other.number - one.number);
};

/** Opens a backup. It keeps no write-ahead log, so nothing appears beside it. */
export const openBackup = (path: string): Database.Database =>
  new Database(path, { readonly: true, fileMustExist: true });

/** What is wrong with a backup: SQLite's whole check and every tallied row. Empty when it is good. */
export const inspectBackup = (path: string): readonly string[] => {
  const header = readArchiveHeader(path);
  if (header.kind !== 'archive') return [`the file is ${header.kind}`];
  let database: Database.Database | null = null;
  try {
    database = openBackup(path);
    const problems = inspectArchive(database);
    return problems.length > 0 ? problems : runSqliteCheck(database, 'quick_check');
  } catch (error) {
    if (error instanceof Database.SqliteError) return [error.message];
    throw error;
  } finally {
    database?.close();
  }
};

/** The newest backups that are found good now, newest first. */
export const findGoodBackups = (archiveFolder: string, most: number): readonly BackupFile[] => {
  const good: BackupFile[] = [];
  for (const backup of listBackups(archiveFolder)) {
    if (good.length === most) break;
    if (inspectBackup(backup.path).length === 0) good.push(backup);
  }
  return good;
};

/** The newest of each recent day and week stay longer than the rest. */
const kept = { newest: 3, days: 7, weeks: 5 } as const;
const dayMs = 86_400_000;
/** Weeks by number since 1970, from Monday: 1 January 1970 was a Thursday. */
const weekOf = (at: string): number => Math.floor((Date.parse(at) / dayMs + 3) / 7);

/**
 * Which backups rotation lets go: all but the three newest, the newest of each of the last seven days that have one,
 * and the newest of each of the last five weeks that have one.
 */
export const outlivedBackups = <Backup extends Pick<BackupFile, 'number' | 'at'>>(
  backups: readonly Backup[],
): readonly Backup[] => {
  const newestFirst = [...backups].sort((one, other) => other.number - one.number);
  const stays = new Set<Backup>(newestFirst.slice(0, kept.newest));
  const keepNewestOfEach = (periodOf: (at: string) => string | number, most: number): void => {
    const seen = new Set<string | number>();
    for (const backup of newestFirst) {
      const period = periodOf(backup.at);
      if (seen.has(period)) continue;
      if (seen.size === most) break;
      seen.add(period);
      stays.add(backup);
    }
  };
  keepNewestOfEach((at) => at.slice(0, 10), kept.days);
  keepNewestOfEach(weekOf, kept.weeks);
  return newestFirst.filter((backup) => !stays.has(backup));
};

export const removeBackups = (backups: readonly BackupFile[]): void => {
  for (const { path } of backups) rmSync(path, { force: true });
};

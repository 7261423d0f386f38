import { appendFileSync, copyFileSync, readFileSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { inspectLog } from '../../src/archive/writeAheadLog.ts';
import { openForTest, temporaryFolder } from './editedArchive.ts';
import { edit, newProject, projectIdOf } from './editedSteps.ts';

/** SQLite's file format: the log's header has 32 bytes, each frame 24 and a page. */
const frameBytes = 24 + 4096;

/** A database of `count` changes that are all still in its log, as a killed process leaves it. */
const loggedDatabase = (count: number): string => {
  const folder = temporaryFolder();
  const path = join(folder, 'source.sqlite');
  const database = new Database(path);
  database.pragma('journal_mode = WAL');
  database.pragma('wal_autocheckpoint = 0');
  database.exec('CREATE TABLE numbers (number INTEGER PRIMARY KEY) STRICT');
  for (let number = 1; number <= count; number += 1) database.exec(`INSERT INTO numbers VALUES (${number})`);
  const copy = join(folder, 'copy.sqlite');
  for (const ending of ['', '-wal']) copyFileSync(`${path}${ending}`, `${copy}${ending}`);
  database.close();
  return copy;
};

/** How many of the changes SQLite itself still finds: the oracle for what is out of reach. */
const changesFoundBySqlite = (path: string): number => {
  const database = new Database(path);
  const found = database.prepare<[], { count: number }>('SELECT count(*) AS count FROM numbers').get();
  database.close();
  return found?.count ?? 0;
};

const spoilFrame = (path: string, frame: number): void => {
  const log = readFileSync(`${path}-wal`);
  const at = 32 + frame * frameBytes + 500;
  log[at] = log[at]! ^ 1;
  writeFileSync(`${path}-wal`, log);
};

describe('the write-ahead log', () => {
  it('is sound where there is none, and where every change in it is whole', () => {
    expect(inspectLog(join(temporaryFolder(), 'none.sqlite'))).toEqual({ kind: 'sound' });
    const path = loggedDatabase(20);
    expect(inspectLog(path)).toEqual({ kind: 'sound' });
    expect(changesFoundBySqlite(path)).toBe(20);
  });

  it('is sound in an archive at work', async () => {
    const archive = await openForTest(temporaryFolder());
    let project = await newProject(archive.store, projectIdOf(1));
    for (let round = 0; round < 30; round += 1) {
      project = await edit(archive.store, project, 20, round);
      expect(inspectLog(archive.path)).toEqual({ kind: 'sound' });
    }
    // So many pages that SQLite began the log anew in between (it does after 1000).
    expect(statSync(`${archive.path}-wal`).size).toBeLessThan(600 * 6 * frameBytes);
  });

  it('counts the changes that SQLite no longer reaches behind a damaged place', () => {
    const path = loggedDatabase(20);
    const frames = (statSync(`${path}-wal`).size - 32) / frameBytes;
    spoilFrame(path, frames - 5);
    const finding = inspectLog(path);
    expect(finding).toMatchObject({ kind: 'damaged', problem: expect.stringContaining('5 changes') });
    expect(changesFoundBySqlite(path)).toBe(15);
  });

  it('says that its last change is cut off where only that one is wrong, as after a power cut', () => {
    const path = loggedDatabase(20);
    spoilFrame(path, (statSync(`${path}-wal`).size - 32) / frameBytes - 1);
    expect(inspectLog(path)).toEqual({ kind: 'cut-off' });
    expect(changesFoundBySqlite(path)).toBe(19);
  });

  it('is sound where a killed process had not finished its last change', () => {
    const path = loggedDatabase(20);
    truncateSync(`${path}-wal`, statSync(`${path}-wal`).size - 100);
    expect(inspectLog(path)).toEqual({ kind: 'sound' });
    // A power cut may leave the end of a change without its middle.
    appendFileSync(`${path}-wal`, Buffer.alloc(3 * frameBytes));
    expect(inspectLog(path)).toEqual({ kind: 'cut-off' });
    expect(changesFoundBySqlite(path)).toBe(19);
  });

  it('is damaged where its header is', () => {
    const path = loggedDatabase(3);
    const log = readFileSync(`${path}-wal`);
    log[17] = log[17]! ^ 4;
    writeFileSync(`${path}-wal`, log);
    expect(inspectLog(path)).toMatchObject({ kind: 'damaged', problem: expect.stringContaining('header') });
    expect(() => changesFoundBySqlite(path)).toThrow('no such table');
  });
});

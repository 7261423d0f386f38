import { hash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import {
  archiveApplicationId,
  archiveMigrations,
  type Migration,
} from '../../src/archive/archiveMigrations.ts';
import { setUpConnection, setUpWriting } from '../../src/archive/archiveSettings.ts';
import { inspectArchive } from '../../src/archive/inspectArchive.ts';
import { archiveVersionOf, migrateArchive } from '../../src/archive/migrateArchive.ts';
import { archivePathOf, openArchive } from '../../src/archive/openArchive.ts';
import { archivedProjects, fillWith } from './archivedProjects.ts';
import { openForTest, temporaryFolder } from './editedArchive.ts';
import { edit, fixedNow, newProject, projectIdOf } from './editedSteps.ts';

const nextVersion = archiveMigrations.length + 1;
const next: Migration = {
  version: nextVersion,
  sql: 'CREATE TABLE notes (note_key INTEGER PRIMARY KEY, note TEXT NOT NULL) STRICT;',
};
const later: readonly Migration[] = [...archiveMigrations, next];
const failing: readonly Migration[] = [
  ...archiveMigrations,
  { version: nextVersion, sql: `${next.sql} INSERT INTO nowhere VALUES (1);` },
];

const anyRun = { straights: 2, fromMm: 0, toMm: 100_000, nearMm: 0, offset: 0, most: 100 };

describe('the migrations', () => {
  it('are frozen: a released step is never edited', () => {
    const digests = archiveMigrations.map(({ version, sql }) => [version, hash('sha256', sql)]);
    expect(digests).toEqual([
      [1, 'f90cc42a3b4d3c5c2244d730dca7d4f1d43979859e5a8e48e37b4f2dd42a6e0c'],
      [2, '5dcd1628e559893889d74e3a3b5f1c864f04f5b62c18ac001703c85d6a6c06a9'],
      [3, '9c1c368fae345ccaa9c7eb2e9e9a544cdd4e8b5d03853d33e42c49e960037a4b'],
      [4, 'b16c51bc385ea9e21271c4446faa8044ce401147fa2ce5e8594bfafbb5fcfd6f'],
      [5, '2391555b6b6975a013023e8b01f9bdcce3eb7913a6d36edd571622fc5059e79f'],
    ]);
  });

  it('count up by one', () => {
    const database = new Database(':memory:');
    expect(() => migrateArchive(database, [...archiveMigrations, { version: 9, sql: '' }])).toThrow(
      'numbered 9',
    );
    expect(() => migrateArchive(database, [...archiveMigrations, ...archiveMigrations])).toThrow();
  });

  it('mark the file as ours and with their version', () => {
    const database = new Database(':memory:');
    migrateArchive(database);
    expect(database.pragma('application_id', { simple: true })).toBe(archiveApplicationId);
    expect(archiveVersionOf(database)).toBe(archiveMigrations.length);
    expect(inspectArchive(database)).toEqual([]);
  });

  it('run once, also when two processes open the archive', () => {
    const database = new Database(':memory:');
    migrateArchive(database);
    migrateArchive(database);
    expect(inspectArchive(database)).toEqual([]);
  });

  it('all happen or none', () => {
    const database = new Database(':memory:');
    migrateArchive(database);
    expect(() => migrateArchive(database, failing)).toThrow('nowhere');
    expect(archiveVersionOf(database)).toBe(archiveMigrations.length);
    expect(inspectArchive(database)).toEqual([]);
  });
});

describe('a connection that writes', () => {
  it('syncs every commit, keeps a write-ahead log and holds references to be true', () => {
    const database = new Database(join(temporaryFolder(), 'any.sqlite'));
    setUpConnection(database);
    setUpWriting(database);
    const setting = (name: string) => database.pragma(name, { simple: true });
    expect(setting('journal_mode')).toBe('wal');
    // sqlite.org/pragma.html#pragma_synchronous: FULL is 2.
    expect(setting('synchronous')).toBe(2);
    expect(setting('fullfsync')).toBe(1);
    expect(setting('foreign_keys')).toBe(1);
    expect(setting('trusted_schema')).toBe(0);
    database.close();
  });
});

describe('an archive of an older version', () => {
  it('is backed up, then brought up to date, with all that is in it', async () => {
    const folder = temporaryFolder();
    const old = await openForTest(folder);
    const edited = await edit(old.store, await newProject(old.store, projectIdOf(1)), 20, 1);
    old.close();
    const archive = await openForTest(folder, { migrations: later });
    expect(archive.health().state).toBe('sound');
    expect(archive.backups()).toHaveLength(1);
    expect((await archive.store.loadProject(projectIdOf(1)))?.document).toEqual(edited.document);
    archive.close();
    const plain = new Database(archivePathOf(folder), { readonly: true });
    expect(archiveVersionOf(plain)).toBe(nextVersion);
    plain.close();
    const again = await openForTest(folder, { migrations: later });
    expect(again.health().state).toBe('sound');
  });

  it('knows the runs that others are compared with, without working anything out anew', async () => {
    const folder = temporaryFolder();
    const old = await openForTest(folder, { migrations: archiveMigrations.slice(0, 3) });
    await fillWith(old.store, archivedProjects(20, 3));
    expect(await old.store.runCandidates(anyRun)).toBeNull();
    old.close();
    const archive = await openForTest(folder);
    const runs = (await archive.store.runCandidates(anyRun))!;
    expect(runs.length).toBeGreaterThan(5);
    expect(runs.every(({ facts, runNumber }) => facts.runs[runNumber]?.straightsMm.length === 2)).toBe(true);
    // The check holds every one of them against its project.
    expect((await archive.check()).problems).toEqual([]);
    expect(archive.health().notices).toEqual([]);
  });

  it('stays as it was where a step fails', async () => {
    const folder = temporaryFolder();
    const old = await openForTest(folder);
    const edited = await edit(old.store, await newProject(old.store, projectIdOf(1)), 20, 1);
    old.close();
    await expect(openArchive({ folder, now: fixedNow, migrations: failing })).rejects.toThrow('nowhere');
    const again = await openForTest(folder);
    expect(again.health().state).toBe('sound');
    expect((await again.store.loadProject(projectIdOf(1)))?.document).toEqual(edited.document);
  });
});

describe('an archive of a newer version', () => {
  it('is refused and left byte for byte as it is', async () => {
    const folder = temporaryFolder();
    (await openForTest(folder, { migrations: later })).close();
    const before = readFileSync(archivePathOf(folder));
    const names = readdirSync(folder);
    await expect(openForTest(folder)).rejects.toMatchObject({ code: 'archive-newer' });
    expect(readFileSync(archivePathOf(folder)).equals(before)).toBe(true);
    expect(readdirSync(folder)).toEqual(names);
  });

  it('is refused, too, where only its write-ahead log says so', async () => {
    const folder = temporaryFolder();
    (await openForTest(folder)).close();
    const writer = new Database(archivePathOf(folder));
    writer.pragma('journal_mode = WAL');
    writer.exec(`BEGIN; ${next.sql} PRAGMA user_version = ${nextVersion}; COMMIT`);
    const before = readFileSync(archivePathOf(folder));
    const log = readFileSync(`${archivePathOf(folder)}-wal`);
    expect(before.readUInt32BE(60)).toBe(archiveMigrations.length);
    await expect(openForTest(folder)).rejects.toMatchObject({ code: 'archive-newer' });
    expect(readFileSync(archivePathOf(folder)).equals(before)).toBe(true);
    expect(readFileSync(`${archivePathOf(folder)}-wal`).equals(log)).toBe(true);
    writer.close();
  });
});

describe('a file that is not an archive', () => {
  it.each([
    ['a text', () => Buffer.from('a shopping list, long enough to be read as a header '.repeat(10))],
    [
      'another program’s database',
      () => {
        const database = new Database(':memory:');
        database.exec('CREATE TABLE recipes (name TEXT)');
        const bytes = database.serialize();
        database.close();
        return bytes;
      },
    ],
  ])('but %s is refused and left as it is', async (_, make) => {
    const folder = temporaryFolder();
    const bytes = make();
    writeFileSync(archivePathOf(folder), bytes);
    await expect(openForTest(folder)).rejects.toMatchObject({ code: 'archive-not-ours' });
    expect(readFileSync(archivePathOf(folder)).equals(bytes)).toBe(true);
  });

  it('is not missed: backups without an archive are no new beginning', async () => {
    const folder = temporaryFolder();
    const archive = await openForTest(folder);
    await newProject(archive.store, projectIdOf(1));
    await archive.backUp();
    archive.close();
    rmSync(archivePathOf(folder));
    await expect(openForTest(folder)).rejects.toMatchObject({ code: 'archive-missing' });
    expect(existsSync(archivePathOf(folder))).toBe(false);
  });
});

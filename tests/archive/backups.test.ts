import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { leavesRoom } from '../../src/archive/backUpArchive.ts';
import { backupName, inspectBackup, listBackups, outlivedBackups } from '../../src/archive/backupFiles.ts';
import { archivePathOf } from '../../src/archive/openArchive.ts';
import { restoreArchive } from '../../src/archive/restoreArchive.ts';
import { openForTest, temporaryFolder } from './editedArchive.ts';
import { edit, fixedNow, newProject, projectIdOf } from './editedSteps.ts';

describe('backups', () => {
  it('are whole archives, made while the archive is in use, and none where nothing changed', async () => {
    const folder = temporaryFolder();
    const archive = await openForTest(folder);
    const project = await edit(archive.store, await newProject(archive.store, projectIdOf(1)), 30, 1);
    const [backup] = await Promise.all([archive.backUp(), edit(archive.store, project, 30, 2)]);
    expect(inspectBackup(backup!.path)).toEqual([]);
    await newProject(archive.store, projectIdOf(2));
    const again = await archive.backUp();
    expect(again?.number).toBe(2);
    expect(await archive.backUp()).toBeNull();
    expect(readdirSync(join(folder, 'backups'))).toHaveLength(2);
  });

  it('stay in order of making where the clock is set back', async () => {
    const folder = temporaryFolder();
    const clock = ['2031-01-01T00:00:00.000Z', '2021-01-01T00:00:00.000Z'];
    const archive = await openForTest(folder, { now: () => clock.shift()! });
    await newProject(archive.store, projectIdOf(1));
    await archive.backUp();
    await newProject(archive.store, projectIdOf(2));
    const second = await archive.backUp();
    expect(listBackups(folder)[0]).toEqual(second);
    expect(second?.name).toBe('archive-000002-2021-01-01T000000Z.sqlite');
  });

  it('rotate: the three newest, the newest of each of seven days and of each of five weeks stay', () => {
    const start = Date.UTC(2027, 0, 4);
    const backups = Array.from({ length: 24 * 60 }, (_, hour) => ({
      number: hour + 1,
      at: new Date(start + hour * 3_600_000).toISOString(),
    }));
    let kept: typeof backups = [];
    for (const backup of backups) {
      kept = [...kept, backup];
      const outlived = new Set(outlivedBackups(kept));
      kept = kept.filter((one) => !outlived.has(one));
    }
    // 60 days from a Monday: the last backup is of Thursday, 4 March 2027, 23 h.
    expect(kept.map(({ at }) => at.slice(0, 13))).toEqual([
      '2027-02-07T23',
      '2027-02-14T23',
      '2027-02-21T23',
      '2027-02-26T23',
      '2027-02-27T23',
      '2027-02-28T23',
      '2027-03-01T23',
      '2027-03-02T23',
      '2027-03-03T23',
      '2027-03-04T21',
      '2027-03-04T22',
      '2027-03-04T23',
    ]);
  });

  it('that a killed process left unfinished are cleared away, and count for nothing', async () => {
    const folder = temporaryFolder();
    const archive = await openForTest(folder);
    await newProject(archive.store, projectIdOf(1));
    await archive.backUp();
    archive.close();
    // Process ids go up to 2^22 on Linux; this one can't be running.
    const draft = join(folder, 'backups', 'draft-99999999-1.sqlite');
    writeFileSync(draft, 'half a backup');
    expect(listBackups(folder)).toHaveLength(1);
    await openForTest(folder);
    expect(existsSync(draft)).toBe(false);
  });

  it('never take the last of the disk', () => {
    const mebibyte = 1024 * 1024;
    expect(leavesRoom(300 * mebibyte, 44 * mebibyte)).toBe(true);
    expect(leavesRoom(300 * mebibyte, 45 * mebibyte)).toBe(false);
    expect(leavesRoom(0, 0)).toBe(false);
  });

  it('go to a file of their own, which must be new', async () => {
    const folder = temporaryFolder();
    const archive = await openForTest(folder);
    await expect(archive.backUpTo(join(folder, 'nowhere', 'copy.sqlite'))).rejects.toThrow();
    await archive.backUpTo(join(folder, 'copy.sqlite'));
    expect(inspectBackup(join(folder, 'copy.sqlite'))).toEqual([]);
    await expect(archive.backUpTo(join(folder, 'copy.sqlite'))).rejects.toMatchObject({
      code: 'backup-exists',
    });
  });
});

describe('a restored backup', () => {
  it('takes the place of the archive, which is set aside with its log', async () => {
    const folder = temporaryFolder();
    const archive = await openForTest(folder);
    const project = await edit(archive.store, await newProject(archive.store, projectIdOf(1)), 10, 1);
    const backup = await archive.backUp();
    await edit(archive.store, project, 10, 2);
    const log = readFileSync(`${archive.path}-wal`);
    const { setAside } = restoreArchive({ folder, backupName: backup!.name, now: fixedNow() });
    expect(readFileSync(`${archivePathOf(setAside!)}-wal`).equals(log)).toBe(true);

    // The process that still has the old archive open takes nothing more into it.
    const { revision } = (await archive.store.loadProject(projectIdOf(1)))!;
    expect(revision).toBe(20);
    await expect(newProject(archive.store, projectIdOf(2))).rejects.toMatchObject({ code: 'archive-moved' });
    archive.close();

    const restored = await openForTest(folder);
    expect(restored.health().state).toBe('sound');
    expect((await restored.store.loadProject(projectIdOf(1)))?.document).toEqual(project.document);
  });

  it('is refused where the backup is damaged, and nothing changes', async () => {
    const folder = temporaryFolder();
    const archive = await openForTest(folder);
    await edit(archive.store, await newProject(archive.store, projectIdOf(1)), 10, 1);
    const backup = await archive.backUp();
    archive.close();
    const bytes = readFileSync(backup!.path);
    bytes.fill(0x5a, 4096, 8000);
    writeFileSync(backup!.path, bytes);
    const before = readFileSync(archive.path);
    expect(() => restoreArchive({ folder, backupName: backup!.name, now: fixedNow() })).toThrow(
      'damaged itself',
    );
    expect(readFileSync(archive.path).equals(before)).toBe(true);
  });

  it.each(['none', '../archive.sqlite', backupName(7, fixedNow())])(
    'is refused under the name "%s"',
    async (name) => {
      const folder = temporaryFolder();
      await openForTest(folder);
      expect(() => restoreArchive({ folder, backupName: name, now: fixedNow() })).toThrow(
        'There is no backup',
      );
    },
  );
});

import { readFileSync, writeFileSync } from 'node:fs';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { archivePathOf } from '../../src/archive/openArchive.ts';
import { openForTest, temporaryFolder } from './editedArchive.ts';
import { type Edited, edit, newProject, projectIdOf } from './editedSteps.ts';

describe('a damaged archive', () => {
  it('is read as far as it can be and never written, and names the last good backup', async () => {
    const folder = temporaryFolder();
    const first = await openForTest(folder);
    await edit(first.store, await newProject(first.store, projectIdOf(1), 'Quay'), 10, 1);
    await edit(first.store, await newProject(first.store, projectIdOf(2), 'Bridge'), 10, 2);
    const backup = await first.backUp();
    first.close();
    const path = archivePathOf(folder);
    const bytes = readFileSync(path);
    const at = bytes.lastIndexOf('"schemaVersion":1,"job":{"name":');
    bytes[at + 2] = 'S'.charCodeAt(0);
    writeFileSync(path, bytes);

    const archive = await openForTest(folder);
    const read = await Promise.allSettled(
      [1, 2].map((number) => archive.store.loadProject(projectIdOf(number))),
    );
    expect(read.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
    expect(archive.health().state).toBe('damaged');
    expect(archive.health().advice).toContain(backup!.name);
    expect(archive.health().advice).toContain('archive restore');
    await expect(newProject(archive.store, projectIdOf(3))).rejects.toMatchObject({
      code: 'archive-damaged',
    });
    await expect(archive.backUp()).rejects.toMatchObject({ code: 'archive-damaged' });
    expect((await archive.check()).problems).not.toEqual([]);
    archive.close();
    expect(readFileSync(path).equals(bytes)).toBe(true);
  });

  it('still gives out each project that is whole', async () => {
    const folder = temporaryFolder();
    const first = await openForTest(folder);
    const edited: Edited[] = [];
    for (const number of [1, 2, 3])
      edited.push(await edit(first.store, await newProject(first.store, projectIdOf(number)), 10, number));
    first.close();
    // The list entry of one project is changed behind the archive's back: found at opening.
    const plain = new Database(archivePathOf(folder));
    plain.prepare(`UPDATE projects SET client = 'someone else' WHERE project_id = ?`).run(projectIdOf(2));
    plain.close();
    const { store, health } = await openForTest(folder);
    expect(health()).toMatchObject({ state: 'damaged' });
    expect(health().problems.join()).toContain('1 of 3 rows of projects');
    expect((await store.listProjects()).map(({ projectId }) => projectId).sort()).toEqual(
      [1, 3].map(projectIdOf),
    );
    expect((await store.loadProject(projectIdOf(1)))?.document).toEqual(edited[0]?.document);
    expect((await store.loadProject(projectIdOf(3)))?.history).toEqual(edited[2]?.history);
    await expect(store.loadProject(projectIdOf(2))).rejects.toMatchObject({ code: 'archive-damaged' });
  });

  it.each([
    ['an event taken out of the middle', 'DELETE FROM events WHERE revision = 4'],
    ['the last event taken away', 'DELETE FROM events WHERE revision = 10'],
    [
      'two events changed over',
      'UPDATE events SET revision = 99 WHERE revision = 6; UPDATE events SET revision = 6 WHERE revision = 8; UPDATE events SET revision = 8 WHERE revision = 99',
    ],
    ['another document', `UPDATE documents SET document = replace(document, 'enquiry', 'ordered')`],
    ['a project taken away', 'DELETE FROM documents; DELETE FROM events; DELETE FROM projects'],
  ])('is one with %s', async (_, sql) => {
    const folder = temporaryFolder();
    const first = await openForTest(folder);
    await edit(first.store, await newProject(first.store, projectIdOf(1)), 10, 1);
    first.close();
    const plain = new Database(archivePathOf(folder));
    plain.pragma('foreign_keys = OFF');
    // The trigger against changed events holds; who means harm drops it and puts it back.
    const trigger = plain
      .prepare<[], { sql: string }>(`SELECT sql FROM sqlite_schema WHERE type = 'trigger'`)
      .get()!;
    if (sql.includes('UPDATE events')) expect(() => plain.exec(sql)).toThrow('never changed');
    plain.exec(`DROP TRIGGER events_are_never_changed; ${sql}; ${trigger.sql}`);
    plain.close();
    const archive = await openForTest(folder);
    const { problems } = await archive.check();
    expect(problems).not.toEqual([]);
    await expect(archive.store.loadProject(projectIdOf(1))).rejects.toMatchObject({
      code: 'archive-damaged',
    });
  });

  it('whose structure is broken is left byte for byte as it is, from opening to closing', async () => {
    const folder = temporaryFolder();
    const first = await openForTest(folder);
    await edit(first.store, await newProject(first.store, projectIdOf(1)), 40, 1);
    const path = archivePathOf(folder);
    const broken = temporaryFolder();
    const brokenPath = archivePathOf(broken);
    const bytes = readFileSync(path);
    const log = readFileSync(`${path}-wal`);
    // The size in the header of the log's third frame and the bytes after it: changes behind it are out of reach.
    log.fill(0xa5, 32 + 2 * 4120, 32 + 2 * 4120 + 100);
    writeFileSync(brokenPath, bytes);
    writeFileSync(`${brokenPath}-wal`, log);
    const archive = await openForTest(broken);
    expect(archive.health().problems.join()).toContain('write-ahead log');
    await expect(newProject(archive.store, projectIdOf(3))).rejects.toMatchObject({
      code: 'archive-damaged',
    });
    archive.close();
    expect(readFileSync(brokenPath).equals(bytes)).toBe(true);
    expect(readFileSync(`${brokenPath}-wal`).equals(log)).toBe(true);
  });

  it('of which nothing can be read is refused with what to do', async () => {
    const folder = temporaryFolder();
    (await openForTest(folder)).close();
    const bytes = readFileSync(archivePathOf(folder));
    bytes.fill(0, 0, 16);
    writeFileSync(archivePathOf(folder), bytes);
    await expect(openForTest(folder)).rejects.toMatchObject({ code: 'archive-damaged' });
    expect(readFileSync(archivePathOf(folder)).equals(bytes)).toBe(true);
  });
});

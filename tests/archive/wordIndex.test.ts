import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { type Archive, archivePathOf } from '../../src/archive/openArchive.ts';
import { archivedProjects, fillWith } from './archivedProjects.ts';
import { openForTest, temporaryFolder } from './editedArchive.ts';
import { type Edited, edit } from './editedSteps.ts';

const projects = archivedProjects(30, 5);
const everything = { words: [], offset: 0, most: 200 };
const wordOf = (name: string): string =>
  name.split(' ')[0]!.toLowerCase().normalize('NFKD').replace(/\p{M}/gu, '');
const sought = wordOf(projects[0]!.document.job.name);

const found = async ({ store }: Archive): Promise<readonly string[]> =>
  (await store.searchProjects({ ...everything, words: [sought] }))!.projects.map(
    ({ project }) => project.name,
  );

const filled = async () => {
  const folder = temporaryFolder();
  const archive = await openForTest(folder);
  await fillWith(archive.store, projects);
  return { folder, archive, due: await found(archive) };
};

/** Each spoils the index's own tables in one way. The tables are those of FTS5: https://sqlite.org/fts5.html, 9. */
const spoilings = {
  'overwritten segments': `UPDATE project_search_data SET block = x'00ff00ff00ff' WHERE id > 10`,
  'lost segments': `DELETE FROM project_search_data WHERE id > 10`,
  'an overwritten structure record': `UPDATE project_search_data SET block = x'ffffffffffffffffffff' WHERE id = 10`,
  'lost sizes': `DELETE FROM project_search_docsize`,
  'lost rows': `DELETE FROM project_search_content WHERE id % 2 = 0`,
} as const;

const spoil = (folder: string, sql: string): void => {
  const database = new Database(archivePathOf(folder));
  // SQLite guards the tables behind a virtual one.
  database.unsafeMode(true);
  database.exec(sql);
  database.close();
};

describe('an index of words that is broken', () => {
  for (const [what, sql] of Object.entries(spoilings)) {
    it(`(${what}) is made anew when the archive is opened, with a word about it`, async () => {
      const { folder, archive, due } = await filled();
      expect(due.length).toBeGreaterThan(0);
      archive.close();
      spoil(folder, sql);
      const again = await openForTest(folder);
      await again.check();
      expect(again.health()).toMatchObject({ state: 'sound', problems: [] });
      expect(again.health().notices.join(' ')).toContain('made anew');
      expect(await found(again)).toEqual(due);
      expect((await again.check()).problems).toEqual([]);
    });

    it(`(${what}) stops no writing while the archive is open`, async () => {
      const { folder, archive, due } = await filled();
      spoil(folder, sql);
      const { projectId } = projects[0]!;
      const { revision } = await edit(
        archive.store,
        (await archive.store.loadProject(projectId)) as Edited,
        20,
        3,
      );
      const renamed = archivedProjects(31, 5)[30]!;
      await fillWith(archive.store, [renamed]);
      expect((await archive.store.loadProject(projectId))?.revision).toBe(revision);
      expect(archive.health()).toMatchObject({ state: 'sound', problems: [] });
      await archive.check();
      expect(archive.health().notices.join(' ')).toContain('made anew');
      const names = await found(archive);
      for (const name of due.filter((one) => one !== projects[0]!.document.job.name))
        expect(names).toContain(name);
      archive.close();
      const again = await openForTest(folder);
      expect((await again.store.loadProject(projectId))?.revision).toBe(revision);
    });
  }
});

import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { openArchive } from '../../src/archive/openArchive.ts';
import { type Outcome, runFootrail } from '../../src/cli/runFootrail.ts';
import type { ProjectId } from '../../src/document/ids.ts';
import { readCsvRows } from '../../src/stock/csvRows.ts';
import { inventedIssue } from '../app/bundle/issuedProject.ts';
import { archivedProjects, fillWith } from '../archive/archivedProjects.ts';

const now = (): string => '2027-03-15T10:20:30.000Z';
const json = <Value>({ stdout }: Outcome): Value => JSON.parse(stdout) as Value;
const older = 'tests/fixtures/bundle/format1-document1.zip';

const temporaryFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'footrail-cli-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
};

const filledArchive = async (): Promise<string> => {
  const folder = temporaryFolder();
  const archive = await openArchive({ folder, now });
  await fillWith(archive.store, archivedProjects(30, 4));
  archive.close();
  return folder;
};

interface Found {
  readonly total: number;
  readonly projects: readonly { readonly project: { readonly name: string; readonly state: string } }[];
}

describe('footrail archive search', () => {
  it('finds by words, states, lengths and stations, and writes the list', async () => {
    const folder = await filledArchive();
    const csv = join(folder, 'list.csv');
    const search = (...args: readonly string[]) =>
      runFootrail(['archive', 'search', ...args, '--archive', folder, '--json']);
    const all = json<Found>(await search());
    expect(all.total).toBe(30);
    const lost = json<Found>(await search('--state', 'lost,ordered', '--order', 'name', '--csv', csv));
    expect(lost.total).toBe(
      all.projects.filter(({ project }) => ['lost', 'ordered'].includes(project.state)).length,
    );
    const rows = readCsvRows(readFileSync(csv, 'utf8').replace('\uFEFF', ''), ',');
    expect(rows.ok && rows.rows.slice(1).map(({ cells }) => cells[0])).toEqual(
      lost.projects.map(({ project }) => project.name),
    );
    expect(json<Found>(await search('--run-from', '999999')).total).toBe(0);
    expect((await search('nowhere')).exitCode).toBe(1);
  });

  it('names the wish that is wrong', async () => {
    const folder = await filledArchive();
    const refused = await runFootrail([
      'archive',
      'search',
      '--tender-from',
      'soon',
      '--archive',
      folder,
      '--json',
    ]);
    expect([refused.exitCode, json<{ error: object }>(refused).error]).toMatchObject([
      2,
      { code: 'bad-search', path: 'tenderFrom' },
    ]);
    const state = await runFootrail(['archive', 'search', '--state', 'won', '--archive', folder, '--json']);
    expect(json<{ error: object }>(state).error).toMatchObject({ code: 'bad-search', path: 'states.0' });
  });
});

describe('footrail archive export and import', () => {
  it('bring a project from one archive to another, and a second time nothing', async () => {
    const folder = await filledArchive();
    const file = join(folder, 'project.zip');
    const other = join(folder, 'other');
    const run = (...args: readonly string[]) => runFootrail(['archive', ...args, '--json']);
    // The invented projects name plans that no archive holds.
    const torn = await run('export', 'project-7', '--out', file, '--archive', folder);
    expect([torn.exitCode, json<{ error: object }>(torn).error]).toMatchObject([2, { code: 'plan-missing' }]);

    expect(json(await run('import', older, '--archive', other))).toMatchObject({ outcome: 'taken-in' });
    expect(json(await run('import', older, '--archive', other))).toMatchObject({ outcome: 'there-already' });
    expect(json(await run('import', older, '--copy', '--archive', other))).toMatchObject({
      outcome: 'taken-in-as-copy',
    });
    const out = join(folder, 'again.zip');
    await run('export', 'project-oldwharf1', '--out', out, '--archive', other);
    expect(json(await run('import', out, '--archive', folder))).toMatchObject({ outcome: 'taken-in' });
    const history = json<{ changes: readonly object[] }>(
      await run('history', 'project-oldwharf1', '--archive', folder),
    );
    expect(history.changes).toHaveLength(2);
    expect(json(await run('check', '--archive', folder))).toMatchObject({ sound: true, projects: 31 });
    expect((await run('export', 'project-oldwharf1', '--out', out, '--archive', other)).exitCode).toBe(2);
  });

  it('carry what was issued, or leave it out on wish, and name a number that went out twice', async () => {
    const folder = temporaryFolder();
    const [here, there] = [join(folder, 'here'), join(folder, 'there')];
    const run = (...args: readonly string[]) => runFootrail(['archive', ...args, '--json']);
    const issued = 'tests/fixtures/bundle/format2-document1.zip';
    expect(json(await run('import', issued, '--archive', here))).toMatchObject({ issuesAdded: 2 });
    const [whole, small] = [join(folder, 'whole.zip'), join(folder, 'small.zip')];
    const exported = (out: string, ...more: readonly string[]) =>
      run('export', 'project-oldwharf1', '--out', out, '--archive', here, ...more);
    expect(json(await exported(whole))).toMatchObject({ issued: 'whole', issues: 2 });
    expect(json(await exported(small, '--without-issued'))).toMatchObject({ issued: 'left-out', issues: 2 });
    expect(statSync(small).size).toBeLessThan(statSync(whole).size);
    expect(json(await run('import', small, '--archive', there))).toMatchObject({ issuesAdded: 0 });
    expect(json(await run('import', whole, '--archive', there))).toMatchObject({
      outcome: 'issues-added',
      issuesAdded: 2,
    });
    const history = await runFootrail(['archive', 'history', 'project-oldwharf1', '--archive', there]);
    expect(history.stdout).toContain('Ines Vardi  Issue 2 went out, tender, 4 files');

    // Each goes on to give number 4 to an issue of its own.
    for (const [place, said] of [
      [here, 'mine'],
      [there, 'yours'],
    ] as const) {
      const archive = await openArchive({ folder: place, now });
      const kept = await archive.store.addIssue({
        projectId: 'project-oldwharf1' as ProjectId,
        expectedRevision: 2,
        issue: inventedIssue(4, 2, said),
      });
      archive.close();
      expect(kept.ok).toBe(true);
    }
    const parted = join(folder, 'parted.zip');
    await exported(parted);
    const compared = await runFootrail(['archive', 'import', parted, '--compare', '--archive', there]);
    expect(compared.exitCode).toBe(1);
    expect(compared.stdout).toContain('Issue 4: here 2027-03-19 by Ines');
    for (const choice of [[], ['--theirs']]) {
      const refused = await run('import', parted, ...choice, '--archive', there);
      expect([refused.exitCode, json<{ error: object }>(refused).error]).toMatchObject([
        2,
        { code: 'bundle-issue-differs' },
      ]);
    }
    expect(json(await run('import', parted, '--copy', '--archive', there))).toMatchObject({
      outcome: 'taken-in-as-copy',
      issuesAdded: 3,
    });
    expect(json(await run('check', '--archive', there))).toMatchObject({ sound: true, projects: 2 });
  });

  it('say why a file is no project', async () => {
    const folder = temporaryFolder();
    const file = join(folder, 'letter.zip');
    writeFileSync(file, 'Dear Sirs');
    const refused = await runFootrail(['archive', 'import', file, '--archive', folder, '--json']);
    expect([refused.exitCode, json<{ error: object }>(refused).error]).toMatchObject([
      2,
      { code: 'bundle-not-a-zip', message: expect.stringContaining('Nothing was taken in') },
    ]);
  });
});

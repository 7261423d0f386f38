import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { openArchive } from '../../src/archive/openArchive.ts';
import { type Outcome, runFootrail } from '../../src/cli/runFootrail.ts';
import { archivedProjects, fillWith } from '../archive/archivedProjects.ts';

const now = (): string => '2027-03-15T10:20:30.000Z';
const json = <Value>({ stdout }: Outcome): Value => JSON.parse(stdout) as Value;

interface Purged {
  readonly purged: boolean;
  readonly isErased?: boolean;
  readonly copiesRemoved?: readonly string[];
  readonly preview?: { readonly project: { readonly name: string }; readonly copies: readonly unknown[] };
}

it('footrail archive purge says what would go, and purges only where it is confirmed', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'footrail-cli-purge-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const archive = await openArchive({ folder, now });
  const projects = archivedProjects(12, 4);
  await fillWith(archive.store, projects);
  await archive.backUp();
  archive.close();
  const call = (...args: readonly string[]) =>
    runFootrail(['archive', ...args, '--archive', folder, '--json']);

  const due = json<{ pastRetention: readonly { project: { projectId: string }; retainUntil: string }[] }>(
    await call('purge'),
  ).pastRetention;
  const today = new Date().toISOString().slice(0, 10);
  expect(due.map(({ project }) => project.projectId).sort()).toEqual(
    projects
      .filter(({ document: { job } }) => job.retainUntil !== '' && job.retainUntil < today)
      .map(({ projectId }) => projectId)
      .sort(),
  );
  const projectId = due[0]!.project.projectId;

  const asked = await call('purge', projectId);
  expect(asked.exitCode).toBe(1);
  expect(json<Purged>(asked)).toMatchObject({ purged: false, preview: { copies: [{ holds: 'project' }] } });
  expect(json<{ projects: readonly unknown[] }>(await call('list')).projects).toHaveLength(12);

  const done = await call('purge', projectId, '--confirm', '--with-copies');
  expect(done.exitCode).toBe(0);
  const report = json<Purged>(done);
  expect(report).toMatchObject({ purged: true, isErased: true, copiesLeft: [] });
  expect(report.copiesRemoved).toHaveLength(1);
  expect(json<{ projects: readonly unknown[] }>(await call('list')).projects).toHaveLength(11);
  expect(json<{ projects: readonly unknown[] }>(await call('purged')).projects).toHaveLength(1);
  expect(json<{ backups: readonly unknown[] }>(await call('backups')).backups).toHaveLength(1);
  expect((await call('purge', projectId, '--confirm')).exitCode).toBe(2);
});

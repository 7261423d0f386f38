import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { cpSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { archiveMigrations } from '../../src/archive/archiveMigrations.ts';
import { inspectBackup, listBackups } from '../../src/archive/backupFiles.ts';
import { archiveVersionOf } from '../../src/archive/migrateArchive.ts';
import { archivePathOf } from '../../src/archive/openArchive.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { openForTest, temporaryFolder } from './editedArchive.ts';
import { edit, newProject, projectIdOf, seededNumbers } from './editedSteps.ts';
import { laterMigrations } from './laterMigrations.ts';

const script = fileURLToPath(new URL('./migratingProcess.ts', import.meta.url));
const seed = 4_100;
const kills = campaignSize({ sample: 4, full: 60 });

/** How long the process needs here from its start until the archive is up to date, in ms. */
const migrationMs = async (folder: string): Promise<number> => {
  const child = spawn(process.execPath, [script, folder], { stdio: ['ignore', 'pipe', 'inherit'] });
  let startedMs = 0;
  for await (const chunk of child.stdout as AsyncIterable<Buffer>) {
    const output = chunk.toString();
    if (output.includes('start')) startedMs = performance.now();
    if (output.includes('open')) break;
  }
  const took = performance.now() - startedMs;
  child.kill('SIGKILL');
  return took;
};

/** Starts to bring the archive up to date and kills the process; answers whether it had said that it was done. */
const migrateUntilKilled = async (folder: string, afterMs: number): Promise<boolean> => {
  const child = spawn(process.execPath, [script, folder], { stdio: ['ignore', 'pipe', 'inherit'] });
  let output = '';
  child.stdout.on('data', (chunk: Buffer) => {
    output += chunk.toString();
  });
  const closed = once(child, 'close');
  while (!output.includes('start')) await once(child.stdout, 'data');
  setTimeout(() => child.kill('SIGKILL'), afterMs);
  await closed;
  return output.includes('open');
};

describe('an archive whose process is killed while it is brought up to date', () => {
  it(`is of the old version or the new, whole (${kills} kills, seed ${seed})`, {
    timeout: 900_000,
  }, async () => {
    const next = seededNumbers(seed);
    const old = temporaryFolder();
    const first = await openForTest(old);
    const edited = await edit(first.store, await newProject(first.store, projectIdOf(1)), 60, 1);
    for (let number = 2; number <= 40; number += 1)
      await first.store.createProject({
        ...edited,
        projectId: projectIdOf(number),
        at: '2027-01-01T00:00:00.000Z',
      });
    first.close();
    const trial = temporaryFolder();
    cpSync(old, trial, { recursive: true });
    // From the start to a little after the end, however fast this machine is.
    const latestMs = 1.2 * (await migrationMs(trial));
    const found = { old: 0, new: 0 };
    for (let kill = 0; kill < kills; kill += 1) {
      const folder = temporaryFolder();
      cpSync(old, folder, { recursive: true });
      const afterMs = next() * latestMs;
      const wasDone = await migrateUntilKilled(folder, afterMs);
      const where = `kill ${kill} (seed ${seed}), ${afterMs.toFixed(1)} ms after the start`;
      const plain = new Database(archivePathOf(folder));
      const version = archiveVersionOf(plain);
      expect(plain.pragma('integrity_check', { simple: true }), where).toBe('ok');
      plain.close();
      expect([archiveMigrations.length, laterMigrations.length], where).toContain(version);
      if (wasDone) expect(version, where).toBe(laterMigrations.length);
      found[version === laterMigrations.length ? 'new' : 'old'] += 1;
      for (const backup of listBackups(folder)) expect(inspectBackup(backup.path), where).toEqual([]);

      const archive = await openForTest(folder, { migrations: laterMigrations });
      expect(archive.health(), where).toMatchObject({ state: 'sound', notices: [] });
      expect((await archive.store.loadProject(projectIdOf(1)))?.history, where).toEqual(edited.history);
      archive.close();
    }
    process.stdout.write(
      `\nkilled migrations: ${found.old} of the old version, ${found.new} of the new, none between\n`,
    );
  });
});

import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { inspectBackup, listBackups } from '../../src/archive/backupFiles.ts';
import { openArchive } from '../../src/archive/openArchive.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { temporaryFolder } from './editedArchive.ts';
import { fixedNow, projectIdOf, seededNumbers, sha256Of } from './editedSteps.ts';

const script = fileURLToPath(new URL('./editingProcess.ts', import.meta.url));

/** Runs the editing process until it is killed, `afterMs` after it started; answers the lines that it printed whole. */
const editUntilKilled = (folder: string, seed: number, afterMs: number): Promise<readonly string[]> =>
  new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [script, folder, String(seed)], {
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let output = '';
    let complaints = '';
    child.stdout.on('data', (chunk: Buffer) => {
      output += chunk.toString();
    });
    child.stderr.on('data', (chunk: Buffer) => {
      complaints += chunk.toString();
    });
    const timer = setTimeout(() => child.kill('SIGKILL'), afterMs);
    child.on('close', (code, signal) => {
      clearTimeout(timer);
      if (signal === 'SIGKILL') resolve(output.split('\n').slice(0, -1));
      else reject(new Error(`The editing process ended with ${code}: ${complaints}`));
    });
  });

const seed = 8_300;
const kills = campaignSize({ sample: 6, full: 300 });
/** Node needs about this long to start; the instants reach from before the archive is made to deep in editing. */
const instantsMs = { from: 120, to: 1500 } as const;
const killsOfOneArchive = 6;

describe('an archive whose process is killed', () => {
  it(`keeps every accepted change (${kills} kills, seed ${seed})`, { timeout: 1_800_000 }, async () => {
    const next = seededNumbers(seed);
    let folder = temporaryFolder();
    let accepted = 0;
    let killsDuringEditing = 0;
    let planKept: string | null = null;
    for (let kill = 0; kill < kills; kill += 1) {
      if (kill % killsOfOneArchive === 0) {
        folder = temporaryFolder();
        accepted = 0;
        planKept = null;
      }
      const afterMs = instantsMs.from + next() * (instantsMs.to - instantsMs.from);
      const lines = await editUntilKilled(folder, seed + kill, afterMs);
      const words = lines.map((line) => line.split(' '));
      const [, revision, digest] = words.findLast(([kind]) => kind === 'revision') ?? [];
      planKept = words.findLast(([kind]) => kind === 'plan')?.[1] ?? planKept;
      if (revision !== undefined) killsDuringEditing += 1;
      accepted = Math.max(accepted, Number(revision ?? 0));

      const archive = await openArchive({ folder, now: fixedNow });
      try {
        const where = `kill ${kill} (seed ${seed}) after ${afterMs.toFixed(1)} ms`;
        expect(archive.health(), where).toMatchObject({ state: 'sound', notices: [] });
        const project = await archive.store.loadProject(projectIdOf(1));
        const found = project?.revision ?? 0;
        // The last change may have been accepted without its line being printed.
        expect(found, where).toBeGreaterThanOrEqual(accepted);
        expect(found, where).toBeLessThanOrEqual(accepted + 1);
        if (project && found === Number(revision))
          expect(sha256Of(Buffer.from(JSON.stringify(project.document))), where).toBe(digest);
        if (planKept !== null) expect(await archive.store.getPlan(planKept), where).not.toBeNull();
        expect((await archive.check()).problems, where).toEqual([]);
        for (const backup of listBackups(folder)) expect(inspectBackup(backup.path), where).toEqual([]);
        accepted = found;
      } finally {
        archive.close();
      }
      const plain = new Database(archive.path, { readonly: true });
      expect(plain.pragma('integrity_check', { simple: true })).toBe('ok');
      plain.close();
    }
    expect(killsDuringEditing).toBeGreaterThan(kills / 3);
  });
});

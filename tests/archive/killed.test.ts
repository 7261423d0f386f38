import { fileURLToPath } from 'node:url';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { inspectBackup, listBackups } from '../../src/archive/backupFiles.ts';
import { openArchive } from '../../src/archive/openArchive.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { temporaryFolder } from './editedArchive.ts';
import { projectIdOf, seededNumbers, sha256Of } from './editedSteps.ts';
import { linesUntilKilled } from './linesUntilKilled.ts';

const script = fileURLToPath(new URL('./editingProcess.ts', import.meta.url));

/** From when the instant counts: the start of the process, the opened archive, or the first accepted change. */
const countsFrom = ['start', 'open', 'revision', 'revision'] as const;
type CountsFrom = (typeof countsFrom)[number];

const editUntilKilled = (
  folder: string,
  seed: number,
  { from, afterMs }: { readonly from: CountsFrom; readonly afterMs: number },
): Promise<readonly string[]> =>
  linesUntilKilled(script, [folder, String(seed)], { from: from === 'start' ? null : from, afterMs });

const seed = 8_300;
const kills = campaignSize({ sample: 6, full: 300 });
const latestMs = 600;
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
      const from = countsFrom[kill % countsFrom.length]!;
      const afterMs = next() * latestMs;
      const lines = await editUntilKilled(folder, seed + kill, { from, afterMs });
      const words = lines.map((line) => line.split(' '));
      const [, revision, digest] = words.findLast(([kind]) => kind === 'revision') ?? [];
      planKept = words.findLast(([kind]) => kind === 'plan')?.[1] ?? planKept;
      if (revision !== undefined) killsDuringEditing += 1;
      accepted = Math.max(accepted, Number(revision ?? 0));

      // Random edits carry times of their own, days ahead; the clock stands after them all.
      const archive = await openArchive({ folder, now: () => '2040-01-01T00:00:00.000Z' });
      try {
        const where = `kill ${kill} (seed ${seed}) ${afterMs.toFixed(1)} ms after ${from}`;
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
    expect(killsDuringEditing).toBeGreaterThanOrEqual(Math.floor(kills / 2));
  });
});

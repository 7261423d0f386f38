import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { inspectBackup, listBackups } from '../../src/archive/backupFiles.ts';
import { type Archive, openArchive } from '../../src/archive/openArchive.ts';
import type { ProjectId } from '../../src/document/ids.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { temporaryFolder } from './editedArchive.ts';
import { projectIdOf, seededNumbers, sha256Of } from './editedSteps.ts';
import { linesUntilKilled } from './linesUntilKilled.ts';
import { issuedBytesOf, issueLabel } from './operatedProject.ts';

const script = fileURLToPath(new URL('./operatingProcess.ts', import.meta.url));

/** From when the instant counts: a line that begins so. */
const countsFrom = [
  'start',
  'open',
  'issue',
  'importing',
  'purging',
  'purging',
  'revised',
  'imported',
] as const;

const operateUntilKilled = (
  folder: string,
  seed: number,
  instant: { readonly from: string; readonly afterMs: number },
): Promise<readonly string[]> => linesUntilKilled(script, [folder, String(seed)], instant);

/** The files of a folder in which a text stands. */
const filesWith = (folder: string, text: string): readonly string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) => {
    const path = join(folder, name);
    return statSync(path).isFile() && readFileSync(path).includes(text);
  });

/** What one archive was said to have. */
interface Accepted {
  issues: number;
  readonly sheets: Set<string>;
  readonly imported: Map<ProjectId, { revision: number; digest: string }>;
  /** Markers of what is to be purged; once it was said to be purged, `isGone`. */
  readonly purged: Map<ProjectId, { readonly marker: string; isBegun: boolean; isGone: boolean }>;
}

const hear = (accepted: Accepted, lines: readonly string[]): void => {
  for (const line of lines) {
    const [kind = '', subject = '', number = '', digest = ''] = line.split(' ');
    const id = subject as ProjectId;
    if (kind === 'issue') accepted.issues = Number(subject);
    if (kind === 'revised') accepted.sheets.add(subject);
    if (kind === 'imported') accepted.imported.set(id, { revision: Number(number), digest });
    if (kind === 'made') accepted.purged.set(id, { marker: number, isBegun: false, isGone: false });
    if (kind === 'purging') accepted.purged.get(id)!.isBegun = true;
    if (kind === 'purged') accepted.purged.get(id)!.isGone = true;
  }
};

/** Issues are there whole, with the change that belongs to each, or not at all. Answers how many there are. */
const expectWholeIssues = async ({ store }: Archive, accepted: Accepted, where: string): Promise<number> => {
  const projectId = projectIdOf(1);
  const { issues, nextNumber } = await store.listIssues(projectId);
  expect(
    issues.map(({ number }) => number),
    where,
  ).toEqual(issues.map((_, index) => index + 1));
  expect(nextNumber, where).toBe(issues.length + 1);
  const events = (await store.listEvents(projectId)) ?? [];
  const labels = events.map(({ label }) => label).filter((label) => label.startsWith('Issue '));
  expect(labels, where).toEqual(issues.map(({ number }) => issueLabel(number)));
  for (const { number, files, inputsSha256 } of issues.slice(-3)) {
    expect(files, where).toHaveLength(3);
    for (const [index, { fileName, sha256 }] of files.entries()) {
      const bytes = await store.issuedBytes(projectId, number, fileName);
      expect(sha256Of(bytes!), where).toBe(sha256);
      expect(sha256, where).toBe(sha256Of(issuedBytesOf(number, index + 1)));
    }
    const inputs = (await store.issueInputs(projectId, number))!;
    expect(sha256Of(Buffer.from(inputs)), where).toBe(inputsSha256);
  }
  expect(issues.length, where).toBeGreaterThanOrEqual(accepted.issues);
  return issues.length;
};

const seed = 8_800;
const kills = campaignSize({ sample: 8, full: 300 });
const latestMs = 300;
const killsOfOneArchive = 8;

describe('an archive whose process is killed while it issues, revises, takes in, purges and backs up', () => {
  it(`has each of them whole or not at all, and nothing of what was purged (${kills} kills, seed ${seed})`, {
    timeout: 3_600_000,
  }, async () => {
    const next = seededNumbers(seed);
    let folder = temporaryFolder();
    let accepted: Accepted = { issues: 0, sheets: new Set(), imported: new Map(), purged: new Map() };
    const found = { issued: 0, revised: 0, imported: 0, purged: 0, cutShort: 0, notBegun: 0 };
    for (let kill = 0; kill < kills; kill += 1) {
      if (kill % killsOfOneArchive === 0) {
        folder = temporaryFolder();
        accepted = { issues: 0, sheets: new Set(), imported: new Map(), purged: new Map() };
      }
      const from = countsFrom[kill % countsFrom.length]!;
      const afterMs = next() * latestMs;
      const lines = await operateUntilKilled(folder, seed + kill, { from, afterMs });
      hear(accepted, lines);
      const where = `kill ${kill} (seed ${seed}) ${afterMs.toFixed(1)} ms after ${from}`;
      // What was said to be purged is gone before anything opens the archive again.
      for (const { marker, isGone } of accepted.purged.values())
        if (isGone) expect(filesWith(folder, marker), where).toEqual([]);

      const archive = await openArchive({ folder, now: () => '2040-01-01T00:00:00.000Z' });
      try {
        expect(archive.health(), where).toMatchObject({ state: 'sound', notices: [] });
        const { store } = archive;
        const project = await store.loadProject(projectIdOf(1));
        if (project) {
          const issues = await expectWholeIssues(archive, accepted, where);
          expect(issues, where).toBeLessThanOrEqual(accepted.issues + 1);
          accepted.issues = issues;
          const { sheets, runs } = project.document as ProjectDocument;
          for (const sheetId of accepted.sheets) {
            expect(Object.keys(sheets), where).toContain(sheetId);
            expect(
              Object.values(runs).some((run) => run.sheetId === sheetId),
              where,
            ).toBe(true);
          }
        } else expect(accepted.issues + accepted.sheets.size, where).toBe(0);
        for (const [projectId, { revision, digest }] of accepted.imported) {
          const taken = (await store.loadProject(projectId))!;
          expect(taken.revision, where).toBeGreaterThanOrEqual(revision);
          if (taken.revision === revision)
            expect(sha256Of(Buffer.from(JSON.stringify(taken.document))), where).toBe(digest);
        }
        // Whatever was taken in brought its plans along.
        for (const { projectId } of await store.listProjects()) {
          if (accepted.purged.has(projectId)) continue;
          const { document } = (await store.loadProject(projectId))!;
          for (const { planSha256 } of Object.values((document as ProjectDocument).sheets))
            expect(await store.getPlan(planSha256), where).not.toBeNull();
        }
        for (const [projectId, one] of accepted.purged) {
          const { marker, isBegun, isGone } = one;
          const stored = await store.loadProject(projectId);
          if (isGone || !isBegun) expect(stored !== null, where).toBe(!isGone);
          if (stored) {
            expect(JSON.stringify(stored.document), where).toContain(marker);
            const { planSha256 } = Object.values((stored.document as ProjectDocument).sheets)[0]!;
            expect(await store.getPlan(planSha256), where).not.toBeNull();
            found.notBegun += 1;
          } else {
            // Done, however far it had got: also out of the bytes, and out of the copies.
            expect(filesWith(folder, marker), where).toEqual([]);
            if (!isGone) found.cutShort += 1;
            one.isGone = true;
          }
        }
        expect((await archive.check()).problems, where).toEqual([]);
        for (const backup of listBackups(folder)) expect(inspectBackup(backup.path), where).toEqual([]);
      } finally {
        archive.close();
      }
      const plain = new Database(archive.path, { readonly: true });
      expect(plain.pragma('integrity_check', { simple: true })).toBe('ok');
      plain.close();
      const count = (kind: string): number => lines.filter((line) => line.startsWith(`${kind} `)).length;
      found.issued += count('issue');
      found.revised += count('revised');
      found.imported += count('imported');
      found.purged += count('purged');
    }
    process.stdout.write(
      `\nkilled in the midst: ${found.issued} issues, ${found.revised} revised sheets, ${found.imported} project files and ${found.purged} purges accepted, none lost; ${found.cutShort} purges cut short and finished\n`,
    );
    expect(found.issued).toBeGreaterThan(0);
    expect(found.imported).toBeGreaterThan(0);
  });

  it('by three processes at once: each number is given out once, each sheet followed once, nothing accepted is lost', {
    timeout: 900_000,
  }, async () => {
    const folder = temporaryFolder();
    const seconds = campaignSize({ sample: 4, full: 60 });
    const all = [1, 2, 3].map((worker) =>
      spawn(process.execPath, [script, folder, String(seed + worker), 'shared'], {
        stdio: ['ignore', 'pipe', 'pipe'],
      }),
    );
    const outputs = all.map(() => ({ said: '', complained: '' }));
    for (const [index, child] of all.entries()) {
      child.stdout.on('data', (chunk: Buffer) => {
        outputs[index]!.said += chunk.toString();
      });
      child.stderr.on('data', (chunk: Buffer) => {
        outputs[index]!.complained += chunk.toString();
      });
    }
    const closed = all.map((child) => once(child, 'close'));
    // All three are at work before the time counts.
    while (!outputs.every(({ said, complained }) => /^(issue|imported|revised)/m.test(said) || complained))
      await new Promise((resolve) => setTimeout(resolve, 50));
    await new Promise((resolve) => setTimeout(resolve, seconds * 1000));
    for (const child of all) child.kill('SIGKILL');
    await Promise.all(closed);
    expect(outputs.map(({ complained }) => complained)).toEqual(['', '', '']);
    const lines = outputs.flatMap(({ said }) => said.split('\n').slice(0, -1));
    const numbers = lines.filter((line) => line.startsWith('issue ')).map((line) => Number(line.slice(6)));
    expect(new Set(numbers).size).toBe(numbers.length);
    const archive = await openArchive({ folder, now: () => '2040-01-01T00:00:00.000Z' });
    try {
      expect(archive.health()).toMatchObject({ state: 'sound', notices: [] });
      const none = { issues: 0, sheets: new Set<string>(), imported: new Map(), purged: new Map() };
      const kept = await expectWholeIssues(archive, none, 'after all');
      // Each of the three may have issued one more than it came to say.
      expect(kept).toBeGreaterThanOrEqual(Math.max(...numbers));
      expect(kept).toBeLessThanOrEqual(numbers.length + 3);
      const project = (await archive.store.loadProject(projectIdOf(1)))!;
      const followed = Object.values((project.document as ProjectDocument).sheets).flatMap(
        ({ revisionOf }) => revisionOf?.supersedes ?? [],
      );
      expect(new Set(followed).size).toBe(followed.length);
      for (const line of lines.filter((one) => one.startsWith('purging '))) {
        const id = line.split(' ')[1]!;
        const marker = lines.find((one) => one.startsWith(`made ${id} `))!.split(' ')[2]!;
        if ((await archive.store.loadProject(id as ProjectId)) === null)
          expect(filesWith(folder, marker)).toEqual([]);
      }
      expect((await archive.check()).problems).toEqual([]);
      process.stdout.write(
        `\nthree at once: ${numbers.length} issues, ${lines.filter((line) => line === 'refused').length} refused as too late, ${lines.filter((line) => line.startsWith('purged ')).length} purges\n`,
      );
    } finally {
      archive.close();
    }
  });
});

import { createHash } from 'node:crypto';
import { type Zippable, zipSync } from 'fflate';
import { describe, expect, it, onTestFinished } from 'vitest';
import type { ProjectId } from '../../../src/document/ids.ts';
import { createNodePorts } from '../../../src/host/nodePorts.ts';
import { temporaryFolder } from '../../archive/editedArchive.ts';
import { seededNumbers } from '../../archive/editedSteps.ts';
import { campaignSize } from '../../campaign/campaignSize.ts';
import { type ApiForTest, apiForTest } from '../portsForTest.ts';
import { walkZip } from './bundledProject.ts';
import { inventedIssue, issuedIn, issuedProject } from './issuedProject.ts';

const seed = 2027;
const flips = campaignSize({ sample: 60, full: 500 });
const sha256Of = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** An archive on disk, as the program has it. */
const archiveOnDisk = async () => {
  const { ports, archive } = await createNodePorts({ archiveDir: temporaryFolder() });
  onTestFinished(() => archive.close());
  return { archive, ...apiForTest({ store: ports.store, freshId: () => 'copied', who: () => 'ines' }) };
};

const issueAgain = async (place: ApiForTest, projectId: ProjectId, number: number, said = '') => {
  const { revision } = await place.done('open-project', { projectId });
  const issue = inventedIssue(number, revision, said);
  return (await place.ports.store.addIssue({ projectId, expectedRevision: revision, issue })).ok;
};

describe('what was issued', () => {
  it('comes to another archive whole: the same bytes, numbers, dates and sums', async () => {
    const from = await issuedProject();
    const to = await archiveOnDisk();
    const projectId = from.projectId;
    const due = await issuedIn(from, projectId);
    expect(await to.done('import-project', { bytes: from.file.bytes })).toMatchObject({
      outcome: 'taken-in',
      issuesAdded: 2,
    });
    expect(await issuedIn(to, projectId)).toEqual(due);
    expect(due.nextNumber).toBe(3);
    expect((await to.archive.check()).problems).toEqual([]);
    // Never given out again, nor taken away.
    expect(await issueAgain(to, projectId, 2)).toBe(false);
    // And from there on to a third one.
    const again = await to.done('export-project', { projectId });
    const third = await archiveOnDisk();
    await third.done('import-project', { bytes: again.bytes });
    expect(await issuedIn(third, projectId)).toEqual(due);
  });

  it('is there once in the file, however often it was issued, under its own SHA-256', async () => {
    const { file } = await issuedProject();
    const issued = [...walkZip(file.bytes)].filter(([path]) => path.startsWith('issued/'));
    // Two inputs, two schedules, two manifests, and one page that both issues have.
    expect(issued).toHaveLength(7);
    for (const [path, bytes] of issued) expect(path).toBe(`issued/${sha256Of(bytes)}`);
  });

  it('changes nothing when the file is taken in again', async () => {
    const from = await issuedProject();
    const to = await archiveOnDisk();
    const projectId = from.projectId;
    await to.done('import-project', { bytes: from.file.bytes });
    const before = [await issuedIn(to, projectId), await to.done('project-history', { projectId })];
    for (const choice of ['refuse', 'theirs'] as const)
      expect(await to.done('import-project', { bytes: from.file.bytes, choice })).toMatchObject({
        outcome: 'there-already',
        issuesAdded: 0,
      });
    expect([await issuedIn(to, projectId), await to.done('project-history', { projectId })]).toEqual(before);
  });

  it('is united by number where one archive has issued more than the other', async () => {
    const from = await issuedProject();
    const to = await archiveOnDisk();
    const projectId = from.projectId;
    await to.done('import-project', { bytes: from.file.bytes });
    expect(await issueAgain(from, projectId, 3)).toBe(true);
    const { bytes } = await from.done('export-project', { projectId });
    expect((await to.done('compare-project-file', { bytes })).issues).toMatchObject([
      { number: 3, relation: 'file', mine: null, theirs: { issuedBy: 'Ines', files: 3 } },
    ]);
    expect(await to.done('import-project', { bytes })).toMatchObject({
      outcome: 'issues-added',
      issuesAdded: 1,
    });
    expect(await issuedIn(to, projectId)).toEqual(await issuedIn(from, projectId));
    expect((await to.archive.check()).problems).toEqual([]);
    // The older file takes nothing away.
    expect(await to.done('import-project', { bytes: from.file.bytes })).toMatchObject({
      outcome: 'there-already',
    });
    expect((await issuedIn(to, projectId)).nextNumber).toBe(4);
  });

  it('is a conflict where one number went to two issues: both are shown, only a copy has both', async () => {
    const from = await issuedProject();
    const to = await archiveOnDisk();
    const projectId = from.projectId;
    await to.done('import-project', { bytes: from.file.bytes });
    await issueAgain(from, projectId, 3);
    await issueAgain(to, projectId, 3, ' of another make');
    const { bytes } = await from.done('export-project', { projectId });
    const before = await issuedIn(to, projectId);
    expect((await to.done('compare-project-file', { bytes })).issues).toMatchObject([
      { number: 3, relation: 'differs', mine: { files: 3 }, theirs: { files: 3 } },
    ]);
    for (const choice of ['refuse', 'theirs'] as const) {
      const refused = await to.api.call('import-project', { bytes, choice });
      expect(refused).toMatchObject({ ok: false, error: { code: 'bundle-issue-differs' } });
      expect(JSON.stringify(refused)).toContain('issue 3: here 2027-03-18 09:00 by Ines, tender, 3 files');
    }
    const copy = await to.done('import-project', { bytes, choice: 'copy' });
    expect(copy).toMatchObject({ outcome: 'taken-in-as-copy', issuesAdded: 3 });
    expect(await issuedIn(to, projectId)).toEqual(before);
    expect((await issuedIn(to, copy.projectId)).whole).toEqual((await issuedIn(from, projectId)).whole);
    expect((await to.archive.check()).problems).toEqual([]);
  });

  it('can be left out to stay small: its numbers are not given out again, and it can be brought later', async () => {
    const from = await issuedProject();
    const to = await archiveOnDisk();
    const projectId = from.projectId;
    const small = await from.done('export-project', { projectId, withoutIssued: true });
    const entries = walkZip(small.bytes);
    expect(JSON.parse(entries.get('manifest.json')!.toString())).toMatchObject({ issued: 'left-out' });
    expect([...entries.keys()].some((path) => path.startsWith('issued/'))).toBe(false);
    await to.done('import-project', { bytes: small.bytes });
    expect(await to.ports.store.listIssues(projectId)).toEqual({ issues: [], nextNumber: 3 });
    expect((await to.done('compare-project-file', { bytes: small.bytes })).issues).toMatchObject([
      { number: 1, relation: 'left-out' },
      { number: 2, relation: 'left-out' },
    ]);
    expect(await issueAgain(to, projectId, 2)).toBe(false);
    expect(await issueAgain(to, projectId, 3)).toBe(true);
    expect((await to.archive.check()).problems).toEqual([]);
    expect(await to.done('import-project', { bytes: from.file.bytes })).toMatchObject({
      outcome: 'issues-added',
      issuesAdded: 2,
    });
    expect((await to.ports.store.listIssues(projectId)).issues.map(({ number }) => number)).toEqual([
      1, 2, 3,
    ]);
    expect((await to.archive.check()).problems).toEqual([]);
  });

  it('stands in the history between the changes', async () => {
    const { done, projectId } = await issuedProject();
    const { changes, issues } = await done('project-history', { projectId });
    expect(issues).toMatchObject([
      { number: 1, by: 'Ines', purpose: 'tender', files: 3, after: changes.length },
      { number: 2, after: changes.length },
    ]);
    expect(changes.map(({ detail }) => detail).slice(0, 3)).toEqual([
      '“Mezzanine”',
      'site: empty to “Quay 7”',
      'site: “Quay 7” to “Quay 8”',
    ]);
  });
});

interface Issues {
  lastNumber: number;
  issues: {
    number: number;
    issuedAt: string;
    files: { fileName: string; sha256: string; byteLength: number; document: string }[];
    inputs: { sha256: string; byteLength: number };
  }[];
}

/** The file with changes to its issues, its manifest put right as someone careful would. */
const remade = async (change: {
  readonly issues?: (issues: Issues, entries: Map<string, Buffer>) => void;
  readonly manifest?: (manifest: { issued?: string; formatVersion: number }) => void;
}): Promise<Uint8Array> => {
  const entries = new Map(walkZip((await issuedProject()).file.bytes));
  const issues = JSON.parse(entries.get('issues.json')!.toString()) as Issues;
  change.issues?.(issues, entries);
  entries.set('issues.json', Buffer.from(JSON.stringify(issues)));
  const manifest = JSON.parse(entries.get('manifest.json')!.toString());
  manifest.entries = [...entries]
    .filter(([path]) => path !== 'manifest.json')
    .map(([path, bytes]) => ({
      path,
      mediaType: 'application/octet-stream',
      byteLength: bytes.length,
      sha256: sha256Of(bytes),
    }));
  change.manifest?.(manifest);
  entries.set('manifest.json', Buffer.from(JSON.stringify(manifest)));
  return zipSync(Object.fromEntries(entries) as Zippable);
};

describe('a project file whose issues were changed after they went out', () => {
  it('comes in where it was only packed again', async () => {
    const to = apiForTest();
    expect(await to.done('import-project', { bytes: await remade({}) })).toMatchObject({ issuesAdded: 2 });
  });

  it.each<[string, string, Parameters<typeof remade>[0]]>([
    [
      'another file in the place of one, with sums to match',
      'bundle-issue-broken',
      {
        issues: ({ issues }, entries) => {
          const bytes = Buffer.from('item,count\nunit 1,9\n');
          const file = issues[0]!.files[1]!;
          entries.delete(`issued/${file.sha256}`);
          Object.assign(file, { sha256: sha256Of(bytes), byteLength: bytes.length });
          entries.set(`issued/${file.sha256}`, bytes);
        },
      },
    ],
    [
      'bytes under another’s SHA-256',
      'bundle-tampered',
      {
        issues: ({ issues }, entries) => {
          entries.set(`issued/${issues[0]!.files[1]!.sha256}`, Buffer.from('item,count\nunit 1,9\n'));
        },
      },
    ],
    [
      'another date',
      'bundle-issue-broken',
      {
        issues: ({ issues }) => {
          issues[0]!.issuedAt = '2026-01-01T09:00:00.000Z';
        },
      },
    ],
    [
      'another number',
      'bundle-issue-broken',
      {
        issues: (all) => {
          all.issues[1]!.number = 3;
          all.lastNumber = 3;
        },
      },
    ],
    [
      'a last number below the last issue',
      'bundle-issue-broken',
      {
        issues: (all) => {
          all.lastNumber = 1;
        },
      },
    ],
    ['issues in another order', 'bundle-issue-broken', { issues: ({ issues }) => void issues.reverse() }],
    [
      'another length',
      'bundle-issue-broken',
      {
        issues: ({ issues }) => {
          issues[0]!.files[0]!.byteLength += 1;
        },
      },
    ],
    [
      'a missing file',
      'bundle-entry-missing',
      {
        issues: ({ issues }, entries) => void entries.delete(`issued/${issues[0]!.files[1]!.sha256}`),
      },
    ],
    [
      'a file of no issue',
      'bundle-unknown-entry',
      {
        issues: (_, entries) => {
          const bytes = Buffer.from('a stranger');
          entries.set(`issued/${sha256Of(bytes)}`, bytes);
        },
      },
    ],
    [
      'a name that climbs',
      'bundle-path-outside',
      {
        issues: ({ issues }) => {
          issues[0]!.files[0]!.fileName = '../../plan.pdf';
        },
      },
    ],
    [
      'one name twice',
      'bundle-issue-broken',
      {
        issues: ({ issues }) => {
          issues[0]!.files[0]!.fileName = issues[0]!.files[1]!.fileName;
        },
      },
    ],
    [
      'no list of issues',
      'bundle-project-unreadable',
      { issues: (all) => void Object.assign(all, { issues: 'none' }) },
    ],
    [
      'files that its manifest says were left out',
      'bundle-unknown-entry',
      {
        manifest: (manifest) => {
          manifest.issued = 'left-out';
        },
      },
    ],
    [
      'a manifest that does not say',
      'bundle-not-ours',
      {
        manifest: (manifest) => {
          delete manifest.issued;
        },
      },
    ],
    [
      'a version that had none',
      'bundle-unknown-entry',
      {
        manifest: (manifest) => {
          manifest.formatVersion = 1;
        },
      },
    ],
  ])('is refused with %s: %s', async (_, code, change) => {
    const { api, done } = apiForTest();
    expect(await api.call('import-project', { bytes: await remade(change) })).toMatchObject({
      ok: false,
      error: { code, message: expect.stringContaining('Nothing was taken in') },
    });
    expect((await done('list-projects', {})).projects).toEqual([]);
  });

  it(`notices every flipped bit, or it is harmless (${flips} flips, seed ${seed})`, {
    timeout: 900_000,
  }, async () => {
    const next = seededNumbers(seed);
    const from = await issuedProject();
    const projectId = from.projectId;
    const due = await issuedIn(from, projectId);
    let noticed = 0;
    for (let flip = 0; flip < flips; flip += 1) {
      const bytes = from.file.bytes.slice();
      const at = Math.floor(next() * bytes.length);
      const bit = Math.floor(next() * 8);
      bytes[at] = bytes[at]! ^ (1 << bit);
      const to = apiForTest();
      const answer = await to.api.call('import-project', { bytes });
      const where = `flip ${flip} (seed ${seed}): bit ${bit} of byte ${at}`;
      if (answer.ok) expect(await issuedIn(to, projectId), where).toEqual(due);
      else {
        expect(answer.error.code, where).toMatch(/^bundle-/);
        noticed += 1;
      }
    }
    process.stdout.write(
      `\nbit flips in a project file with issues: ${noticed} noticed, ${flips - noticed} harmless, none silent\n`,
    );
    expect(noticed).toBeGreaterThan(flips / 2);
  });
});

import { createHash } from 'node:crypto';
import { strToU8, type Zippable, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { seededNumbers } from '../../archive/editedSteps.ts';
import { campaignSize } from '../../campaign/campaignSize.ts';
import { apiForTest } from '../portsForTest.ts';
import { bundledProject, walkZip } from './bundledProject.ts';

const seed = 815;
const flips = campaignSize({ sample: 60, full: 500 });
const cuts = campaignSize({ sample: 25, full: 200 });
const sha256Of = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

interface Manifest {
  formatVersion: number;
  format: string;
  entries: { path: string; byteLength: number; sha256: string }[];
}

interface Project {
  projectId: string;
  document: { schemaVersion: number; job: { name: string } };
  changes: {
    label: string;
    kind: string;
    patch: {
      forward: { op: string; path: (string | number)[]; value?: unknown }[];
      inverse: { op: string; path: (string | number)[]; value?: unknown }[];
    };
  }[];
}

/** A project file with changes made to it as someone would who also puts the manifest right. */
const remade = async (change: {
  readonly manifest?: (manifest: Manifest) => void;
  readonly project?: (project: Project) => void;
  readonly projectText?: (text: string) => string;
  readonly more?: Readonly<Record<string, Uint8Array>>;
  readonly without?: string;
  readonly isManifestLeft?: boolean;
}): Promise<Uint8Array> => {
  const entries = new Map(walkZip((await bundledProject()).file.bytes));
  const project = JSON.parse(entries.get('project.json')!.toString()) as Project;
  change.project?.(project);
  const text = JSON.stringify(project);
  entries.set('project.json', Buffer.from(change.projectText?.(text) ?? text));
  for (const [name, bytes] of Object.entries(change.more ?? {})) entries.set(name, Buffer.from(bytes));
  const manifest = JSON.parse(entries.get('manifest.json')!.toString()) as Manifest;
  if (!change.isManifestLeft)
    for (const entry of manifest.entries) {
      const bytes = entries.get(entry.path);
      if (bytes) Object.assign(entry, { byteLength: bytes.length, sha256: sha256Of(bytes) });
    }
  change.manifest?.(manifest);
  entries.set('manifest.json', Buffer.from(JSON.stringify(manifest)));
  if (change.without) entries.delete(change.without);
  return zipSync(Object.fromEntries(entries) as Zippable);
};

/** The code that an empty archive refuses the bytes with; nothing may have come of it. */
const refusalOf = async (bytes: Uint8Array): Promise<string> => {
  const { api, done, ports } = apiForTest();
  const answer = await api.call('import-project', { bytes });
  if (answer.ok) return 'taken in';
  expect((await done('list-projects', {})).projects).toEqual([]);
  expect(await ports.store.getPlan(sha256Of((await bundledProject()).plan))).toBeNull();
  expect(answer.error.message).toContain('Nothing was taken in');
  return answer.error.code;
};

const plain = { more: { 'plans/': new Uint8Array() } };
const otherPlan = `plans/${'ab'.repeat(32)}.pdf`;
const firstPatch = (project: Project) => project.changes[0]!.patch;

describe('a project file that was made to do harm, or by mistake', () => {
  it('comes in where it was only packed again by another archiver', async () => {
    expect(await refusalOf(await remade(plain))).toBe('taken in');
  });

  it.each<[string, string, Parameters<typeof remade>[0]]>([
    ['a path that climbs', 'bundle-path-outside', { more: { '../../evil.pdf': strToU8('x') } }],
    ['a path from the root', 'bundle-path-outside', { more: { '/etc/passwd': strToU8('x') } }],
    ['a path of Windows', 'bundle-path-outside', { more: { 'plans\\..\\evil.pdf': strToU8('x') } }],
    ['a drive', 'bundle-path-outside', { more: { 'C:evil.pdf': strToU8('x') } }],
    ['a stranger', 'bundle-unknown-entry', { more: { 'run-me.sh': strToU8('x') } }],
    ['a plan that no manifest lists', 'bundle-tampered', { more: { [otherPlan]: strToU8('%PDF') } }],
    [
      'a plan under another’s SHA-256',
      'bundle-tampered',
      {
        more: { [otherPlan]: strToU8('%PDF') },
        manifest: ({ entries }) =>
          entries.push({
            path: otherPlan,
            byteLength: 4,
            sha256: sha256Of(strToU8('%PDF')),
            mediaType: 'application/pdf',
          } as never),
      },
    ],
    ['no manifest', 'bundle-not-ours', { without: 'manifest.json' }],
    ['no project', 'bundle-entry-missing', { without: 'project.json' }],
    [
      'an entry listed twice',
      'bundle-entry-missing',
      { manifest: ({ entries }) => entries.push(entries[0]!) },
    ],
    [
      'the manifest in the manifest',
      'bundle-entry-missing',
      { manifest: ({ entries }) => entries.push({ ...entries[0]!, path: 'manifest.json' }) },
    ],
    [
      'a changed word and the old manifest',
      'bundle-tampered',
      {
        isManifestLeft: true,
        project: (project) => {
          project.document.job.name = 'Mine';
        },
      },
    ],
    [
      'a changed word and a new manifest',
      'bundle-history-broken',
      {
        project: (project) => {
          project.changes[1]!.patch.forward[0]!.value = 'Mine';
        },
      },
    ],
    [
      'another format',
      'bundle-not-ours',
      {
        manifest: (manifest) => {
          manifest.format = 'other';
        },
      },
    ],
    [
      'a later format',
      'bundle-newer',
      {
        manifest: (manifest) => {
          manifest.formatVersion = 3;
        },
      },
    ],
    [
      'a later document',
      'bundle-newer',
      {
        project: (project) => {
          project.document.schemaVersion = 99;
        },
      },
    ],
    [
      'a document that is none',
      'bundle-project-unreadable',
      {
        project: (project) => {
          project.document = [] as never;
        },
      },
    ],
    [
      'another project than its manifest’s',
      'bundle-project-unreadable',
      {
        project: (project) => {
          project.projectId = 'project-other';
        },
      },
    ],
    ['text that is no JSON', 'bundle-project-unreadable', { projectText: (text) => text.slice(1) }],
    [
      'a key behind the object',
      'bundle-project-unreadable',
      { projectText: (text) => text.replace('{', '{"__proto__":{"isAdmin":true},') },
    ],
    [
      'bottomless nesting',
      'bundle-project-unreadable',
      { projectText: () => `${'['.repeat(50_000)}${']'.repeat(50_000)}` },
    ],
    [
      'a change that reaches behind the document',
      'bundle-history-broken',
      {
        project: (project) => {
          firstPatch(project).forward.push({ op: 'add', path: ['__proto__', 'isAdmin'], value: true });
        },
      },
    ],
    [
      'a change that reaches its maker',
      'bundle-history-broken',
      {
        project: (project) => {
          firstPatch(project).inverse.push({
            op: 'replace',
            path: ['constructor', 'prototype', 'isAdmin'],
            value: true,
          });
        },
      },
    ],
    [
      'a change of nothing',
      'bundle-history-broken',
      {
        project: (project) => {
          firstPatch(project).inverse.push({ op: 'remove', path: ['nowhere', 'at', 'all'] });
        },
      },
    ],
    [
      'an undo of nothing',
      'bundle-history-broken',
      {
        project: (project) => {
          project.changes[0]!.kind = 'undo';
        },
      },
    ],
    [
      'a missing change',
      'bundle-history-broken',
      {
        project: (project) => {
          project.changes.splice(2, 1);
        },
      },
    ],
    [
      'changes in another order',
      'bundle-history-broken',
      {
        project: (project) => {
          project.changes.reverse();
        },
      },
    ],
  ])('is refused with %s: %s', async (_, code, change) => {
    expect(await refusalOf(await remade(change))).toBe(code);
    expect((Object.prototype as { isAdmin?: boolean }).isAdmin).toBeUndefined();
  });

  it('is refused where it unpacks to more than it claims, before it has', async () => {
    const bomb = zipSync({ 'manifest.json': [new Uint8Array(300 * 1024 * 1024), { level: 9 }] });
    const view = new DataView(bomb.buffer, bomb.byteOffset, bomb.byteLength);
    // Claims 1000 bytes in the directory (APPNOTE 4.3.12, uncompressed size at 24).
    const directory = view.getUint32(bomb.length - 22 + 16, true);
    view.setUint32(directory + 24, 1000, true);
    const before = process.memoryUsage().arrayBuffers;
    expect(await refusalOf(bomb)).toBe('bundle-too-large');
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(64 * 1024 * 1024);
  });

  it('is refused where it claims more than a project can hold', async () => {
    const honest = zipSync({ 'manifest.json': [new Uint8Array(9 * 1024 * 1024), { level: 9 }] });
    expect(await refusalOf(honest)).toBe('bundle-too-large');
  });

  it('is refused where entries share their bytes', async () => {
    const { file } = await bundledProject();
    const bytes = Buffer.from(file.bytes);
    const end = bytes.length - 22;
    const directory = bytes.readUInt32LE(end + 16);
    const second = directory + 46 + bytes.readUInt16LE(directory + 28);
    bytes.writeUInt32LE(bytes.readUInt32LE(directory + 42), second + 42);
    expect(await refusalOf(bytes)).toBe('bundle-damaged');
  });

  it.each([
    ['nothing', new Uint8Array()],
    ['a PDF', strToU8('%PDF-1.7\n'.repeat(20))],
    ['an empty archive', zipSync({})],
    [
      'an encrypted one',
      (() => {
        const bytes = zipSync({ 'manifest.json': strToU8('{}') });
        const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
        const directory = view.getUint32(bytes.length - 22 + 16, true);
        view.setUint16(directory + 8, 1, true);
        return bytes;
      })(),
    ],
  ])('is refused where it is %s', async (_, bytes) => {
    expect(await refusalOf(bytes)).toMatch(/^bundle-(not-a-zip|not-ours|unsupported)$/);
  });
});

describe('a flipped bit in a project file', () => {
  it(`is noticed or harmless (${flips} flips, seed ${seed})`, { timeout: 900_000 }, async () => {
    const next = seededNumbers(seed);
    const from = await bundledProject();
    const { projectId } = from;
    const due = [
      await from.done('open-project', { projectId }),
      await from.done('project-history', { projectId }),
      (await from.done('plan-bytes', { sha256: sha256Of(from.plan) })).bytes,
    ];
    let noticed = 0;
    for (let flip = 0; flip < flips; flip += 1) {
      const bytes = from.file.bytes.slice();
      const at = Math.floor(next() * bytes.length);
      const bit = Math.floor(next() * 8);
      bytes[at] = bytes[at]! ^ (1 << bit);
      const { api, done } = apiForTest();
      const answer = await api.call('import-project', { bytes });
      if (!answer.ok) {
        expect(answer.error.code, `flip ${flip} (seed ${seed}): bit ${bit} of byte ${at}`).toMatch(
          /^bundle-/,
        );
        expect((await done('list-projects', {})).projects).toEqual([]);
        noticed += 1;
        continue;
      }
      const found = [
        await done('open-project', { projectId }),
        await done('project-history', { projectId }),
        (await done('plan-bytes', { sha256: sha256Of(from.plan) })).bytes,
      ];
      expect(found, `flip ${flip} (seed ${seed}): bit ${bit} of byte ${at}`).toEqual(due);
    }
    process.stdout.write(
      `\nbit flips in a project file: ${noticed} noticed, ${flips - noticed} harmless, none silent\n`,
    );
    expect(noticed).toBeGreaterThan(flips / 2);
  });

  it(`and a cut one is always refused (${cuts} cuts, seed ${seed})`, async () => {
    const next = seededNumbers(seed);
    const { file } = await bundledProject();
    for (let cut = 0; cut < cuts; cut += 1)
      expect(await refusalOf(file.bytes.slice(0, Math.floor(next() * file.bytes.length)))).toMatch(
        /^bundle-/,
      );
  });
});

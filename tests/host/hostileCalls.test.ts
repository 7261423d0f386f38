import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { apiMethods } from '../../src/app/apiMethods.ts';
import { type Api, createApi } from '../../src/app/createApi.ts';
import { createNodePorts, type NodePorts } from '../../src/host/nodePorts.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { seededNumbers } from '../archive/editedSteps.ts';
import { campaignSize } from '../campaign/campaignSize.ts';

/**
 * Calls with input that no window sends, to the API over a real archive with a project in it that has everything: each
 * is answered with a value or a refusal, none with a defect, and the archive is as sound after them as before.
 */

const root = mkdtempSync(join(tmpdir(), 'footrail-hostile-'));
let node: NodePorts;
let api: Api;
/** An input that each method takes. */
let right: Readonly<Record<string, Readonly<Record<string, unknown>>>>;
let projectId: string;

const done = async <Value>(method: string, input: unknown): Promise<Value> => {
  const answer = await api.call(method, input);
  if (!answer.ok) throw new Error(`${method}: ${answer.error.code}: ${answer.error.message}`);
  return answer.value as Value;
};

beforeAll(async () => {
  node = await createNodePorts({ archiveDir: join(root, 'archive') });
  api = createApi(node.ports);
  const demo = await done<{
    projectId: string;
    document: {
      sheetIds: string[];
      runIds: string[];
      sheets: Record<string, { planSha256: string }>;
    };
  }>('open-demo', {});
  projectId = demo.projectId;
  const { document } = demo;
  const sheetId = document.sheetIds[0]!;
  const runId = document.runIds[0]!;
  const sha256 = document.sheets[sheetId]!.planSha256;
  const { draftId } = await done<{ draftId: string }>('begin-issue', { projectId, documents: ['schedule'] });
  await done('draw-issue-document', { draftId, document: 'schedule' });
  const issued = await done<{ issue: { files: { fileName: string }[] }; revision: number }>('issue', {
    draftId,
  });
  const { fileName } = issued.issue.files[0]!;
  const bytes = new TextEncoder().encode('%PDF-1.7 nothing');
  const file = (await done<{ bytes: Uint8Array }>('export-project', { projectId })).bytes;
  const { problem } = await done<{ problem: unknown }>('fit-run', { projectId, runId });
  const search = {
    words: 'bar',
    states: ['issued'],
    client: 'x',
    stations: ['till'],
    runFromMm: 1,
    order: 'name',
  };
  const pairs = [
    { old: { x: 100, y: 100 }, new: { x: 110, y: 100 } },
    { old: { x: 400, y: 100 }, new: { x: 410, y: 100 } },
  ];
  const revised = { projectId, sheetId, sha256, page: 1, password: 'p', oldPassword: 'p', picks: pairs };
  right = {
    'app-info': {},
    'list-projects': { offset: 0, most: 10 },
    'create-project': { name: 'A bar' },
    'open-project': { projectId },
    'remove-project': { projectId: 'project-none' },
    'apply-command': {
      projectId,
      revision: issued.revision,
      command: { type: 'change-job', changes: { site: 'Quay', questions: [] } },
    },
    undo: { projectId, revision: 0 },
    redo: { projectId, revision: 0 },
    'take-in-plan': { fileName: 'plan.pdf', password: 'p', bytes },
    'plan-bytes': { sha256 },
    'read-sheet': { sha256, page: 1, layers: { a: true } },
    'sheet-linework': { sha256, page: 1 },
    'read-plan': { page: 1, bytes },
    fit: { problem, alternatives: 2 },
    'fit-run': { projectId, runId, alternatives: 2 },
    access: { wayIn: {} },
    'list-stock-ranges': {},
    'save-stock-range': { range: demoRange, after: 0 },
    'stock-range-csv': { id: demoRange.id, version: demoRange.version },
    'read-stock-csv': { id: demoRange.id, version: demoRange.version, bytes },
    'export-schedule': { projectId },
    'export-plan': { projectId, sheetId },
    'export-workbook': { projectId, quote: {}, paper: 'a4' },
    'export-csvs': { projectId },
    'export-dxf': { projectId, sheetId },
    'export-setting-out': { projectId, sheetId, paper: 'iso' },
    'issue-prospect': { projectId, unit: 'mm' },
    'begin-issue': {
      projectId,
      documents: ['schedule'],
      purpose: 'tender',
      paper: 'iso',
      by: 'Mara',
      quote: {},
      passwords: { [sha256]: 'p' },
      isRecorded: true,
    },
    'draw-issue-document': { draftId, document: 'schedule' },
    'list-draft-files': { draftId },
    'draft-file': { draftId, fileName },
    issue: { draftId },
    'list-issued': { projectId },
    'issued-file': { projectId, number: 1, fileName },
    'issued-zip': { projectId, number: 1 },
    'draw-issue-again': { projectId, number: 1, passwords: { [sha256]: 'p' } },
    'compare-issues': { projectId, from: 1, to: 1, unit: 'mm' },
    'register-revision': revised,
    'compare-linework': { projectId, sheetId },
    'revise-sheet': { ...revised, revision: 0, name: 'B', follow: true },
    'compare-revision': { projectId, sheetId, unit: 'mm' },
    'archive-health': {},
    'search-projects': { search, offset: 0, most: 5 },
    'export-project-list': { search },
    'similar-runs': { projectId, runId, most: 5 },
    'list-saved-searches': {},
    'save-search': { name: 'Mine', search },
    'remove-saved-search': { name: 'Mine' },
    'take-in-enquiry': { fileName: 'plan.pdf', bytes },
    'export-project': { projectId },
    'import-project': { bytes: file, choice: 'refuse' },
    'compare-project-file': { bytes: file },
    'project-history': { projectId },
    'copy-project-at': { projectId, revision: 0 },
    'projects-past-retention': {},
    'preview-purge': { projectId },
    'purge-project': { projectId, name: 'not its name', withCopies: true },
    'purged-projects': {},
  };
}, 120_000);

afterAll(() => {
  node.archive.close();
  rmSync(root, { recursive: true, force: true });
});

const cyclic = (): object => {
  const one: Record<string, unknown> = { type: 'change-job' };
  one['self'] = one;
  return one;
};
const deep = (): unknown => {
  let one: unknown = 1;
  for (let level = 0; level < 20_000; level += 1) one = [one];
  return one;
};

/** Values that JSON or a structured clone can carry, each wrong in most places. */
const hostileValues: readonly (() => unknown)[] = [
  () => undefined,
  () => null,
  () => true,
  () => 0,
  () => -1,
  () => 0.5,
  () => Number.NaN,
  () => Number.POSITIVE_INFINITY,
  () => 1e308,
  () => -1e308,
  () => 2 ** 53,
  () => 5e-324,
  () => 10n ** 30n,
  () => '',
  () => '0',
  () => 'x'.repeat(200_000),
  () => ' '.repeat(50_000),
  () => `${'a-'.repeat(30_000)}!`,
  () => '../../../../etc/passwd',
  () => '..\\..\\x',
  () => 'CON',
  () => 'x.pdf:stream',
  () => 'name. ',
  () => 'a\0b',
  () => '\u202egnp.exe',
  () => '\ud800',
  () => '__proto__',
  () => 'constructor',
  () => 'toString',
  () => `project-${'0'.repeat(20)}`,
  () => "'; DROP TABLE issues; --",
  () => '" OR marks : "*',
  () => '%s%n{{7*7}}',
  () => [],
  () => Array.from({ length: 3000 }, (_, index) => index),
  () => ['__proto__', null, {}],
  () => ({}),
  () => JSON.parse('{"__proto__":{"polluted":true}}') as unknown,
  () => ({ constructor: { prototype: { polluted: true } } }),
  () => ({ length: 4_294_967_295 }),
  () => new Uint8Array(0),
  () => new Uint8Array(70_000).fill(255),
  () => new TextEncoder().encode('%PDF-1.7\n1 0 obj\n<</Type/Catalog/Pages 1 0 R>>\ntrailer<</Root 1 0 R>>'),
  () => new Date(Number.NaN),
  () => new Map([['a', 1]]),
  cyclic,
  deep,
];

type Path = readonly (string | number)[];
/** Every place in a value, the outermost first; of long lists the first three. */
const placesIn = (value: unknown, path: Path = []): readonly Path[] => {
  if (typeof value !== 'object' || value === null || value instanceof Uint8Array || path.length > 9)
    return [path];
  const entries = Array.isArray(value)
    ? value.slice(0, 3).map((one, index) => [index, one] as const)
    : Object.entries(value);
  return [path, ...entries.flatMap(([key, one]) => placesIn(one, [...path, key]))];
};
const withValue = (value: unknown, [key, ...rest]: Path, put: unknown): unknown => {
  if (key === undefined) return put;
  if (Array.isArray(value))
    return value.map((one, index) => (index === key ? withValue(one, rest, put) : one));
  const record = value as Readonly<Record<string, unknown>>;
  return { ...record, [key]: withValue(record[key], rest, put) };
};

const valueAt = (value: unknown, path: Path): unknown =>
  path.reduce<unknown>((at, key) => (at as Readonly<Record<string, unknown>> | undefined)?.[key], value);
const kindOf = (value: unknown): string =>
  value instanceof Uint8Array ? 'bytes' : Array.isArray(value) ? 'list' : typeof value;

const seed = 90_210;
const calls = campaignSize({ sample: 400, full: 3000 });

describe('calls with hostile input', () => {
  it('have an example of each method that is not hostile', () => {
    expect(Object.keys(right).sort()).toEqual(
      Object.keys(apiMethods)
        .filter((name) => name !== 'open-demo')
        .sort(),
    );
    for (const [method, input] of Object.entries(right))
      expect(
        apiMethods[method as keyof typeof apiMethods].input.safeParse(input).error,
        method,
      ).toBeUndefined();
  });

  it.each([
    ['register-revision', 'picks'],
    ['begin-issue', 'documents'],
    ['search-projects', 'search'],
  ])('%s refuses bytes in the place of its %s, and what contains itself', async (method, name) => {
    for (const put of [new Uint8Array(9), cyclic(), deep()])
      expect(await api.call(method, { ...right[method], [name]: put })).toMatchObject({
        ok: false,
        error: { code: 'bad-input' },
      });
    for (const problem of [cyclic(), deep()])
      expect(await api.call('fit', { problem })).toMatchObject({ ok: false });
  });

  it(`are answered or refused, never failed at (${calls}, seed ${seed})`, {
    timeout: 1_800_000,
  }, async () => {
    const next = seededNumbers(seed);
    const pick = <Value>(list: readonly Value[]): Value => list[Math.floor(next() * list.length)]!;
    const methods = Object.keys(right);
    const found = { answered: 0, refusedAtTheDoor: 0, refusedWithin: 0 };
    const wrong: string[] = [];
    for (let call = 0; call < calls; call += 1) {
      const method = methods[call % methods.length]!;
      let input: unknown = right[method];
      const changes = 1 + Math.floor(next() * 2);
      let what = '';
      for (let change = 0; change < changes; change += 1) {
        const places = placesIn(input);
        const place = next() < 0.05 ? ['extra'] : next() < 0.05 ? [] : pick(places);
        // Mostly of the kind that belongs there, so that it gets past the first look.
        const there = kindOf(valueAt(input, place));
        const alike = hostileValues.filter((make) => kindOf(make()) === there);
        const make = pick(next() < 0.7 && alike.length > 0 ? alike : hostileValues);
        if (place.length > 0 && (typeof input !== 'object' || input === null)) continue;
        input = withValue(input, place, make());
        what += ` ${place.join('.')} <- ${String(make).slice(0, 60)}`;
      }
      let code = 'ok';
      try {
        const answer = await api.call(method, input);
        if (answer.ok) found.answered += 1;
        else {
          code = answer.error.code;
          found[code === 'bad-input' ? 'refusedAtTheDoor' : 'refusedWithin'] += 1;
          if (!/^[a-z]+(-[a-z]+)*$/.test(code) || code === 'defect' || answer.error.message.length > 5000)
            wrong.push(`${call} ${method}${what}: ${code}: ${answer.error.message.slice(0, 300)}`);
        }
      } catch (error) {
        wrong.push(`${call} ${method}${what}: threw ${String(error).slice(0, 300)}`);
      }
      if (({} as { polluted?: unknown }).polluted !== undefined)
        wrong.push(`${call} ${method}${what}: polluted`);
    }
    process.stdout.write(
      `\nhostile calls: ${found.answered} answered, ${found.refusedAtTheDoor} refused at the door, ${found.refusedWithin} within\n`,
    );
    expect(wrong).toEqual([]);
    expect(readdirSync(root)).toEqual(['archive']);
    expect((await node.archive.check()).problems).toEqual([]);
    expect(node.archive.health().state).toBe('sound');
    expect(await done('list-issued', { projectId })).toMatchObject({ issues: [{ number: 1 }] });
  });
});

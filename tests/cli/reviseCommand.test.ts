import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createApi } from '../../src/app/createApi.ts';
import { type Outcome, runFootrail } from '../../src/cli/runFootrail.ts';
import { runDefaultsOf } from '../../src/document/runDefaults.ts';
import { createNodePorts } from '../../src/host/nodePorts.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { twoRevisions } from '../fixtures/revisedPlan/twoRevisions.ts';

const folder = mkdtempSync(join(tmpdir(), 'footrail-revise-'));
const planB = join(folder, 'ground B.pdf');
const stranger = join(folder, 'stranger.pdf');
let projectId = '';
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Answer {
  readonly isRevised: boolean;
  readonly sheetId: string | null;
  readonly revision: number;
  readonly registration: {
    readonly isRegistered: boolean;
    readonly isSure?: boolean;
    readonly method?: string;
    readonly map?: { readonly a: number; readonly b: number; readonly e: number; readonly f: number };
    readonly plusMinusPt?: number;
    readonly reasons: readonly string[];
  };
  readonly findings: readonly {
    readonly run: string;
    readonly where: string;
    readonly became: string;
    readonly byMm: number;
  }[];
  readonly changes: readonly { readonly where: string; readonly was: string; readonly is: string }[];
  readonly error?: { readonly code: string; readonly path: string };
}

const revise = (...args: readonly string[]): Promise<Outcome> =>
  runFootrail(['revise', ...args, '--archive', folder, '--json']);
const read = ({ stdout }: Outcome): Answer => JSON.parse(stdout) as Answer;

beforeAll(async () => {
  writeFileSync(planB, await twoRevisions.b());
  // One line on a page: nothing to lay on anything.
  writeFileSync(
    stranger,
    `%PDF-1.4
1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj
2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1>>endobj
3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 300 300]/Contents 4 0 R/Resources<<>>>>endobj
4 0 obj<</Length 24>>stream
10 10 m 200 200 l S     
endstream endobj
trailer<</Root 1 0 R>>
%%EOF`,
  );
  const { ports, archive } = await createNodePorts({ archiveDir: folder });
  const api = createApi(ports);
  const done = async (method: string, input: unknown) => {
    const answer = await api.call(method, input);
    if (!answer.ok) throw new Error(`${answer.error.code}: ${answer.error.message}`);
    return answer.value as never;
  };
  const { sha256 } = (await done('take-in-plan', {
    fileName: 'ground A.pdf',
    bytes: await twoRevisions.a(),
  })) as { sha256: string };
  const created = (await done('create-project', { name: 'Ferry House' })) as {
    projectId: string;
    revision: number;
  };
  projectId = created.projectId;
  let { revision } = created;
  const at = twoRevisions.onA;
  const commands = [
    {
      type: 'add-sheet',
      sheet: {
        id: 'sheet-a',
        name: 'Ground floor',
        planSha256: sha256,
        planFileName: 'ground A.pdf',
        pageNumber: 1,
        userUnit: 1,
        acceptedScale: { ratio: 50, relativeUncertainty: 0.001, because: 'a test' },
        layers: {},
      },
    },
    {
      type: 'add-run',
      run: {
        ...runDefaultsOf(demoRange),
        id: 'run-a',
        sheetId: 'sheet-a',
        name: 'Front bar',
        frontLine: [
          { id: 'vertex-a1', at: at(1000, 1200), treatment: null },
          { id: 'vertex-a2', at: at(7000, 1200), treatment: null },
        ],
        pickUncertaintyPt: 0.2,
      },
    },
  ];
  for (const command of commands)
    ({ revision } = (await done('apply-command', { projectId, revision, command })) as { revision: number });
  archive.close();
}, 120_000);

describe('footrail revise', { timeout: 240_000 }, () => {
  it.each([
    ['no plan', 'bad-arguments', [] as readonly string[]],
    ['a plan that is not there', 'file-missing', ['nowhere.pdf']],
    ['a sheet that is not there', 'sheet-missing', [planB, '--sheet', 'Roof']],
    ['a page that is not there', 'no-such-page', [planB, '--page', '7']],
    ['page 0', 'bad-arguments', [planB, '--page', '0']],
    ['three numbers for picks', 'bad-arguments', [planB, '--picks', '1,2,3']],
    ['words for picks', 'bad-arguments', [planB, '--picks', '1,2,3,4,5,6,7,x']],
    ['a unit of its own', 'bad-arguments', [planB, '--unit', 'ell']],
  ])('ends with 2 for %s: %s', async (_, code, args) => {
    const outcome = await revise(projectId, ...args);
    expect([outcome.exitCode, read(outcome).error?.code]).toEqual([2, code]);
  });

  it('ends with 1 for a page that cannot be laid on the sheet, and changes nothing', async () => {
    const outcome = await revise(projectId, stranger, '--name', 'B');
    expect(outcome.exitCode).toBe(1);
    expect(read(outcome)).toMatchObject({ isRevised: false, registration: { isRegistered: false } });
    expect(read(outcome).registration.reasons.length).toBeGreaterThan(0);
  });

  it('says in a dry run how the page lies, as it was drawn, and changes nothing', async () => {
    const first = read(await revise(projectId, planB, '--dry-run'));
    expect(first).toMatchObject({
      isRevised: false,
      sheetId: null,
      registration: { isRegistered: true, isSure: true, method: 'linework' },
    });
    // B is drawn at half the size: x' = x / 2 + (310 - 120 / 2), y' = y / 2 + (95 - 140 / 2).
    const { map, plusMinusPt } = first.registration;
    expect(map!.a).toBeCloseTo(0.5, 4);
    expect(map!.b).toBeCloseTo(0, 4);
    expect(Math.abs(map!.e - 250)).toBeLessThan(0.2);
    expect(Math.abs(map!.f - 25)).toBeLessThan(0.2);
    expect(plusMinusPt).toBeGreaterThan(0);
    expect(read(await revise(projectId, planB, '--dry-run')).revision).toBe(first.revision);
  });

  it('lays it by places that were picked on both', async () => {
    const places = [
      [0, 0],
      [9000, 0],
      [9000, 6000],
    ] as const;
    const picks = places.flatMap(([x, y]) => {
      const [old, next] = [twoRevisions.onA(x, y), twoRevisions.onB(x, y)];
      return [old.x, old.y, next.x, next.y];
    });
    const found = read(await revise(projectId, planB, '--picks', picks.join(','), '--dry-run'));
    expect(found.registration).toMatchObject({ isRegistered: true, method: 'picks' });
    expect(found.registration.map!.a).toBeCloseTo(0.5, 6);
  });

  it('takes the revision in, follows what moved, and says what changed run by run', async () => {
    const outcome = await revise(projectId, planB, '--sheet', 'Ground floor', '--name', 'B');
    expect(outcome.exitCode).toBe(0);
    const { isRevised, sheetId, findings, changes } = read(outcome);
    expect(isRevised).toBe(true);
    expect(sheetId).toMatch(/^sheet-/);
    // As drawn: the counter lies 150 mm lower (to the other side of the line, so negative), its end wall 250 mm further on.
    const movedBy = (mm: number) =>
      findings.some(
        ({ run, became, byMm }) => run === 'Front bar' && became === 'moved' && Math.abs(byMm - mm) < 15,
      );
    expect([movedBy(-150), movedBy(250)]).toEqual([true, true]);
    expect(changes.some(({ where, was, is }) => where.includes('Front bar') && was !== is)).toBe(true);
    const shown = await runFootrail(['archive', 'show', projectId, '--archive', folder]);
    expect(shown.stdout).toContain('Take in a revision of Ground floor');
    // The sheet before it is followed already.
    const again = await revise(projectId, planB, '--sheet', 'sheet-a', '--name', 'C');
    expect([again.exitCode, read(again).error?.code]).toEqual([2, 'sheet-superseded']);
  });

  it('says the same to a person', async () => {
    const outcome = await runFootrail(['revise', projectId, planB, '--dry-run', '--archive', folder]);
    expect(outcome.stdout).toMatch(/Registered by linework, sure[\s\S]*±[\s\S]*pt \(k = 2\)/);
    const help = await runFootrail(['--help']);
    expect(help.stdout).toContain('footrail revise PROJECT PLAN.pdf');
  });
});

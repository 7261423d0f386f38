import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ProjectId, RunId, SheetId } from '../../../src/document/ids.ts';
import type { ProjectDocument } from '../../../src/document/projectDocument.ts';
import { runDefaultsOf } from '../../../src/document/runDefaults.ts';
import { createPlanReader } from '../../../src/host/reading/createPlanReader.ts';
import { runAsTraced } from '../../../src/measure/runAsTraced.ts';
import { drawnScaleOfRun } from '../../../src/measure/scaleOfSheet.ts';
import { straightsOf } from '../../../src/measure/straights.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { twoRevisions } from '../../fixtures/revisedPlan/twoRevisions.ts';
import { type ApiForTest, apiForTest } from '../portsForTest.ts';

const reader = createPlanReader();
afterAll(() => reader.close());

const at = twoRevisions.onA;

let app: ApiForTest;
let projectId: ProjectId;
let sheetId: SheetId;
let planB: string;
let document: ProjectDocument;
let revision: number;

const command = async (one: unknown): Promise<void> => {
  const changed = await app.done('apply-command', { projectId, revision, command: one as never });
  revision = changed.revision;
};

beforeAll(async () => {
  app = apiForTest({ plans: reader });
  const planA = await twoRevisions.a();
  const revised = await twoRevisions.b();
  const takenA = await app.done('take-in-plan', { fileName: 'ground A.pdf', bytes: planA });
  planB = (await app.done('take-in-plan', { fileName: 'ground B.pdf', bytes: revised })).sha256;
  const created = await app.done('create-project', { name: 'Ferry House' });
  projectId = created.projectId;
  revision = created.revision;
  sheetId = 'sheet-a' as SheetId;
  await command({
    type: 'add-sheet',
    sheet: {
      id: sheetId,
      name: 'Ground floor',
      planSha256: takenA.sha256,
      planFileName: 'ground A.pdf',
      pageNumber: 1,
      userUnit: 1,
      acceptedScale: { ratio: 50, relativeUncertainty: 0.001, because: 'a test' },
      layers: {},
    },
  });
  await command({
    type: 'add-run',
    run: {
      ...runDefaultsOf(demoRange),
      id: 'run-a',
      sheetId,
      name: 'Front bar',
      frontLine: [
        { id: 'vertex-a1', at: at(1000, 1200), treatment: null },
        { id: 'vertex-a2', at: at(7000, 1200), treatment: null },
      ],
      pickUncertaintyPt: 0.2,
    },
  });
  await command({
    type: 'add-zone',
    zone: {
      id: 'zone-a',
      runId: 'run-a',
      kind: 'blocked',
      name: 'Column',
      vertexId: 'vertex-a1',
      a: at(3000, 1200),
      b: at(3300, 1200),
    },
  });
  document = (await app.done('open-project', { projectId })).document;
});

describe('a revised plan', () => {
  it('is laid on its sheet by its linework, drawn at half the size and elsewhere on the paper', async () => {
    const { registration } = await app.done('register-revision', {
      projectId,
      sheetId,
      sha256: planB,
      page: 1,
    });
    if (!registration.isRegistered) throw new Error(registration.reasons.join(' '));
    expect(registration.isSure).toBe(true);
    expect(registration.method).toBe('linework');
    // As drawn: x' = x / 2 + (310 - 120 / 2), y' = y / 2 + (95 - 140 / 2).
    expect(registration.map.a).toBeCloseTo(0.5, 4);
    expect(registration.map.b).toBeCloseTo(0, 4);
    expect(Math.abs(registration.map.e - 250)).toBeLessThan(0.2);
    expect(Math.abs(registration.map.f - 25)).toBeLessThan(0.2);
    expect(registration.changes.moved.length).toBeGreaterThan(0);
  });

  it('takes the run over to the lines that moved, at the new paper’s scale, and leaves the old one as it was', async () => {
    const revised = await app.done('revise-sheet', {
      projectId,
      revision,
      sheetId,
      sha256: planB,
      page: 1,
      name: 'B',
      follow: true,
    });
    revision = revised.revision;
    const after = (await app.done('open-project', { projectId })).document;
    expect(after.runs['run-a' as RunId]).toEqual(document.runs['run-a' as RunId]);
    expect(after.sheets[sheetId]).toEqual(document.sheets[sheetId]);
    const carried = Object.values(after.runs).find(({ carriedFrom }) => carriedFrom === 'run-a')!;
    expect(carried.name).toBe('Front bar');
    const scale = drawnScaleOfRun(after, carried)!;
    expect(Math.abs(scale.ratio / 100 - 1)).toBeLessThan(scale.relativeUncertainty);
    const [front] = straightsOf(runAsTraced(carried), scale);
    expect(Math.abs(front!.lengthMm - 6250)).toBeLessThan(front!.plusMinusMm);
    const found = Object.fromEntries(revised.findings.map(({ where, byMm }) => [where, byMm]));
    expect(Math.abs(found['Straight 1']! + 150)).toBeLessThan(10);
    expect(Math.abs(found['End']! - 250)).toBeLessThan(10);
    expect(Math.abs(found['Column']! - 200)).toBeLessThan(10);
    expect(found['Start']).toBeUndefined();
  });

  it('names what it changes in the takeoff: the length, and nothing of what stayed', async () => {
    const after = (await app.done('open-project', { projectId })).document;
    const later = after.sheetIds.find((id) => id !== sheetId)!;
    const { changes } = await app.done('compare-revision', { projectId, sheetId: later });
    const length = changes.find(({ what }) => what === 'Straight 1');
    expect(length?.where).toBe('Front bar');
    expect(length?.was).toMatch(/^6\s000\smm/);
    expect(length?.is).toMatch(/^6\s2(49|50|51)/);
    expect(changes.some(({ what }) => what === 'Plan is revised')).toBe(true);
    expect(changes.every(({ what }) => !/Run is (new|gone)/.test(what))).toBe(true);
  });

  it('shows what differs again as it was accepted, and is refused for a sheet that follows none', async () => {
    const after = (await app.done('open-project', { projectId })).document;
    const later = after.sheetIds.find((id) => id !== sheetId)!;
    const { registration } = await app.done('compare-linework', { projectId, sheetId: later });
    if (!registration.isRegistered) throw new Error('not registered');
    expect(registration.map).toEqual(after.sheets[later]?.revisionOf?.map);
    await expect(app.done('compare-linework', { projectId, sheetId })).rejects.toThrow('not-a-revision');
  });

  it('is one step to undo, and a second page can’t follow the same sheet', async () => {
    await expect(
      app.done('revise-sheet', {
        projectId,
        revision,
        sheetId,
        sha256: planB,
        page: 1,
        name: 'C',
        follow: true,
      }),
    ).rejects.toThrow('sheet-superseded');
    const undone = await app.done('undo', { projectId, revision });
    revision = undone.revision;
    expect((await app.done('open-project', { projectId })).document).toEqual(document);
  });

  it('can be laid by two places picked on both', async () => {
    const place = (x: number, y: number) => ({
      old: at(x, y) as never,
      new: twoRevisions.onB(x, y) as never,
    });
    const { registration } = await app.done('register-revision', {
      projectId,
      sheetId,
      sha256: planB,
      page: 1,
      picks: [place(0, 0), place(9000, 6000)],
    });
    if (!registration.isRegistered) throw new Error('not registered');
    expect(registration.method).toBe('picks');
    expect(registration.map.a).toBeCloseTo(0.5, 9);
  });
});

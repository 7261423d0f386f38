import { describe, expect, it } from 'vitest';
import type { ReferenceId, RunId, SheetId, VertexId } from '../../src/document/ids.ts';
import {
  type AcceptedScale,
  emptyDocument,
  type ProjectDocument,
  type Run,
} from '../../src/document/projectDocument.ts';
import { runDefaultsOf } from '../../src/document/runDefaults.ts';
import { poseProblem } from '../../src/fitting/poseProblem.ts';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { scaleAtPlaces, scaleOfRun, scaleOfSheet, viewsOfSheet } from '../../src/measure/scaleOfSheet.ts';
import { demoRange } from '../../src/stock/demoRange.ts';

/** One point of paper at 1:N is 25.4/72 N mm in the room: 17.638889 mm at 1:50 (arithmetic; the inch is 25.4 mm). */
const pointsFor = (mm: number, ratio: number): number => (mm / ratio) * (72 / 25.4);

const sheetId = 'sheet-1' as SheetId;

const documentWith = (
  acceptedScale: AcceptedScale | null,
  picked: readonly { readonly a: PaperPoint; readonly b: PaperPoint; readonly lengthMm: number }[] = [],
  userUnit = 1,
): ProjectDocument => ({
  ...emptyDocument('Salt Lane', { id: demoRange.id, version: 1 }),
  sheetIds: [sheetId],
  sheets: {
    [sheetId]: {
      id: sheetId,
      name: 'Ground floor',
      planSha256: 'a'.repeat(64),
      planFileName: 'plan.pdf',
      pageNumber: 1,
      userUnit,
      acceptedScale,
      layers: {},
    },
  },
  references: Object.fromEntries(
    picked.map((reference, index) => {
      const id = `reference-${index}` as ReferenceId;
      return [id, { ...reference, id, sheetId, typed: '', pickUncertaintyPt: 0.1 }];
    }),
  ),
});

const runThrough = (...points: readonly PaperPoint[]): Run => ({
  ...runDefaultsOf(demoRange),
  id: 'run-1' as RunId,
  sheetId,
  name: 'Front bar',
  frontLine: points.map((at, index) => ({ id: `vertex-${index}` as VertexId, at, treatment: null })),
  pickUncertaintyPt: 0.1,
});

const withViews: AcceptedScale = {
  ratio: 100,
  relativeUncertainty: 0.002,
  because: 'agreed',
  views: [{ name: 'Detail of the bar', bbox: [500, 0, 1000, 500], ratio: 20, relativeUncertainty: 0.001 }],
};

describe('the scale of a sheet', () => {
  it('is nothing until it is picked or accepted', () => {
    expect(scaleOfSheet(documentWith(null), sheetId)).toBeNull();
    expect(scaleAtPlaces(documentWith(null), sheetId, [])).toBeNull();
  });

  it('comes from a picked dimension even where the sheet’s own was accepted', () => {
    const b = paperPoint(pointsFor(3600, 50), 0);
    const scale = scaleOfSheet(
      documentWith({ ...withViews, views: [] }, [{ a: paperPoint(0, 0), b, lengthMm: 3600 }]),
      sheetId,
    );
    expect(scale?.source).toBe('picked');
    expect(scale?.ratio).toBeCloseTo(50, 9);
  });

  it('is the same whatever the UserUnit, and so is its uncertainty (ISO 32000-1, 8.3.2.3)', () => {
    const at = (userUnit: number) =>
      scaleOfSheet(
        documentWith(
          null,
          [{ a: paperPoint(0, 0), b: paperPoint(pointsFor(3600, 50) / userUnit, 0), lengthMm: 3600 }],
          userUnit,
        ),
        sheetId,
      );
    for (const userUnit of [2, 10]) {
      expect(at(userUnit)?.ratio).toBeCloseTo(50, 9);
      expect(at(userUnit)?.relativeUncertainty).toBeCloseTo(at(1)?.relativeUncertainty ?? 0, 12);
    }
  });
});

describe('views of a sheet', () => {
  const document = documentWith(withViews);

  it('hold for the run that lies in them, the sheet’s own scale outside', () => {
    const inside = scaleOfRun(document, runThrough(paperPoint(600, 100), paperPoint(900, 100)));
    expect(inside).toMatchObject({ ratio: 20, relativeUncertainty: 0.001 });
    const outside = scaleOfRun(document, runThrough(paperPoint(10, 100), paperPoint(400, 100)));
    expect(outside).toMatchObject({ ratio: 100 });
  });

  it('refuse what lies across two of them, with the reason, and the fit says so', () => {
    const across = runThrough(paperPoint(10, 100), paperPoint(900, 100));
    expect(scaleOfRun(document, across)).toMatchObject({ error: { code: 'across-views' } });
    const posed = poseProblem(
      { ...document, runIds: [across.id], runs: { [across.id]: across } },
      across.id,
      demoRange,
    );
    expect(posed).toMatchObject({ ok: false, code: 'across-views' });
  });

  it('take the dimensions picked in them for their own', () => {
    const a = paperPoint(600, 50);
    const picked = documentWith(withViews, [
      { a, b: paperPoint(600 + pointsFor(1200, 25), 50), lengthMm: 1200 },
    ]);
    expect(viewsOfSheet(picked, sheetId)[0]?.scale.ratio).toBeCloseTo(25, 9);
    expect(scaleOfSheet(picked, sheetId)).toMatchObject({ ratio: 100, source: 'accepted' });
  });
});

describe('the scale of a stretched sheet', () => {
  // Drawn at 1:50 and printed 3 % wider: 1:50 / 1.03 along x, 1:50 along y (arithmetic).
  const stretched: AcceptedScale = {
    ratio: 49.26,
    relativeUncertainty: 0.0148,
    because: 'its dimensions agree',
    ratioX: 50 / 1.03,
    ratioY: 50,
  };
  const acrossMm = 6000;
  const across = {
    a: paperPoint(100, 100),
    b: paperPoint(100 + pointsFor(acrossMm, 50) * 1.03, 100),
    lengthMm: acrossMm,
  };
  const up = { a: paperPoint(100, 100), b: paperPoint(100, 100 + pointsFor(3000, 50)), lengthMm: 3000 };

  it('is no surer along the other axis than its stretch lets it be', () => {
    const scale = scaleOfSheet(documentWith(stretched, [across]), sheetId)!;
    expect(scale.ratio).toBeCloseTo(50 / 1.03, 6);
    expect(scale.relativeUncertainty).toBeCloseTo(Math.log(1.03), 4);
    expect(scale.ratio * (1 + scale.relativeUncertainty) * 1.001).toBeGreaterThan(50);
  });

  it('covers both axes where picks in both directions tell them', () => {
    const scale = scaleOfSheet(documentWith(null, [across, up]), sheetId)!;
    for (const true1 of [50, 50 / 1.03]) {
      expect(Math.abs(Math.log(scale.ratio / true1))).toBeLessThanOrEqual(scale.relativeUncertainty + 1e-9);
    }
  });

  it('stays as sure as its picks on a sheet that is not stretched', () => {
    const straight: AcceptedScale = { ...stretched, ratio: 50, ratioX: 50, ratioY: 50.01 };
    const scale = scaleOfSheet(
      documentWith(straight, [{ ...across, b: paperPoint(100 + pointsFor(6000, 50), 100) }]),
      sheetId,
    )!;
    expect(scale.relativeUncertainty).toBeLessThan(0.002);
  });
});

import { describe, expect, it } from 'vitest';
import type { RunId, SheetId } from '../../../src/document/ids.ts';
import { reviseSheet } from '../../../src/measure/revision/reviseSheet.ts';
import { runAsTraced } from '../../../src/measure/runAsTraced.ts';
import { drawnScaleOfRun } from '../../../src/measure/scaleOfSheet.ts';
import { straightsOf } from '../../../src/measure/straights.ts';
import { acceptScale, addRun, at, documentWithSheet, edited } from '../../document/drawnDocument.ts';

const drawn = edited(
  documentWithSheet,
  acceptScale(50, 0.003),
  addRun([at(0, 0), at(3000, 4000), at(9000, 4000)], { pickUncertaintyPt: 0.4 }),
  {
    type: 'add-zone',
    zone: {
      id: 'zone-1',
      runId: 'run-1',
      kind: 'blocked',
      name: 'Column',
      vertexId: 'vertex-2',
      a: at(5000, 4000),
      b: at(5400, 4000),
    },
  },
);

/** A later page: the plan turned by 30 degrees, at 0.8 of the size in user units, somewhere else, in UserUnit 2. */
const size = 0.8;
const turnRad = Math.PI / 6;
const map = { a: size * Math.cos(turnRad), b: size * Math.sin(turnRad), e: 120, f: -45 };
const revised = (mapUncertainty = 0) => {
  let serial = 0;
  const answer = reviseSheet(
    drawn,
    'sheet-1' as SheetId,
    {
      id: 'sheet-2' as SheetId,
      name: 'Ground floor B',
      planSha256: '1'.repeat(64),
      planFileName: 'ground B.pdf',
      pageNumber: 1,
      userUnit: 2,
      revisionOf: {
        supersedes: 'sheet-1' as SheetId,
        revision: 'B',
        map,
        plusMinusPt: 0.2,
        isSure: true,
        method: 'picks',
        because: 'a test',
      },
      mapUncertainty,
    },
    {
      changes: null,
      freshId: () => {
        serial += 1;
        return `n${serial}`;
      },
    },
  );
  if (!answer) throw new Error('the sheet is there');
  const document = edited(drawn, ...answer.commands);
  const run = document.runs[answer.runs[0]!.runId]!;
  return { answer, document, run, scale: drawnScaleOfRun(document, run)! };
};

describe('a run carried over to a later page', () => {
  const { document, run, scale, answer } = revised();
  const before = straightsOf(runAsTraced(drawn.runs['run-1' as RunId]!), {
    ratio: 50,
    relativeUncertainty: 0.003,
    userUnit: 1,
  });

  it('keeps its lengths in the room and its angles: similar figures (Euclid, Elements VI, def. 1)', () => {
    const after = straightsOf(runAsTraced(run), scale);
    // By the 3-4-5 triangle and by the coordinates: 5 000 and 6 000 mm.
    expect(before.map(({ lengthMm }) => Math.round(lengthMm * 1e6) / 1e6)).toEqual([5000, 6000]);
    for (const [index, { lengthMm }] of after.entries())
      expect(lengthMm).toBeCloseTo(before[index]!.lengthMm, 6);
    const [p, q, r] = run.frontLine.map((vertex) => vertex.at);
    const turn = (q!.x - p!.x) * (r!.y - q!.y) - (q!.y - p!.y) * (r!.x - q!.x);
    const cosine = (q!.x - p!.x) * (r!.x - q!.x) + (q!.y - p!.y) * (r!.y - q!.y);
    // From (3, 4) to (1, 0): the turn is -atan(4/3).
    expect(Math.atan2(turn, cosine)).toBeCloseTo(-Math.atan2(4, 3), 9);
  });

  it('has the scale of its new paper: 1 unit was 1/72 in (ISO 32000-1, 8.3.2.3), now 0.8 of it is 2/72 in', () => {
    // 50 mm for a mm of old paper; the same room is drawn on 0.8 x 2 = 1.6 times the paper: 50 / 1.6.
    expect(scale.ratio).toBeCloseTo(50 / 1.6, 9);
    expect(run.pickUncertaintyPt).toBeCloseTo(0.4 * 1.6, 9);
  });

  it('takes its zones along, and leaves the old sheet as it was', () => {
    const zone = Object.values(document.zones).find(({ runId }) => runId === run.id)!;
    const corner = run.frontLine[1]!.at;
    const [fromMm, toMm] = [zone.a, zone.b].map(
      ({ x, y }) => (Math.hypot(x - corner.x, y - corner.y) * scale.ratio * 2 * 25.4) / 72,
    );
    // The column stands 2 000 to 2 400 mm from the corner, by its coordinates.
    expect(fromMm).toBeCloseTo(2000, 6);
    expect(toMm).toBeCloseTo(2400, 6);
    expect(document.runs['run-1' as RunId]).toBe(drawn.runs['run-1' as RunId]);
    expect(document.runIds).toEqual(['run-1', answer.runs[0]!.runId]);
  });

  it('is less sure by what the map is not sure of: relative variances add (JCGM 100:2008, 5.1.6)', () => {
    // 0.3 % and 0.4 % give 0.5 % by the 3-4-5 triangle.
    expect(revised(0.004).scale.relativeUncertainty).toBeCloseTo(0.005, 12);
  });
});

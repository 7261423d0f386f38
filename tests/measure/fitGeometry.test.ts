import { describe, expect, it } from 'vitest';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { fitGeometryOf } from '../../src/measure/fitGeometry.ts';
import type { SheetScale, TracedRun } from '../../src/measure/tracedRun.ts';

/** 1 user unit is 10 mm of room. */
const tenToOne: SheetScale = { ratio: 720 / 25.4, relativeUncertainty: 0.002, userUnit: 1 };
const line = (...xy: readonly (readonly [number, number])[]): readonly PaperPoint[] =>
  xy.map(([x, y]) => paperPoint(x, y));
const run: TracedRun = {
  frontLine: line([0, 0], [624.8, 0], [624.8, 310]),
  backSide: 'left',
  depthMm: 600,
  pickUncertaintyPt: 0,
};

describe('what the drawing contributes to a fit problem', () => {
  it('are lengths in whole micrometres with their +/-, and corners with the front outside positive', () => {
    expect(fitGeometryOf(run, [], tenToOne)).toEqual({
      depthMm: 600,
      straights: [
        { lengthMm: 6248, uncertaintyMm: 12.496, blocked: [], openings: [], bays: [], columns: [] },
        { lengthMm: 3100, uncertaintyMm: 6.2, blocked: [], openings: [], bays: [], columns: [] },
      ],
      corners: [{ turnDeg: 90 }],
    });
  });

  it('are zones on their straights, sorted, those of a kind that overlap joined', () => {
    const { straights } = fitGeometryOf(
      run,
      [
        { kind: 'opening', points: line([400, 0], [310, 0]) },
        { kind: 'blocked', points: line([200, 5], [230, 5]) },
        { kind: 'blocked', points: line([100, 5], [130, 5]) },
        { kind: 'blocked', points: line([120, 5], [140, 5]) },
        { kind: 'blocked', points: line([600, 5], [620, 5]), straight: 1 },
        { kind: 'blocked', points: [] },
      ],
      tenToOne,
    );
    expect(straights[0]!.openings).toEqual([[3100, 4000]]);
    expect(straights[0]!.blocked).toEqual([
      [1000, 1400],
      [2000, 2300],
    ]);
    expect(straights[1]!.blocked).toEqual([[50, 50]]);
  });

  it('are bays with the room that they keep free, low sections, and columns that leave some of the depth', () => {
    const { straights } = fitGeometryOf(
      run,
      [
        {
          kind: 'bay',
          id: 'zone-1',
          points: line([100, 5], [160, 5]),
          straight: 0,
          beforeMm: 20,
          afterMm: 50,
        },
        { kind: 'low', id: 'zone-2', points: line([300, 5], [400, 5]), straight: 0 },
        { kind: 'blocked', points: line([200, 5], [230, 5]), straight: 0, columnDepthMm: 250 },
        { kind: 'blocked', points: line([500, 5], [520, 5]), straight: 0, columnDepthMm: 600 },
      ],
      tenToOne,
    );
    expect(straights[0]).toMatchObject({
      bays: [
        { id: 'zone-1', fromMm: 980, toMm: 1650 },
        { id: 'zone-2', fromMm: 3000, toMm: 4000 },
      ],
      columns: [{ fromMm: 2000, toMm: 2300, depthMm: 250 }],
      // As deep as the run: nothing passes in front of it.
      blocked: [[5000, 5200]],
    });
  });
});

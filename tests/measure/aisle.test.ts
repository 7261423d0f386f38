import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { nearestOnPolyline, pointAlongPolyline, polylineLength } from '../../src/geometry/polyline.ts';
import { aisleBetween } from '../../src/measure/aisle.ts';
import { backLineOf } from '../../src/measure/backLine.ts';
import type { SheetScale, TracedRun } from '../../src/measure/tracedRun.ts';
import { campaignSize } from '../campaign/campaignSize.ts';

/** 1 user unit is 10 mm of room. */
const tenToOne: SheetScale = { ratio: 720 / 25.4, relativeUncertainty: 0, userUnit: 1 };
const line = (...xy: readonly (readonly [number, number])[]): readonly PaperPoint[] =>
  xy.map(([x, y]) => paperPoint(x, y));

describe('the working aisle', () => {
  const frontBar: TracedRun = { frontLine: line([0, 0], [600, 0]), backSide: 'left', depthMm: 600 };

  it('is as wide as the gap between the back of the front bar and the front of the back bar', () => {
    // 1 m between parallel lines: 36 in (914.4 mm) is a usual least working aisle (common practice, no source).
    const aisle = aisleBetween(backLineOf(frontBar, tenToOne), line([0, 160], [600, 160]), tenToOne, 0.5)!;
    expect(aisle.widthMm).toBeCloseTo(1000, 9);
    expect(aisle.plusMinusMm).toBeCloseTo(14.142_136, 6);
  });

  it('is narrowest where a slanting back bar comes nearest', () => {
    const aisle = aisleBetween(
      backLineOf(frontBar, tenToOne),
      line([0, 200], [500, 150], [700, 180]),
      tenToOne,
    )!;
    expect(aisle.widthMm).toBeCloseTo(900, 9);
    expect([aisle.onFrontBar.x, aisle.onFrontBar.y]).toEqual([500, 60]);
    expect([aisle.onBackBar.x, aisle.onBackBar.y]).toEqual([500, 150]);
  });

  it('is nothing where the bars cross, and unknown without two lines', () => {
    expect(aisleBetween(line([0, 0], [10, 0]), line([5, -5], [5, 5]), tenToOne)!.widthMm).toBe(0);
    expect(aisleBetween(line([0, 0]), line([5, -5], [5, 5]), tenToOne)).toBeUndefined();
    expect(aisleBetween(line([0, 0], [1, 1]), [], tenToOne)).toBeUndefined();
  });

  it('is nowhere narrower: walking one bar in small steps never comes nearer to the other', () => {
    const coordinate = fc.integer({ min: 0, max: 1000 });
    const anyLine = fc
      .array(fc.tuple(coordinate, coordinate), { minLength: 2, maxLength: 5 })
      .map((points) => line(...points));
    fc.assert(
      fc.property(anyLine, anyLine, (ours, theirs) => {
        const aisle = aisleBetween(ours, theirs, tenToOne)!;
        const length = polylineLength(ours);
        const steps = 400;
        const walked = Array.from({ length: steps + 1 }, (_, step) => {
          const point = pointAlongPolyline(ours, (length * step) / steps)!;
          return nearestOnPolyline(point, theirs)!.distance * 10;
        });
        const nearest = Math.min(...walked);
        expect(aisle.widthMm).toBeLessThanOrEqual(nearest + 1e-6);
        // A walker between two steps is at most half a step nearer.
        expect(aisle.widthMm).toBeGreaterThanOrEqual(nearest - (length / steps / 2) * 10 - 1e-6);
      }),
      { seed: 44, numRuns: campaignSize({ sample: 50, full: 3_000 }) },
    );
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { backLineOf, depthFromPick, pathBehindFront } from '../../src/measure/backLine.ts';
import {
  nearestStraightIndex,
  paperPointAt,
  placeOnStraight,
  positionAlong,
} from '../../src/measure/runPosition.ts';
import type { SheetScale, TracedRun } from '../../src/measure/tracedRun.ts';
import {
  isFirstPointOnCustomersLeft,
  straightAtUnrolled,
  unrolledOffsets,
} from '../../src/measure/unrolled.ts';
import { zoneNear, zoneOn } from '../../src/measure/zones.ts';
import { campaignSize } from '../campaign/campaignSize.ts';

/** 1 user unit is 10 mm of room. */
const tenToOne: SheetScale = { ratio: 720 / 25.4, relativeUncertainty: 0, userUnit: 1 };
const line = (...xy: readonly (readonly [number, number])[]): readonly PaperPoint[] =>
  xy.map(([x, y]) => paperPoint(x, y));
const rounded = (points: readonly { readonly x: number; readonly y: number }[]) =>
  points.map(({ x, y }) => [Math.round(x * 1e6) / 1e6 + 0, Math.round(y * 1e6) / 1e6 + 0]);

/** Drawn by hand, y up: east for 6 m, then north for 3 m; the bar lies inside the L. */
const lShape: TracedRun = { frontLine: line([0, 0], [600, 0], [600, 300]), backSide: 'left', depthMm: 600 };

describe('the back line', () => {
  it('lies on the side that the run names, and ends square', () => {
    expect(rounded(backLineOf(lShape, tenToOne))).toEqual([
      [0, 60],
      [540, 60],
      [540, 300],
    ]);
    expect(rounded(backLineOf({ ...lShape, backSide: 'right' }, tenToOne))).toEqual([
      [0, -60],
      [660, -60],
      [660, 300],
    ]);
  });

  it('lies behind the cladding, and other lines lie where they are asked for', () => {
    expect(rounded(backLineOf(lShape, tenToOne, 20))[0]).toEqual([0, 62]);
    expect(rounded(pathBehindFront(lShape, -100, tenToOne).frontLine)).toEqual([
      [0, -10],
      [610, -10],
      [610, 300],
    ]);
  });

  it('gives its depth and side back to a pick on it', () => {
    const onLeft = depthFromPick(lShape.frontLine, paperPoint(200, 60), tenToOne)!;
    expect(onLeft.backSide).toBe('left');
    expect(onLeft.depthMm).toBeCloseTo(600, 9);
    const onRight = depthFromPick(lShape.frontLine, paperPoint(655, 200), tenToOne)!;
    expect(onRight.backSide).toBe('right');
    expect(onRight.depthMm).toBeCloseTo(550, 9);
    expect(depthFromPick(lShape.frontLine, paperPoint(100, 0), tenToOne)).toBeUndefined();
    expect(depthFromPick(line([1, 1]), paperPoint(100, 0), tenToOne)).toBeUndefined();
    expect(depthFromPick(line([1, 1], [1, 1]), paperPoint(100, 0), tenToOne)).toBeUndefined();
  });
});

describe('a position on a straight', () => {
  it('counts from its traced start, negative before it and on beyond its end', () => {
    expect(positionAlong(lShape, 0, paperPoint(150, 35), tenToOne)).toBeCloseTo(1500, 9);
    expect(positionAlong(lShape, 0, paperPoint(-20, 0), tenToOne)).toBeCloseTo(-200, 9);
    expect(positionAlong(lShape, 1, paperPoint(610, 320), tenToOne)).toBeCloseTo(3200, 9);
    expect(positionAlong(lShape, 1, paperPoint(600, -60), tenToOne)).toBeCloseTo(-600, 9);
  });

  it('has its offset towards the back', () => {
    expect(placeOnStraight(lShape, 1, paperPoint(560, 100), tenToOne).offsetMm).toBeCloseTo(400, 9);
    expect(
      placeOnStraight({ ...lShape, backSide: 'right' }, 1, paperPoint(560, 100), tenToOne).offsetMm,
    ).toBeCloseTo(-400, 9);
    expect(rounded([paperPointAt(lShape, 1, 1000, 400, tenToOne)])).toEqual([[560, 100]]);
    expect(() => paperPointAt(lShape, 2, 0, 0, tenToOne)).toThrow(RangeError);
  });

  it('leads back to the same paper point, at any angle and on either side', () => {
    const coordinate = fc.integer({ min: -500_000, max: 500_000 }).map((hundredths) => hundredths / 100);
    const anyPoint = fc.record({ x: coordinate, y: coordinate }).map(({ x, y }) => paperPoint(x, y));
    fc.assert(
      fc.property(anyPoint, anyPoint, anyPoint, fc.constantFrom('left', 'right'), (a, b, point, backSide) => {
        fc.pre(Math.hypot(a.x - b.x, a.y - b.y) > 1);
        const run: TracedRun = { frontLine: [a, b], backSide, depthMm: 600 };
        const scale: SheetScale = { ratio: 79.9, relativeUncertainty: 0.01, userUnit: 2 };
        const { alongMm, offsetMm } = placeOnStraight(run, 0, point, scale);
        const back = paperPointAt(run, 0, alongMm, offsetMm, scale);
        expect(back.x).toBeCloseTo(point.x, 6);
        expect(back.y).toBeCloseTo(point.y, 6);
      }),
      { seed: 21, numRuns: campaignSize({ sample: 200, full: 20_000 }) },
    );
  });

  it('belongs to the nearest straight', () => {
    expect(nearestStraightIndex(lShape, paperPoint(100, 40))).toBe(0);
    expect(nearestStraightIndex(lShape, paperPoint(590, 200))).toBe(1);
    expect(nearestStraightIndex({ ...lShape, frontLine: [] }, paperPoint(0, 0))).toBeUndefined();
  });
});

describe('a zone', () => {
  it('reaches from the lesser to the greater position of its two points, in whichever order they were picked', () => {
    const zone = zoneOn(lShape, 0, line([300, 10], [210, -5]), tenToOne);
    expect(zone.fromMm).toBeCloseTo(2100, 9);
    expect(zone.toMm).toBeCloseTo(3000, 9);
    // Two picks of 0.5 units, 5 mm each: 2 x sqrt(2) x 5.
    expect(zone.plusMinusMm).toBeCloseTo(14.142_136, 6);
    expect(zoneNear(lShape, line([300, 10], [210, -5]), tenToOne)).toEqual(zone);
  });

  it('is on the straight that all its points together are nearest to', () => {
    // A column of 300 by 300 mm, half in the second straight.
    const column = line([585, 100], [615, 100], [615, 130], [585, 130]);
    const blocked = zoneNear(lShape, column, tenToOne)!;
    expect(blocked.straight).toBe(1);
    expect(blocked.fromMm).toBeCloseTo(1000, 9);
    expect(blocked.toMm).toBeCloseTo(1300, 9);
  });

  it('may reach beyond the corner, where material has positions too', () => {
    expect(zoneOn(lShape, 1, line([600, -30], [600, 20]), tenToOne).fromMm).toBeCloseTo(-300, 9);
  });

  it('needs points and a straight', () => {
    expect(zoneNear(lShape, [], tenToOne)).toBeUndefined();
    expect(zoneNear({ ...lShape, frontLine: [] }, line([1, 1]), tenToOne)).toBeUndefined();
    expect(() => zoneOn(lShape, 0, [], tenToOne)).toThrow(RangeError);
  });
});

describe('the developed elevation', () => {
  it('has each straight behind the one before it', () => {
    const offsets = unrolledOffsets(lShape, tenToOne);
    expect(offsets.map(({ straight }) => straight)).toEqual([0, 1]);
    expect(offsets[0]!.fromMm).toBe(0);
    expect(offsets[1]!.fromMm).toBeCloseTo(6000, 9);
    expect(offsets[1]!.toMm).toBeCloseTo(9000, 9);
    expect(offsets[0]!.toMm).toBe(offsets[1]!.fromMm);
  });

  it('finds the straight of a developed position again', () => {
    const offsets = [
      { straight: 0, fromMm: 0, toMm: 6000 },
      { straight: 1, fromMm: 6000, toMm: 9000 },
    ];
    expect(straightAtUnrolled(offsets, 2500)).toEqual({ straight: 0, alongMm: 2500 });
    expect(straightAtUnrolled(offsets, 6000)).toEqual({ straight: 1, alongMm: 0 });
    expect(straightAtUnrolled(offsets, 9500)).toEqual({ straight: 1, alongMm: 3500 });
    expect(straightAtUnrolled(offsets, -40)).toEqual({ straight: 0, alongMm: -40 });
    expect(straightAtUnrolled([], 5)).toBeUndefined();
  });

  it('runs from the customer’s left where the back is on the walker’s left', () => {
    // By hand: walking east with the bar to the north, customers stand south and look north; west is on their left.
    expect(isFirstPointOnCustomersLeft(lShape)).toBe(true);
    expect(isFirstPointOnCustomersLeft({ backSide: 'right' })).toBe(false);
  });
});

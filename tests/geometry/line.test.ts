import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  doSegmentsTouch,
  intersectLines,
  intersectSegments,
  nearestOnSegment,
  projectOntoLine,
  type Segment,
  shortestWayBetween,
} from '../../src/geometry/line.ts';
import { campaignSize } from '../campaign/campaignSize.ts';

const at = (x: number, y: number) => ({ x, y });
const segment = (x1: number, y1: number, x2: number, y2: number): Segment => ({
  start: at(x1, y1),
  end: at(x2, y2),
});

// On a grid of 0.01, so that the oracle's own tolerance of 1e-6 decides nothing.
const coordinate = fc.integer({ min: -200_000, max: 200_000 }).map((hundredths) => hundredths / 100);
const anyPoint = fc.record({ x: coordinate, y: coordinate });
const anySegment = fc
  .record({ start: anyPoint, end: anyPoint })
  .filter(({ start, end }) => Math.hypot(end.x - start.x, end.y - start.y) > 1);

const flat = ({ start, end }: Segment) =>
  new Flatten.Segment(new Flatten.Point(start.x, start.y), new Flatten.Point(end.x, end.y));

describe('two lines', () => {
  it('cross where both equations hold', () => {
    // x + y = 4 and y = x: worked by hand.
    expect(intersectLines(at(0, 4), at(1, -1), at(0, 0), at(3, 3))).toEqual(at(2, 2));
  });

  it('cross nowhere when parallel, or when one has no direction', () => {
    expect(intersectLines(at(0, 0), at(2, 1), at(0, 5), at(-4, -2))).toBeUndefined();
    expect(intersectLines(at(0, 0), at(0, 0), at(0, 5), at(1, 0))).toBeUndefined();
  });
});

describe('two segments', () => {
  it('touch at an end, cross in the middle, or stay apart', () => {
    expect(doSegmentsTouch(segment(0, 0, 2, 2), segment(0, 2, 2, 0))).toBe(true);
    expect(doSegmentsTouch(segment(0, 0, 1, 0), segment(1, 0, 1, 5))).toBe(true);
    expect(doSegmentsTouch(segment(0, 0, 1, 0), segment(2, 0, 3, 0))).toBe(false);
    expect(doSegmentsTouch(segment(0, 0, 2, 0), segment(1, 0, 3, 0))).toBe(true);
    expect(intersectSegments(segment(0, 0, 2, 2), segment(0, 2, 2, 0))).toEqual(at(1, 1));
    expect(intersectSegments(segment(0, 0, 2, 0), segment(1, 0, 3, 0))).toBeUndefined();
    expect(intersectSegments(segment(0, 0, 2, 0), segment(1, 1, 1, 3))).toBeUndefined();
  });

  it('are as far apart as a general geometry library says', () => {
    fc.assert(
      fc.property(anySegment, anySegment, (a, b) => {
        const [oracle] = flat(a).distanceTo(flat(b));
        const ours = shortestWayBetween(a, b);
        expect(ours.distance).toBeCloseTo(oracle, 6);
        expect(Math.hypot(ours.onA.x - ours.onB.x, ours.onA.y - ours.onB.y)).toBeCloseTo(ours.distance, 6);
        expect(nearestOnSegment(ours.onA, a).distance).toBeLessThan(1e-6);
        expect(nearestOnSegment(ours.onB, b).distance).toBeLessThan(1e-6);
      }),
      { seed: 1, numRuns: campaignSize({ sample: 200, full: 20_000 }) },
    );
  });

  it('cross where a general geometry library says', () => {
    fc.assert(
      fc.property(anySegment, anySegment, (a, b) => {
        const oracle = flat(a).intersect(flat(b));
        const ours = intersectSegments(a, b);
        // The oracle works with a tolerance of 1e-6: near misses may differ, clear cases not.
        if (oracle.length === 0) {
          expect(ours).toBeUndefined();
        } else if (ours === undefined) {
          expect(flat(a).distanceTo(flat(b))[0]).toBeLessThan(1e-5);
        } else {
          expect(Math.hypot(ours.x - oracle[0]!.x, ours.y - oracle[0]!.y)).toBeLessThan(1e-3);
        }
      }),
      { seed: 2, numRuns: campaignSize({ sample: 200, full: 20_000 }) },
    );
  });
});

describe('a point beside a segment', () => {
  it('has its foot and signed offset on the line: positive on the left', () => {
    expect(projectOntoLine(at(3, 2), segment(0, 0, 10, 0))).toEqual({ foot: at(3, 0), along: 3, offset: 2 });
    expect(projectOntoLine(at(-1, -2), segment(0, 0, 10, 0))).toEqual({
      foot: at(-1, 0),
      along: -1,
      offset: -2,
    });
    expect(projectOntoLine(at(3, 4), segment(0, 0, 0, 0))).toEqual({ foot: at(0, 0), along: 0, offset: 5 });
  });

  // The L shape of 3300 by 600 with a leg of 1800: the point 450 from its edge, computed with @flatten-js/core.
  it('is 450 from the edge of an L-shaped counter, as @flatten-js/core has it', () => {
    expect(nearestOnSegment(at(1500, 1050), segment(0, 600, 3300, 600)).distance).toBe(450);
    expect(new Flatten.Point(1500, 1050).distanceTo(flat(segment(0, 600, 3300, 600)))[0]).toBe(450);
  });

  it('is as far away as a general geometry library says', () => {
    fc.assert(
      fc.property(anyPoint, anySegment, (point, beside) => {
        const [oracle] = new Flatten.Point(point.x, point.y).distanceTo(flat(beside));
        expect(nearestOnSegment(point, beside).distance).toBeCloseTo(oracle, 6);
      }),
      { seed: 3, numRuns: campaignSize({ sample: 200, full: 20_000 }) },
    );
  });
});

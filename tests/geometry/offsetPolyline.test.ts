import { areaD, EndType, inflatePathsD, JoinType } from 'clipper2-ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { projectOntoLine } from '../../src/geometry/line.ts';
import {
  isEdgeReversed,
  MITRE_LIMIT,
  offsetPolyline,
  offsetRing,
} from '../../src/geometry/offsetPolyline.ts';
import type { Point } from '../../src/geometry/point.ts';
import { polygonArea } from '../../src/geometry/polygon.ts';
import { segmentsOf } from '../../src/geometry/polyline.ts';
import { campaignSize } from '../campaign/campaignSize.ts';

const at = (x: number, y: number): Point => ({ x, y });

/** A convex ring, anticlockwise: points on an ellipse at well separated angles. */
const convexRing = fc
  .tuple(
    fc.array(fc.double({ min: 0.3, max: 1, noNaN: true }), { minLength: 3, maxLength: 9 }),
    fc.double({ min: 300, max: 3000, noNaN: true }),
    fc.double({ min: 300, max: 3000, noNaN: true }),
  )
  .map(([gaps, rx, ry]) => {
    const total = gaps.reduce((sum, gap) => sum + gap, 0);
    let angle = 0;
    return gaps.map((gap) => {
      angle += (gap / total) * 2 * Math.PI;
      return at(rx * Math.cos(angle), ry * Math.sin(angle));
    });
  });

describe('a line parallel to a polyline', () => {
  it('lies on the left for a positive offset and on the right for a negative one (y up)', () => {
    expect(offsetPolyline([at(0, 0), at(10, 0)], 2)).toEqual([at(0, 2), at(10, 2)]);
    expect(offsetPolyline([at(0, 0), at(10, 0)], -2)).toEqual([at(0, -2), at(10, -2)]);
    expect(offsetPolyline([at(0, 0), at(0, 10)], 2)).toEqual([at(-2, 0), at(-2, 10)]);
  });

  it('meets itself in a mitre at a corner', () => {
    // An L drawn by hand: along x, then up y. Left of it is inside the corner, right is outside.
    const corner = [at(0, 0), at(10, 0), at(10, 8)];
    expect(offsetPolyline(corner, 2)).toEqual([at(0, 2), at(8, 2), at(8, 8)]);
    const outside = offsetPolyline(corner, -2);
    expect(outside.map(({ x, y }) => [Math.round(x * 1e9) / 1e9, Math.round(y * 1e9) / 1e9])).toEqual([
      [0, -2],
      [12, -2],
      [12, 8],
    ]);
  });

  it('stays at its distance from every edge', () => {
    const coordinate = fc.double({ min: -2000, max: 2000, noNaN: true });
    const points = fc.array(fc.record({ x: coordinate, y: coordinate }), { minLength: 2, maxLength: 7 });
    fc.assert(
      fc.property(points, fc.double({ min: -800, max: 800, noNaN: true }), (line, offset) => {
        const parallel = offsetPolyline(line, offset);
        expect(parallel.length).toBe(line.length);
        for (const [index, edge] of segmentsOf(line).entries()) {
          if (Math.hypot(edge.end.x - edge.start.x, edge.end.y - edge.start.y) < 1) continue;
          for (const vertex of [index, index + 1]) {
            const isCutShort =
              Math.hypot(parallel[vertex]!.x - line[vertex]!.x, parallel[vertex]!.y - line[vertex]!.y) >
              Math.abs(offset) * MITRE_LIMIT * 0.999;
            if (!isCutShort) expect(projectOntoLine(parallel[vertex]!, edge).offset).toBeCloseTo(offset, 4);
          }
        }
      }),
      { seed: 5, numRuns: campaignSize({ sample: 200, full: 20_000 }) },
    );
  });

  it('remains finite where the line doubles back or stands still', () => {
    const turned = offsetPolyline([at(0, 0), at(10, 0), at(0, 0)], 2);
    expect(turned.every(({ x, y }) => Number.isFinite(x) && Number.isFinite(y))).toBe(true);
    expect(offsetPolyline([at(0, 0), at(0, 0), at(10, 0)], 2)).toEqual([at(0, 2), at(0, 2), at(10, 2)]);
    expect(offsetPolyline([at(3, 3), at(3, 3)], 2)).toEqual([at(3, 3), at(3, 3)]);
    expect(offsetPolyline([], 2)).toEqual([]);
  });

  it('says which edge has no length left on the inside of its corners', () => {
    const narrowU = [at(0, 5), at(0, 0), at(3, 0), at(3, 5)];
    const inside = offsetPolyline(narrowU, 2);
    expect([0, 1, 2].map((edge) => isEdgeReversed(narrowU, inside, edge))).toEqual([false, true, false]);
    const outside = offsetPolyline(narrowU, -2);
    expect([0, 1, 2].map((edge) => isEdgeReversed(narrowU, outside, edge))).toEqual([false, false, false]);
    expect(() => isEdgeReversed(narrowU, inside, 3)).toThrow(RangeError);
  });
});

describe('a ring offset outwards', () => {
  // Minkowski sum of a rectangle with a square: a 2400 x 600 counter grown by 100 with mitred corners is 2600 x 800.
  it('turns 2400 x 600 into 2600 x 800', () => {
    const grown = offsetRing([at(0, 0), at(2400, 0), at(2400, 600), at(0, 600)], -100);
    expect(polygonArea(grown)).toBeCloseTo(2600 * 800, 6);
  });

  // Steiner's formula for polygons (convex geometry): with mitred corners the area is A + P d + d² sum tan(turn / 2);
  // with round ones the last term is pi d². Clipper2 computes both.
  it('encloses what Clipper2 encloses with mitred corners', () => {
    fc.assert(
      fc.property(convexRing, fc.double({ min: 10, max: 400, noNaN: true }), (ring, distance) => {
        const oracle = inflatePathsD([ring], distance, JoinType.Miter, EndType.Polygon, 1000, 4);
        const oracleArea = Math.abs(areaD(oracle[0]!));
        expect(Math.abs(polygonArea(offsetRing(ring, -distance)) / oracleArea - 1)).toBeLessThan(1e-6);
      }),
      { seed: 6, numRuns: campaignSize({ sample: 100, full: 5_000 }) },
    );
  });
});

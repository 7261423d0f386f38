import Flatten from '@flatten-js/core';
import { areaD, EndType, inflatePathsD, JoinType } from 'clipper2-ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/point.ts';
import { isInPolygon, polygonArea, polygonCentroid, signedPolygonArea } from '../../src/geometry/polygon.ts';
import { nearestOnPolyline, pointAlongPolyline, polylineLength } from '../../src/geometry/polyline.ts';
import { campaignSize } from '../campaign/campaignSize.ts';

const at = (x: number, y: number): Point => ({ x, y });
const lShape = [at(0, 0), at(3300, 0), at(3300, 600), at(600, 600), at(600, 1800), at(0, 1800)];

describe('a polygon', () => {
  // L shape of 3300 by 600 with a leg to 1800: 3300 x 600 + 1200 x 600 = 2 700 000, also from @flatten-js/core.
  it('has the area of its rectangles together', () => {
    expect(signedPolygonArea(lShape)).toBe(2_700_000);
    expect(signedPolygonArea(lShape.toReversed())).toBe(-2_700_000);
    expect(polygonArea(lShape.toReversed())).toBe(2_700_000);
    expect(new Flatten.Polygon(lShape.map(({ x, y }) => [x, y] as [number, number])).area()).toBe(2_700_000);
    expect(polygonArea([])).toBe(0);
  });

  it('loses no area far from the origin', () => {
    const far = lShape.map(({ x, y }) => at(x + 1e9, y - 1e9));
    expect(polygonArea(far)).toBe(2_700_000);
  });

  // Steiner's formula A + P d + pi d² with A = 2400 x 600, P = 6000, d = 100: 2 071 415.927.
  it('grown by Clipper2 with round corners has the area of Steiner’s formula within 0.01 %', () => {
    const counter = [at(0, 0), at(2400, 0), at(2400, 600), at(0, 600)];
    const grown = inflatePathsD([counter], 100, JoinType.Round, EndType.Polygon, 2, 2, 0.01)[0]!;
    const steiner =
      polygonArea(counter) + polylineLength([...counter, counter[0]!]) * 100 + Math.PI * 100 ** 2;
    expect(steiner).toBeCloseTo(2_071_415.927, 3);
    expect(Math.abs(polygonArea(grown) / steiner - 1)).toBeLessThan(1e-4);
    expect(polygonArea(grown)).toBeCloseTo(Math.abs(areaD(grown)), 3);
  });

  it('has its centroid at the area-weighted mean of its rectangles', () => {
    // (1650, 300) weighs 1 980 000 and (300, 1200) weighs 720 000.
    const centre = polygonCentroid(lShape)!;
    expect(centre.x).toBeCloseTo((1650 * 1.98 + 300 * 0.72) / 2.7, 9);
    expect(centre.y).toBeCloseTo((300 * 1.98 + 1200 * 0.72) / 2.7, 9);
    expect(polygonCentroid([at(1, 1), at(3, 1)])).toEqual(at(2, 1));
    expect(polygonCentroid([])).toBeUndefined();
  });

  it('contains its edge, not its notch', () => {
    expect(isInPolygon(at(300, 1700), lShape)).toBe(true);
    expect(isInPolygon(at(700, 700), lShape)).toBe(false);
    expect(isInPolygon(at(600, 900), lShape)).toBe(true);
    expect(isInPolygon(at(0, 0), lShape)).toBe(true);
    expect(isInPolygon(at(-1, 600), lShape)).toBe(false);
  });

  it('contains the points that a general geometry library says', () => {
    const oracle = new Flatten.Polygon(lShape.map(({ x, y }) => [x, y] as [number, number]));
    fc.assert(
      fc.property(fc.integer({ min: -100, max: 3400 }), fc.integer({ min: -100, max: 1900 }), (x, y) => {
        expect(isInPolygon(at(x, y), lShape)).toBe(oracle.contains(new Flatten.Point(x, y)));
      }),
      { seed: 8, numRuns: campaignSize({ sample: 300, full: 20_000 }) },
    );
  });
});

describe('a polyline', () => {
  const line = [at(0, 0), at(3, 4), at(3, 4), at(10, 4)];

  it('is as long as its segments together', () => {
    expect(polylineLength(line)).toBe(12);
    expect(polylineLength([at(1, 1)])).toBe(0);
  });

  it('is walked from its first point, and never beyond its ends', () => {
    expect(pointAlongPolyline(line, 5)).toEqual(at(3, 4));
    expect(pointAlongPolyline(line, 8)).toEqual(at(6, 4));
    expect(pointAlongPolyline(line, -1)).toEqual(at(0, 0));
    expect(pointAlongPolyline(line, 99)).toEqual(at(10, 4));
    expect(pointAlongPolyline([], 1)).toBeUndefined();
  });

  it('gives back the place of each of its own points', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 12, noNaN: true }), (along) => {
        const nearest = nearestOnPolyline(pointAlongPolyline(line, along)!, line)!;
        expect(nearest.along).toBeCloseTo(along, 9);
        expect(nearest.distance).toBeLessThan(1e-9);
      }),
      { seed: 9, numRuns: 100 },
    );
    expect(nearestOnPolyline(at(0, 0), [at(1, 1)])).toBeUndefined();
    expect(nearestOnPolyline(at(6, 9), line)).toMatchObject({ segmentIndex: 2, distance: 5, along: 8 });
  });
});

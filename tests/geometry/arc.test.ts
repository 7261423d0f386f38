import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arcLength, arcThrough, flattenArc, pointOnArc } from '../../src/geometry/arc.ts';
import type { Point } from '../../src/geometry/point.ts';
import { nearestOnPolyline, polylineLength } from '../../src/geometry/polyline.ts';
import { campaignSize } from '../campaign/campaignSize.ts';

const at = (x: number, y: number): Point => ({ x, y });

describe('an arc through three points', () => {
  it('is the half circle that passes through the one in the middle', () => {
    const upper = arcThrough(at(1, 0), at(0, 1), at(-1, 0))!;
    expect(upper.radius).toBeCloseTo(1, 12);
    expect(upper.sweepRad).toBeCloseTo(Math.PI, 12);
    const lower = arcThrough(at(1, 0), at(0, -1), at(-1, 0))!;
    expect(lower.sweepRad).toBeCloseTo(-Math.PI, 12);
    const threeQuarters = arcThrough(at(1, 0), at(-1, 0), at(0, -1))!;
    expect(threeQuarters.sweepRad).toBeCloseTo(1.5 * Math.PI, 12);
  });

  it('does not exist on a line, or where points coincide', () => {
    expect(arcThrough(at(0, 0), at(1, 1), at(2, 2))).toBeUndefined();
    expect(arcThrough(at(0, 0), at(0, 0), at(2, 1))).toBeUndefined();
    expect(arcThrough(at(0, 0), at(3, 1), at(0, 0))).toBeUndefined();
  });

  it('is found again from three of its points, as a general geometry library draws it', () => {
    const angle = fc.double({ min: 0, max: 2 * Math.PI, noNaN: true });
    const radii = fc.double({ min: 300, max: 3000, noNaN: true });
    const shares = fc.double({ min: 0.1, max: 0.9, noNaN: true });
    const sweeps = fc.double({ min: 0.3, max: 6, noNaN: true });
    fc.assert(
      fc.property(
        angle,
        radii,
        shares,
        sweeps,
        fc.boolean(),
        (startRad, radius, share, sweep, isAnticlockwise) => {
          const signed = isAnticlockwise ? sweep : -sweep;
          const centre = new Flatten.Point(1000, -500);
          const end = startRad + signed;
          const oracle = new Flatten.Arc(centre, radius, startRad, end, isAnticlockwise);
          const on = (rad: number): Point => at(1000 + radius * Math.cos(rad), -500 + radius * Math.sin(rad));
          const ours = arcThrough(on(startRad), on(startRad + signed * share), on(end))!;
          expect(ours.radius).toBeCloseTo(radius, 5);
          expect(arcLength(ours) / oracle.length).toBeCloseTo(1, 6);
          const middle = pointOnArc(ours, 0.5);
          expect(oracle.middle().x).toBeCloseTo(middle.x, 3);
          expect(oracle.middle().y).toBeCloseTo(middle.y, 3);
        },
      ),
      { seed: 4, numRuns: campaignSize({ sample: 100, full: 5_000 }) },
    );
  });

  it('drawn as chords stays within the tolerance and has its ends', () => {
    const arc = arcThrough(at(1000, 0), at(707, 707), at(0, 1000))!;
    const chords = flattenArc(arc, 0.5);
    expect(chords[0]!.x).toBeCloseTo(1000, 9);
    expect(chords.at(-1)!.y).toBeCloseTo(1000, 9);
    for (let share = 0; share <= 1; share += 0.01) {
      expect(nearestOnPolyline(pointOnArc(arc, share), chords)!.distance).toBeLessThanOrEqual(0.5 + 1e-9);
    }
    expect(polylineLength(chords)).toBeLessThan(arcLength(arc));
    // A chord over a quarter circle has a sagitta of r (1 - cos 45°) = 292.9: one is enough for a tolerance of 300.
    expect(flattenArc(arc, 300)).toHaveLength(2);
    expect(() => flattenArc(arc, 0)).toThrow(RangeError);
  });
});

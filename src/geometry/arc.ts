import { orientation } from './orientation.ts';
import type { Point } from './point.ts';
import { distanceBetween, vectorBetween } from './vector.ts';

/** A circular arc. Positive sweep goes anticlockwise (y up). */
export interface Arc {
  readonly centre: Point;
  readonly radius: number;
  readonly startAngleRad: number;
  readonly sweepRad: number;
}

/** The arc from `start` through `via` to `end`, or undefined where the three lie on a line or two coincide. */
export function arcThrough(start: Point, via: Point, end: Point): Arc | undefined {
  const side = orientation(start, via, end);
  if (side === 0) return undefined;
  // The circumcentre, relative to the start so that large page coordinates cost no digits.
  const u = vectorBetween(start, via);
  const v = vectorBetween(start, end);
  const determinant = 2 * (u.x * v.y - u.y * v.x);
  if (determinant === 0) return undefined;
  const uu = u.x * u.x + u.y * u.y;
  const vv = v.x * v.x + v.y * v.y;
  const centre = {
    x: start.x + (v.y * uu - u.y * vv) / determinant,
    y: start.y + (u.x * vv - v.x * uu) / determinant,
  };
  const radius = distanceBetween(centre, start);
  if (!Number.isFinite(radius)) return undefined;
  const startAngleRad = Math.atan2(start.y - centre.y, start.x - centre.x);
  const endAngleRad = Math.atan2(end.y - centre.y, end.x - centre.x);
  const anticlockwise = (endAngleRad - startAngleRad + 4 * Math.PI) % (2 * Math.PI);
  return { centre, radius, startAngleRad, sweepRad: side > 0 ? anticlockwise : anticlockwise - 2 * Math.PI };
}

/** The length along an arc. */
export const arcLength = ({ radius, sweepRad }: Arc): number => radius * Math.abs(sweepRad);

/** The point of an arc at `share` of its sweep, from 0 (start) to 1 (end). */
export function pointOnArc({ centre, radius, startAngleRad, sweepRad }: Arc, share: number): Point {
  const angle = startAngleRad + sweepRad * share;
  return { x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) };
}

/**
 * A polyline whose points lie on the arc and whose chords stay within `tolerance` of it (the sagitta of a chord over
 * the angle a is radius x (1 - cos(a/2))). At least one chord, at most 4096.
 */
export function flattenArc(arc: Arc, tolerance: number): readonly Point[] {
  if (!(tolerance > 0)) throw new RangeError(`The tolerance must be positive, found ${tolerance}`);
  const widest = 2 * Math.acos(Math.max(0, 1 - tolerance / arc.radius));
  const chords = Math.min(4096, Math.max(1, Math.ceil(Math.abs(arc.sweepRad) / widest - 1e-9)));
  return Array.from({ length: chords + 1 }, (_, index) => pointOnArc(arc, index / chords));
}

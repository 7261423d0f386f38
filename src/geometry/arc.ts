import { orientation } from './orientation.ts';
import type { Point } from './point.ts';
import {
  cross,
  distanceBetween,
  dot,
  leftOf,
  movedBy,
  pointBetween,
  unitVector,
  type Vector,
  vectorBetween,
} from './vector.ts';

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

/** Direction of travel along an arc at `share` of its sweep, as a unit vector. */
export function tangentOfArc({ startAngleRad, sweepRad }: Arc, share: number): Vector {
  const angle = startAngleRad + sweepRad * share;
  const way = sweepRad < 0 ? -1 : 1;
  return { x: -Math.sin(angle) * way, y: Math.cos(angle) * way };
}

/**
 * Where a point lies as seen along an arc: its share of the sweep. Within the sweep from 0 to 1; beyond it, negative or
 * above 1, on the side of the end that is nearer.
 */
export function shareOnArc({ centre, startAngleRad, sweepRad }: Arc, point: Point): number {
  const whole = 2 * Math.PI;
  const way = sweepRad < 0 ? -1 : 1;
  const angle = Math.atan2(point.y - centre.y, point.x - centre.x);
  const walked = ((((angle - startAngleRad) * way) % whole) + whole) % whole;
  const sweep = Math.abs(sweepRad);
  // What lies nearer to the start than to the end, the other way round the circle, lies before it.
  return walked > sweep && whole - walked < walked - sweep ? (walked - whole) / sweep : walked / sweep;
}

/** The point of an arc that is nearest to another, its share of the sweep and the distance. */
export function nearestOnArc(point: Point, arc: Arc) {
  const share = Math.min(1, Math.max(0, shareOnArc(arc, point)));
  const at = pointOnArc(arc, share);
  return { at, share, distance: distanceBetween(point, at) };
}

/**
 * The arc that leaves `start` in a direction and ends at `end`; undefined where the end lies straight ahead or behind,
 * or at the start. The angle between tangent and chord is half the sweep (Euclid, Elements III.32).
 */
export function tangentArc(start: Point, along: Vector, end: Point): Arc | undefined {
  const chord = vectorBetween(start, end);
  const across = cross(along, chord);
  const square = dot(chord, chord);
  if (Math.abs(across) <= 1e-9 * Math.sqrt(square)) return undefined;
  // Centre on the normal at the start, equally far from both: |chord|^2 = 2 radius (chord . normal).
  const signedRadius = square / (2 * across);
  const sweepRad = 2 * Math.atan2(across, dot(along, chord));
  const centre = movedBy(start, leftOf(along), signedRadius);
  return {
    centre,
    radius: Math.abs(signedRadius),
    startAngleRad: Math.atan2(start.y - centre.y, start.x - centre.x),
    sweepRad,
  };
}

/** A corner rounded off: where the arc leaves the first line, a point on it, and where it meets the second. */
export interface RoundedCorner {
  readonly start: Point;
  readonly through: Point;
  readonly end: Point;
  /** From the corner to either end of the arc. */
  readonly tangent: number;
}

/**
 * The arc of a radius that touches both legs of a corner; undefined where the legs lie in line or fold back. The tangent
 * of a simple circular curve is radius x tan(turn / 2).
 */
export function roundedCorner(
  before: Point,
  corner: Point,
  after: Point,
  radius: number,
): RoundedCorner | undefined {
  const arriving = unitVector(vectorBetween(before, corner));
  const leaving = unitVector(vectorBetween(corner, after));
  if (!arriving || !leaving) return undefined;
  const turn = Math.atan2(cross(arriving, leaving), dot(arriving, leaving));
  if (Math.abs(turn) < 1e-6 || Math.abs(turn) > Math.PI - 1e-6) return undefined;
  const tangent = radius * Math.tan(Math.abs(turn) / 2);
  const start = movedBy(corner, arriving, -tangent);
  const end = movedBy(corner, leaving, tangent);
  // The external of the curve: from the corner to the arc's middle, towards the middle of its chord.
  const external = radius / Math.cos(turn / 2) - radius;
  const inwards = unitVector(vectorBetween(corner, pointBetween(start, end, 0.5)));
  if (!inwards) return undefined;
  return { start, through: movedBy(corner, inwards, external), end, tangent };
}

/**
 * A point on an arc, taken along when the arc's ends move: it keeps its place as seen from the chord, so that the arc
 * keeps its sweep. `before` and `after` are the ends.
 */
export function pointCarriedAlong(
  point: Point,
  before: readonly [Point, Point],
  after: readonly [Point, Point],
): Point {
  const from = vectorBetween(...before);
  const square = dot(from, from);
  if (square === 0) return point;
  const way = vectorBetween(before[0], point);
  const foot = pointBetween(after[0], after[1], dot(way, from) / square);
  return movedBy(foot, leftOf(vectorBetween(...after)), cross(from, way) / square);
}

import { orientation } from './orientation.ts';
import type { Point } from './point.ts';
import { cross, distanceBetween, dot, movedBy, pointBetween, type Vector, vectorBetween } from './vector.ts';

/** A straight line segment from one point to another. */
export interface Segment {
  readonly start: Point;
  readonly end: Point;
}

/** Where a point projects to on a line. */
export interface Projection {
  /** The foot of the perpendicular. */
  readonly foot: Point;
  /** Distance from the segment's start to the foot along its direction; negative before the start. */
  readonly along: number;
  /** Distance from the line; positive on the left of its direction (y up), negative on the right. */
  readonly offset: number;
}

/** The point of a segment nearest to another, and how far away it is. */
export interface NearestOnSegment {
  readonly point: Point;
  readonly distance: number;
  /** 0 at the segment's start, 1 at its end. */
  readonly share: number;
}

/**
 * Where two infinite lines cross, or undefined where they are parallel: their directions differ by less than about
 * 1e-12 rad, or one has no direction.
 */
export function intersectLines(
  pointA: Point,
  directionA: Vector,
  pointB: Point,
  directionB: Vector,
): Point | undefined {
  const determinant = cross(directionA, directionB);
  const scale = Math.hypot(directionA.x, directionA.y) * Math.hypot(directionB.x, directionB.y);
  if (!(Math.abs(determinant) > 1e-12 * scale)) return undefined;
  return movedBy(pointA, directionA, cross(vectorBetween(pointA, pointB), directionB) / determinant);
}

/** Whether a point lies in the upright box around a segment; for a point on its line: whether it lies on it. */
const isBoxedBy = (point: Point, { start, end }: Segment): boolean =>
  Math.min(start.x, end.x) <= point.x &&
  point.x <= Math.max(start.x, end.x) &&
  Math.min(start.y, end.y) <= point.y &&
  point.y <= Math.max(start.y, end.y);

/** Whether a point lies on a closed segment. Exact: a point a rounding error beside it does not. */
export const isOnSegment = (point: Point, segment: Segment): boolean =>
  orientation(segment.start, segment.end, point) === 0 && isBoxedBy(point, segment);

/** Whether two closed segments share a point. Exact, touching included. */
export function doSegmentsTouch(a: Segment, b: Segment): boolean {
  const a1 = orientation(b.start, b.end, a.start);
  const a2 = orientation(b.start, b.end, a.end);
  const b1 = orientation(a.start, a.end, b.start);
  const b2 = orientation(a.start, a.end, b.end);
  if (a1 * a2 < 0 && b1 * b2 < 0) return true;
  return (
    (a1 === 0 && isBoxedBy(a.start, b)) ||
    (a2 === 0 && isBoxedBy(a.end, b)) ||
    (b1 === 0 && isBoxedBy(b.start, a)) ||
    (b2 === 0 && isBoxedBy(b.end, a))
  );
}

/** The one point where two closed segments cross or touch; undefined where they do not, or overlap along a line. */
export function intersectSegments(a: Segment, b: Segment): Point | undefined {
  if (!doSegmentsTouch(a, b)) return undefined;
  const crossing = intersectLines(
    a.start,
    vectorBetween(a.start, a.end),
    b.start,
    vectorBetween(b.start, b.end),
  );
  return crossing === undefined ? undefined : nearestOnSegment(crossing, a).point;
}

/**
 * Projects a point onto the infinite line through a segment. A segment of no length has no direction: the foot is its
 * start and the offset the distance from it.
 */
export function projectOntoLine(point: Point, { start, end }: Segment): Projection {
  const length = distanceBetween(start, end);
  const way = vectorBetween(start, point);
  if (length === 0) return { foot: start, along: 0, offset: Math.hypot(way.x, way.y) };
  const direction = { x: (end.x - start.x) / length, y: (end.y - start.y) / length };
  const along = dot(direction, way);
  return { foot: movedBy(start, direction, along), along, offset: cross(direction, way) };
}

/** The point of a closed segment that is nearest to `point`. */
export function nearestOnSegment(point: Point, { start, end }: Segment): NearestOnSegment {
  const direction = vectorBetween(start, end);
  const lengthSquared = dot(direction, direction);
  const raw = lengthSquared === 0 ? 0 : dot(vectorBetween(start, point), direction) / lengthSquared;
  const share = Math.min(1, Math.max(0, raw));
  const nearest = share === 1 ? end : pointBetween(start, end, share);
  return { point: nearest, distance: distanceBetween(point, nearest), share };
}

/** The shortest way between two closed segments: a point on each, and their distance (0 where they touch). */
export function shortestWayBetween(
  a: Segment,
  b: Segment,
): { readonly onA: Point; readonly onB: Point; readonly distance: number } {
  const crossing = intersectSegments(a, b);
  if (crossing !== undefined) return { onA: crossing, onB: crossing, distance: 0 };
  // Segments that do not cross are nearest at an end of one of them.
  const ways = [
    ...[a.start, a.end].map((onA) => ({ onA, onB: nearestOnSegment(onA, b).point })),
    ...[b.start, b.end].map((onB) => ({ onA: nearestOnSegment(onB, a).point, onB })),
  ].map((way) => ({ ...way, distance: distanceBetween(way.onA, way.onB) }));
  return ways.reduce((best, way) => (way.distance < best.distance ? way : best));
}

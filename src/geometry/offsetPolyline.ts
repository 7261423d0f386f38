import type { Point } from './point.ts';
import { dot, leftOf, movedBy, unitVector, type Vector, vectorBetween } from './vector.ts';

/** A corner sharper than this many offsets is cut short there, so that a trace that doubles back stays drawable. */
export const MITRE_LIMIT = 50;

/** Where the corner between two edges moves to: along the bisector of their normals, to the mitre. */
function mitrePoint(vertex: Point, before: Vector, after: Vector, offset: number): Point {
  const normalBefore = leftOf(before);
  const normalAfter = leftOf(after);
  const bisector = { x: normalBefore.x + normalAfter.x, y: normalBefore.y + normalAfter.y };
  // |bisector| = 2 cos(turn/2) and the mitre is offset / cos(turn/2) long: hence offset x bisector / (|bisector|²/2).
  const halfSquare = dot(bisector, bisector) / 2;
  const isTooSharp = halfSquare * MITRE_LIMIT ** 2 < 2;
  if (!isTooSharp) return movedBy(vertex, bisector, offset / halfSquare);
  const towards = unitVector(bisector);
  return towards === undefined
    ? movedBy(vertex, before, Math.abs(offset) * MITRE_LIMIT)
    : movedBy(vertex, towards, offset * MITRE_LIMIT);
}

function edgeDirections(points: readonly Point[], isClosed: boolean): (Vector | undefined)[] {
  const count = isClosed ? points.length : points.length - 1;
  const raw = Array.from({ length: Math.max(0, count) }, (_, index) =>
    unitVector(vectorBetween(points[index]!, points[(index + 1) % points.length]!)),
  );
  // An edge of no length goes on as the edge before it (or else the next) does.
  const forward = raw.map((_, index) => raw.slice(0, index + 1).findLast((edge) => edge !== undefined));
  return forward.map((edge) => edge ?? raw.find((other) => other !== undefined));
}

/**
 * The line parallel to an open polyline at `offset`, positive on the left of its direction (y up), with mitred corners
 * and square ends. It has one point for each point of the polyline. Where an inside corner leaves less than nothing of
 * an edge, that edge runs backwards in the answer (see `isEdgeReversed`): nothing is clipped.
 *
 * @example offsetPolyline([{ x: 0, y: 0 }, { x: 10, y: 0 }], 2) // [{ x: 0, y: 2 }, { x: 10, y: 2 }]
 */
export function offsetPolyline(points: readonly Point[], offset: number): readonly Point[] {
  const edges = edgeDirections(points, false);
  return points.map((vertex, index) => {
    const before = edges[index - 1] ?? edges[index];
    const after = edges[index] ?? before;
    return before === undefined || after === undefined ? vertex : mitrePoint(vertex, before, after, offset);
  });
}

/** The ring parallel to a closed ring at `offset`, inwards for a ring that goes anticlockwise (y up). Mitred. */
export function offsetRing(ring: readonly Point[], offset: number): readonly Point[] {
  const edges = edgeDirections(ring, true);
  return ring.map((vertex, index) => {
    const before = edges.at(index - 1);
    const after = edges[index];
    return before === undefined || after === undefined ? vertex : mitrePoint(vertex, before, after, offset);
  });
}

/** Whether an edge of an offset polyline runs against the edge it came from, because no length is left of it. */
export function isEdgeReversed(
  points: readonly Point[],
  offsetPoints: readonly Point[],
  edgeIndex: number,
): boolean {
  const [start, end] = [points[edgeIndex], points[edgeIndex + 1]];
  const [offsetStart, offsetEnd] = [offsetPoints[edgeIndex], offsetPoints[edgeIndex + 1]];
  if (!start || !end || !offsetStart || !offsetEnd) throw new RangeError(`No edge ${edgeIndex}`);
  return dot(vectorBetween(start, end), vectorBetween(offsetStart, offsetEnd)) < 0;
}

import {
  type Arc,
  arcLength,
  arcThrough,
  flattenArc,
  nearestOnArc,
  pointOnArc,
  shareOnArc,
  tangentOfArc,
} from '../geometry/arc.ts';
import { nearestOnSegment } from '../geometry/line.ts';
import { type PaperPoint, type Point, paperPoint } from '../geometry/point.ts';
import { cross, distanceBetween, dot, unitVector, type Vector, vectorBetween } from '../geometry/vector.ts';

/** A line of straights and arcs on the paper, point by point. */
export interface RunPath {
  readonly frontLine: readonly PaperPoint[];
  /** A point on the arc by which the line goes on from the point of the same index; straight where there is none. */
  readonly bends?: readonly (PaperPoint | undefined)[] | undefined;
}

/** Chords of a drawn arc stay within this of it, in user-space units: a third of a millimetre at 1:50. */
const flatteningUnits = 0.02;

/** The arc from point `index` to the next; undefined where the line is straight there, or its three points lie in line. */
export function bendOf({ frontLine, bends }: RunPath, index: number): Arc | undefined {
  const through = bends?.[index];
  const start = frontLine[index];
  const end = frontLine[index + 1];
  return through && start && end && arcThrough(start, through, end);
}

/** Whether any part of a line is an arc. */
export const hasBends = (path: RunPath): boolean =>
  path.bends?.some((_, index) => bendOf(path, index) !== undefined) ?? false;

/** Length of the part that starts at point `index`, in user-space units. */
export function partLength(path: RunPath, index: number): number {
  const bend = bendOf(path, index);
  const [start, end] = [path.frontLine[index], path.frontLine[index + 1]];
  if (!start || !end) throw new RangeError(`No straight ${index}`);
  return bend ? arcLength(bend) : distanceBetween(start, end);
}

/** A place of a line, the direction in which the line goes there, and what share of its part is behind it. */
export interface PathPlace {
  readonly at: PaperPoint;
  readonly along: Vector;
}

/**
 * The place `walked` user-space units along the part that starts at point `index`. Before its start and behind its end
 * the line runs straight on. A part of no length points along +x.
 */
export function placeAlong(path: RunPath, index: number, walked: number): PathPlace {
  const [start, end] = [path.frontLine[index], path.frontLine[index + 1]];
  if (!start || !end) throw new RangeError(`No straight ${index}`);
  const bend = bendOf(path, index);
  const asPlace = (at: Point, along: Vector, by = 0): PathPlace => ({
    at: paperPoint(at.x + along.x * by, at.y + along.y * by),
    along,
  });
  if (!bend) return asPlace(start, unitVector(vectorBetween(start, end)) ?? { x: 1, y: 0 }, walked);
  const length = arcLength(bend);
  if (walked < 0) return asPlace(start, tangentOfArc(bend, 0), walked);
  if (walked > length) return asPlace(end, tangentOfArc(bend, 1), walked - length);
  return asPlace(pointOnArc(bend, walked / length), tangentOfArc(bend, walked / length));
}

/** Where the line leaves point `index`: its direction there. */
export const leavingDirection = (path: RunPath, index: number): Vector => placeAlong(path, index, 0).along;

/** Where the line arrives at the point after `index`: its direction there. */
export const arrivingDirection = (path: RunPath, index: number): Vector =>
  placeAlong(path, index, partLength(path, index)).along;

/** The middle of the part that starts at point `index`, on the line itself. */
export const middleAlong = (path: RunPath, index: number): PathPlace =>
  placeAlong(path, index, partLength(path, index) / 2);

/** The points of the part that starts at point `index`, both ends included; an arc as chords. */
export function flattenedPart(path: RunPath, index: number): readonly PaperPoint[] {
  const [start, end] = [path.frontLine[index], path.frontLine[index + 1]];
  if (!start || !end) return [];
  const bend = bendOf(path, index);
  if (!bend) return [start, end];
  // The drawn ends are the points themselves, to the last bit.
  const inner = flattenArc(bend, Math.min(flatteningUnits, bend.radius / 4)).slice(1, -1);
  return [start, ...inner.map(({ x, y }) => paperPoint(x, y)), end];
}

/** The whole line as points, arcs as chords within a hundredth of a millimetre of paper. */
export const flattenedPath = (path: RunPath): readonly PaperPoint[] =>
  hasBends(path)
    ? path.frontLine.flatMap((point, index) => [point, ...flattenedPart(path, index).slice(1, -1)])
    : path.frontLine;

/** The place of a line that is nearest to a point; undefined for a line of fewer than two points. */
export interface NearestOnPath {
  readonly index: number;
  readonly at: PaperPoint;
  readonly distance: number;
}

/** The part of a line that a point is nearest to (the earlier of two equally near), and where. */
export function nearestOnPath(path: RunPath, point: Point): NearestOnPath | undefined {
  let best: NearestOnPath | undefined;
  for (const [index, start] of path.frontLine.slice(0, -1).entries()) {
    const end = path.frontLine[index + 1]!;
    const bend = bendOf(path, index);
    const nearest = bend ? nearestOnArc(point, bend) : nearestOnSegment(point, { start, end });
    const { x, y } = 'at' in nearest ? nearest.at : nearest.point;
    if (best === undefined || nearest.distance < best.distance)
      best = { index, at: paperPoint(x, y), distance: nearest.distance };
  }
  return best;
}

/** Where a point lies as seen from a part of a line. */
export interface PlaceOnPart {
  /** From the part's start, along it: negative before it, more than its length behind its end. */
  readonly along: number;
  /** From the line, positive on the left of its direction. */
  readonly offset: number;
}

/**
 * The place of a point relative to the part that starts at point `index`, in user-space units. On an arc the offset is
 * radial; before its start and behind its end both are measured as on the tangent there.
 */
export function projectOntoPart(path: RunPath, index: number, point: Point): PlaceOnPart {
  const [start, end] = [path.frontLine[index], path.frontLine[index + 1]];
  if (!start || !end) throw new RangeError(`No straight ${index}`);
  const bend = bendOf(path, index);
  const share = bend ? shareOnArc(bend, point) : -1;
  const length = partLength(path, index);
  if (!bend || share < 0 || share > 1) {
    const isBehind = share > 1;
    const on = isBehind ? arrivingDirection(path, index) : leavingDirection(path, index);
    const way = vectorBetween(isBehind ? end : start, point);
    return { along: dot(way, on) + (isBehind ? length : 0), offset: cross(on, way) };
  }
  const inwards = bend.radius - distanceBetween(bend.centre, point);
  return { along: share * length, offset: bend.sweepRad > 0 ? inwards : -inwards };
}

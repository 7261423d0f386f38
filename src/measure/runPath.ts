import {
  type Arc,
  arcLength,
  arcThrough,
  flattenArc,
  nearestOnArc,
  pointOnArc,
  tangentOfArc,
} from '../geometry/arc.ts';
import { nearestOnSegment } from '../geometry/line.ts';
import { type PaperPoint, type Point, paperPoint } from '../geometry/point.ts';
import { distanceBetween, pointBetween, unitVector, type Vector, vectorBetween } from '../geometry/vector.ts';

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

/** A line with an arc's point taken as far along as before when its ends move: the arc keeps its sweep. */
export function bendMoved(
  through: PaperPoint,
  before: readonly [Point, Point],
  after: readonly [Point, Point],
): PaperPoint {
  const [from, to] = [vectorBetween(...before), vectorBetween(...after)];
  const square = from.x ** 2 + from.y ** 2;
  if (square === 0) return through;
  const way = vectorBetween(before[0], through);
  // The share along the chord and across it, carried over: a turn and a change of size.
  const along = (way.x * from.x + way.y * from.y) / square;
  const across = (from.x * way.y - from.y * way.x) / square;
  const foot = pointBetween(after[0], after[1], along);
  return paperPoint(foot.x - to.y * across, foot.y + to.x * across);
}

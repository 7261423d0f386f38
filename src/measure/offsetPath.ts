import { type Arc, pointOnArc, shareOnArc } from '../geometry/arc.ts';
import { type Curve, curveCrossings } from '../geometry/curveCrossings.ts';
import { offsetPolyline } from '../geometry/offsetPolyline.ts';
import { type PaperPoint, type Point, paperPoint } from '../geometry/point.ts';
import { signedTurnRad } from '../geometry/turn.ts';
import { distanceBetween, dot, leftOf, movedBy, vectorBetween } from '../geometry/vector.ts';
import { arrivingDirection, bendOf, hasBends, leavingDirection, type RunPath } from './runPath.ts';

/** The radius of an arc moved by `offset` to the left of its direction. Zero or less: nothing of it is left. */
export const offsetRadius = ({ radius, sweepRad }: Arc, offset: number): number =>
  radius - Math.sign(sweepRad) * offset;

/** A part of a line moved sideways, as the whole curve it lies on. */
const curveOf = (path: RunPath, index: number, offset: number): Curve => {
  const bend = bendOf(path, index);
  if (bend) return { centre: bend.centre, radius: offsetRadius(bend, offset) };
  const along = leavingDirection(path, index);
  return { at: movedBy(path.frontLine[index]!, leftOf(along), offset), along };
};

/** Turns smaller than this are met along the common normal, where crossings of the moved curves would lie anywhere. */
const smoothTurnRad = (2 * Math.PI) / 180;

/** Where the corner at point `index` goes when the whole line moves sideways. */
const movedVertex = (path: RunPath, index: number, offset: number): Point => {
  const at = path.frontLine[index]!;
  const before = index > 0 ? arrivingDirection(path, index - 1) : undefined;
  const after = index < path.frontLine.length - 1 ? leavingDirection(path, index) : undefined;
  const [arrives, leaves] = [before ?? after, after ?? before];
  if (!arrives || !leaves) return at;
  // As if both parts ran straight up to the corner.
  const reach = 1;
  const guess =
    offsetPolyline([movedBy(at, arrives, -reach), at, movedBy(at, leaves, reach)], offset)[1] ?? at;
  const turnRad = signedTurnRad(arrives, leaves);
  if (!before || !after || Math.abs(turnRad) < smoothTurnRad) return guess;
  const crossings = curveCrossings(curveOf(path, index - 1, offset), curveOf(path, index, offset));
  const nearest = crossings.toSorted((a, b) => distanceBetween(a, guess) - distanceBetween(b, guess))[0];
  return nearest ?? guess;
};

/**
 * The line at `offset` to the left of a line, in user-space units: straights parallel, arcs with the same centre,
 * corners mitred. It has one point for each point of the line; of an arc with no radius left its two points remain.
 */
export function offsetPath(path: RunPath, offset: number): RunPath {
  if (!hasBends(path))
    return { frontLine: offsetPolyline(path.frontLine, offset).map(({ x, y }) => paperPoint(x, y)) };
  const frontLine = path.frontLine.map((_, index): PaperPoint => {
    const { x, y } = movedVertex(path, index, offset);
    return paperPoint(x, y);
  });
  const bends = path.frontLine.slice(0, -1).map((_, index): PaperPoint | undefined => {
    const bend = bendOf(path, index);
    if (!bend) return undefined;
    const radius = offsetRadius(bend, offset);
    const [from, to] = [frontLine[index]!, frontLine[index + 1]!].map((point) => shareOnArc(bend, point));
    if (radius <= 0 || from === undefined || to === undefined || to <= from) return undefined;
    const middle = pointOnArc({ ...bend, radius }, (from + to) / 2);
    return paperPoint(middle.x, middle.y);
  });
  return { frontLine, bends };
}

/** Whether nothing is left of the part that starts at point `index` when the line has moved sideways to `moved`. */
export function isPartUsedUp(path: RunPath, moved: RunPath, index: number): boolean {
  const [start, end] = [moved.frontLine[index], moved.frontLine[index + 1]];
  if (!start || !end) throw new RangeError(`No straight ${index}`);
  const bend = bendOf(path, index);
  if (bend) return shareOnArc(bend, end) < shareOnArc(bend, start);
  return dot(leavingDirection(path, index), vectorBetween(start, end)) < 0;
}

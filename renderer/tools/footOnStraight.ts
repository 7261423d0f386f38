import type { VertexId } from '../../src/document/ids.ts';
import type { Run } from '../../src/document/projectDocument.ts';
import type { Segment } from '../../src/geometry/line.ts';
import type { PaperPoint, Point } from '../../src/geometry/point.ts';
import type { Vector } from '../../src/geometry/vector.ts';
import {
  bendOf,
  nearestOnPath,
  partLength,
  placeAlong,
  projectOntoPart,
  type RunPath,
} from '../../src/measure/runPath.ts';

/** A straight of a run on the paper: its ends and, of a bent one, a point on its arc. */
export interface StraightOnPaper extends Segment {
  readonly start: PaperPoint;
  readonly end: PaperPoint;
  readonly through?: PaperPoint | undefined;
}

const asPath = ({ start, end, through }: StraightOnPaper): RunPath => ({
  frontLine: [start, end],
  bends: [through],
});

/** The straight of a run that starts at a vertex; null where none does. */
export const straightFrom = (run: Run, vertexId: VertexId): StraightOnPaper | null => {
  const index = run.frontLine.findIndex(({ id }) => id === vertexId);
  const start = run.frontLine[index];
  const end = run.frontLine[index + 1];
  return start && end ? { start: start.at, end: end.at, through: start.through } : null;
};

/** The arc of a bent straight; undefined where it is straight. */
export const bendOfStraight = (straight: StraightOnPaper) => bendOf(asPath(straight), 0);

/** The length of a straight along its front, in paper units. */
export const lengthOf = (straight: StraightOnPaper): number => partLength(asPath(straight), 0);

/** The point so far along a straight, held between its two ends; in paper units. */
export const pointAlong = (straight: StraightOnPaper, along: number): PaperPoint => {
  const whole = lengthOf(straight);
  // The very end, not a rounding error beside it: a zone may stop at a corner.
  if (along >= whole) return straight.end;
  return placeAlong(asPath(straight), 0, Math.max(0, along)).at;
};

/** How far along a straight a point lies: negative before its start, more than its length behind its end. */
export const alongOf = (straight: StraightOnPaper, point: Point): number =>
  projectOntoPart(asPath(straight), 0, point).along;

/** How far beside a straight a point lies, positive on the left of its direction. */
export const besideOf = (straight: StraightOnPaper, point: Point): number =>
  projectOntoPart(asPath(straight), 0, point).offset;

/** The direction of a straight at the place nearest to a point. */
export const directionNear = (straight: StraightOnPaper, point: Point): Vector => {
  const along = Math.min(lengthOf(straight), Math.max(0, alongOf(straight, point)));
  return placeAlong(asPath(straight), 0, along).along;
};

/** The middle of a straight, on its front. */
export const middleOfStraight = (straight: StraightOnPaper): PaperPoint =>
  pointAlong(straight, lengthOf(straight) / 2);

/** The foot of a point on a straight, held between its two ends. */
export const footOnStraight = (straight: StraightOnPaper, point: Point): PaperPoint =>
  nearestOnPath(asPath(straight), point)?.at ?? straight.start;

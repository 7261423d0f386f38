import type { SimpleCommand } from '../../../src/document/command.ts';
import type { VertexId } from '../../../src/document/ids.ts';
import type { Run } from '../../../src/document/projectDocument.ts';
import { pointOnArc, type RoundedCorner, roundedCorner, tangentArc } from '../../../src/geometry/arc.ts';
import { intersectLines } from '../../../src/geometry/line.ts';
import { type PaperPoint, type Point, paperPoint } from '../../../src/geometry/point.ts';
import { signedTurnRad } from '../../../src/geometry/turn.ts';
import {
  distanceBetween,
  leftOf,
  movedBy,
  pointBetween,
  scaledBy,
  unitVector,
  vectorBetween,
} from '../../../src/geometry/vector.ts';
import { cornersOf } from '../../../src/measure/corners.ts';
import { runAsTraced } from '../../../src/measure/runAsTraced.ts';
import { arrivingDirection, leavingDirection } from '../../../src/measure/runPath.ts';
import { alongOf, bendOfStraight, lengthOf, straightFrom } from '../footOnStraight.ts';

const asPaper = ({ x, y }: Point): PaperPoint => paperPoint(x, y);

const bent = (run: Run, vertexId: VertexId, through: Point | null): SimpleCommand => ({
  type: 'bend-straight',
  runId: run.id,
  vertexId,
  through: through && asPaper(through),
});

/** A sagitta to begin with: a tenth of the chord, clearly an arc and clearly not a round. */
const firstSagittaShare = 0.1;

/** A straight bent a little towards the customer, to be dragged or typed from there. */
export const bentAtFirst = (run: Run, vertexId: VertexId): SimpleCommand | null => {
  const straight = straightFrom(run, vertexId);
  if (!straight) return null;
  const chord = vectorBetween(straight.start, straight.end);
  const toFront = scaledBy(leftOf(chord), run.backSide === 'left' ? -1 : 1);
  const middle = pointBetween(straight.start, straight.end, 0.5);
  return bent(run, vertexId, movedBy(middle, toFront, firstSagittaShare));
};

/** The middles of the arcs by which a straight would go on from its neighbours without a turn. */
const tangentMiddles = (run: Run, index: number): readonly Point[] => {
  const path = runAsTraced(run);
  const [start, end] = [path.frontLine[index], path.frontLine[index + 1]];
  if (!start || !end) return [];
  const arcs = [
    ...(index > 0 ? [tangentArc(start, arrivingDirection(path, index - 1), end)] : []),
    ...(index + 2 < path.frontLine.length
      ? [tangentArc(end, scaledBy(leavingDirection(path, index + 1), -1), start)]
      : []),
  ];
  return arcs.flatMap((arc) => (arc ? [pointOnArc(arc, 0.5)] : []));
};

/** The bend dragged to a place; within reach of being a tangent of a neighbour, it is one. */
export const bendDragged = (run: Run, vertexId: VertexId, to: Point, reach: number): SimpleCommand | null => {
  const index = run.frontLine.findIndex(({ id }) => id === vertexId);
  const near = tangentMiddles(run, index)
    .map((middle) => ({ middle, distance: distanceBetween(middle, to) }))
    .toSorted((a, b) => a.distance - b.distance)[0];
  return bent(run, vertexId, near && near.distance <= reach ? near.middle : to);
};

/** A straight that is straight again. */
export const straightened = (run: Run, vertexId: VertexId): SimpleCommand => bent(run, vertexId, null);

type Asked = { readonly commands: readonly SimpleCommand[] } | { readonly say: string };

/** Whether both ends of an arc go on as straights without a turn: the arc rounds a corner off. */
const roundedFrom = (run: Run, index: number): Point | null => {
  const path = runAsTraced(run);
  const isStraight = (part: number) => run.frontLine[part]?.through === undefined;
  if (index < 1 || index + 2 >= run.frontLine.length || !isStraight(index - 1) || !isStraight(index + 1))
    return null;
  const corners = cornersOf(path);
  if (!corners[index - 1]?.isTangent || !corners[index]?.isTangent) return null;
  const [before, start, end, after] = path.frontLine.slice(index - 1, index + 3);
  const corner =
    before &&
    start &&
    end &&
    after &&
    intersectLines(before, vectorBetween(before, start), after, vectorBetween(end, after));
  return corner ?? null;
};

/** Why a corner can't be rounded with a radius, or how it is. The legs are what is straight on both sides of it. */
const roundingOf = (
  before: Point,
  corner: Point,
  after: Point,
  radius: number,
  mmPerUnit: number,
): RoundedCorner | { readonly say: string } => {
  const round = roundedCorner(before, corner, after, radius);
  if (!round) return { say: 'The two straights lie in line: there is no corner to round.' };
  const leg = Math.min(distanceBetween(before, corner), distanceBetween(corner, after));
  if (round.tangent >= leg) {
    const turn = signedTurnRad(vectorBetween(before, corner), vectorBetween(corner, after));
    const most = Math.floor((leg / Math.tan(Math.abs(turn) / 2)) * mmPerUnit);
    return { say: `The straights beside this corner are too short for that: less than ${most} mm.` };
  }
  return round;
};

/** Rounds the corner at a point with a radius in paper units: the corner becomes straight, arc, straight. */
export const cornerRounded = (
  run: Run,
  vertexId: VertexId,
  radius: number,
  mmPerUnit: number,
  freshId: () => string,
): Asked => {
  const index = run.frontLine.findIndex(({ id }) => id === vertexId);
  const [before, corner, after] = [run.frontLine[index - 1], run.frontLine[index], run.frontLine[index + 1]];
  if (!before || !corner || !after) return { say: 'Only a corner can be rounded, not an end.' };
  if (before.through || corner.through)
    return { say: 'An arc begins or ends here: a corner between two straights can be rounded.' };
  const round = roundingOf(before.at, corner.at, after.at, radius, mmPerUnit);
  if ('say' in round) return round;
  return {
    commands: [
      ...(corner.treatment
        ? [{ type: 'pin-corner' as const, runId: run.id, vertexId, treatment: null }]
        : []),
      {
        type: 'insert-vertex',
        runId: run.id,
        index: index + 1,
        vertex: {
          id: `vertex-${freshId()}` as VertexId,
          at: asPaper(round.end),
          treatment: null,
        },
      },
      { type: 'move-vertex', runId: run.id, vertexId, to: asPaper(round.start) },
      bent(run, vertexId, round.through),
    ],
  };
};

/** Whether a corner can be rounded: between two straights that turn. */
export const canBeRounded = (run: Run, vertexId: VertexId): boolean => {
  const index = run.frontLine.findIndex(({ id }) => id === vertexId);
  const [before, corner, after] = [run.frontLine[index - 1], run.frontLine[index], run.frontLine[index + 1]];
  if (!before || !corner || !after || before.through || corner.through) return false;
  return roundedCorner(before.at, corner.at, after.at, 1) !== undefined;
};

/**
 * Gives an arc another radius, in paper units. One that rounds a corner off stays a tangent of both its neighbours, and
 * its ends move; any other keeps its ends.
 */
export const radiusGiven = (run: Run, vertexId: VertexId, radius: number, mmPerUnit: number): Asked => {
  const index = run.frontLine.findIndex(({ id }) => id === vertexId);
  const straight = straightFrom(run, vertexId);
  const bend = straight && bendOfStraight(straight);
  if (!straight || !bend) return { say: 'This straight is not bent: bend it first.' };
  const corner = roundedFrom(run, index);
  const [before, end, after] = [run.frontLine[index - 1], run.frontLine[index + 1], run.frontLine[index + 2]];
  if (corner && before && end && after) {
    const round = roundingOf(before.at, corner, after.at, radius, mmPerUnit);
    if ('say' in round) return round;
    return {
      commands: [
        { type: 'move-vertex', runId: run.id, vertexId, to: asPaper(round.start) },
        { type: 'move-vertex', runId: run.id, vertexId: end.id, to: asPaper(round.end) },
        bent(run, vertexId, round.through),
      ],
    };
  }
  const half = distanceBetween(straight.start, straight.end) / 2;
  if (radius < half) {
    const least = Math.ceil(half * mmPerUnit);
    return { say: `Between these two points a radius is at least ${least} mm: half the way across.` };
  }
  const middle = pointBetween(straight.start, straight.end, 0.5);
  const outwards = unitVector(vectorBetween(middle, pointOnArc(bend, 0.5)));
  if (!outwards)
    return { say: 'Drag the middle of the arc first, so that it is clear to which side it bends.' };
  const apart = Math.sqrt(radius ** 2 - half ** 2);
  const isMajor = Math.abs(bend.sweepRad) > Math.PI;
  return {
    commands: [bent(run, vertexId, movedBy(middle, outwards, isMajor ? radius + apart : radius - apart))],
  };
};

/** Cuts an arc in two at a place on it: both parts stay on the same circle. */
export const arcCut = (
  run: Run,
  index: number,
  at: PaperPoint,
  id: VertexId,
): readonly SimpleCommand[] | null => {
  const vertex = run.frontLine[index];
  const straight = vertex && straightFrom(run, vertex.id);
  const bend = straight && bendOfStraight(straight);
  if (!vertex || !straight || !bend) return null;
  const cutShare = alongOf(straight, at) / lengthOf(straight);
  return [
    {
      type: 'insert-vertex',
      runId: run.id,
      index: index + 1,
      vertex: { id, at, treatment: null, through: asPaper(pointOnArc(bend, (1 + cutShare) / 2)) },
    },
    bent(run, vertex.id, pointOnArc(bend, cutShare / 2)),
  ];
};

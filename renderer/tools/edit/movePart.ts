import type { Command, SimpleCommand } from '../../../src/document/command.ts';
import type { Run } from '../../../src/document/projectDocument.ts';
import { intersectLines } from '../../../src/geometry/line.ts';
import { type PaperPoint, type Point, paperPoint } from '../../../src/geometry/point.ts';
import { type Vector, vectorBetween } from '../../../src/geometry/vector.ts';
import {
  alongOf,
  directionNear,
  footOnStraight,
  lengthOf,
  middleOfStraight,
  pointAlong,
  type StraightOnPaper,
  straightFrom,
} from '../footOnStraight.ts';
import { nearestStraight } from '../nearestStraight.ts';
import type { ToolContext } from '../tool.ts';
import { bendDragged } from './bends.ts';
import { type Part, selectedRunOf } from './part.ts';

const shifted = (point: Point, by: Vector): PaperPoint => paperPoint(point.x + by.x, point.y + by.y);

/** A pick that is less sure than the run's others makes the run less sure; a surer one can't speak for the others. */
const lessSure = (run: Run, uncertaintyPt: number): readonly SimpleCommand[] =>
  uncertaintyPt > run.pickUncertaintyPt
    ? [{ type: 'change-run', runId: run.id, changes: { pickUncertaintyPt: uncertaintyPt } }]
    : [];

const together = (label: string, commands: readonly SimpleCommand[]): Command | null => {
  const [first, ...more] = commands;
  if (!first) return null;
  return more.length === 0 ? first : { type: 'together', label, commands: [...commands] };
};

/** Both points of a straight, moved square to it; a neighbouring straight keeps its direction and gets longer or shorter. */
const straightMoved = (run: Run, index: number, by: Vector): readonly SimpleCommand[] => {
  const start = run.frontLine[index];
  const end = run.frontLine[index + 1];
  if (!start || !end) return [];
  const way = vectorBetween(start.at, end.at);
  const length = Math.hypot(way.x, way.y);
  const across = (by.y * way.x - by.x * way.y) / length;
  if (across === 0) return [];
  const shift = { x: (-way.y / length) * across, y: (way.x / length) * across };
  const from = shifted(start.at, shift);
  const moved = ([vertex, neighbour]: readonly [typeof start, typeof start | undefined]): SimpleCommand => {
    const onNeighbour =
      neighbour && intersectLines(from, way, neighbour.at, vectorBetween(neighbour.at, vertex.at));
    const to = onNeighbour ? paperPoint(onNeighbour.x, onNeighbour.y) : shifted(vertex.at, shift);
    return { type: 'move-vertex', runId: run.id, vertexId: vertex.id, to };
  };
  return [moved([start, run.frontLine[index - 1]]), moved([end, run.frontLine[index + 2]])];
};

/** A zone moved along its straight, as wide as it was; it stops at the straight's ends. */
const zoneMoved = (straight: StraightOnPaper, a: Point, b: Point, by: Vector) => {
  const whole = lengthOf(straight);
  const alongA = alongOf(straight, a);
  const alongB = alongOf(straight, b);
  // Along an arc it goes as its middle is drawn.
  const middle = pointAlong(straight, (alongA + alongB) / 2);
  const way = directionNear(straight, middle);
  const moved = straight.through
    ? alongOf(straight, shifted(middle, by)) - (alongA + alongB) / 2
    : by.x * way.x + by.y * way.y;
  const room = Math.max(0, whole - Math.max(alongA, alongB));
  const shift = Math.min(room, Math.max(-Math.max(0, Math.min(alongA, alongB)), moved));
  return { a: pointAlong(straight, alongA + shift), b: pointAlong(straight, alongB + shift) };
};

/**
 * The command that moves a part by a way on the paper: a point there; a straight square to itself; a zone or one of its
 * sides along its straight; a station along the front line, to another straight too. Null where nothing moves.
 *
 * @param uncertaintyPt how sure the place is that it goes to; 0 where it is not a pick
 */
export const movePart = (
  part: Part,
  by: Vector,
  uncertaintyPt: number,
  context: ToolContext,
): Command | null => {
  const run = selectedRunOf(context);
  if (!run || (by.x === 0 && by.y === 0)) return null;
  switch (part.kind) {
    case 'point': {
      const vertex = run.frontLine.find(({ id }) => id === part.vertexId);
      if (!vertex) return null;
      const to = shifted(vertex.at, by);
      return together('Move a point', [
        { type: 'move-vertex', runId: run.id, vertexId: vertex.id, to },
        ...lessSure(run, uncertaintyPt),
      ]);
    }
    case 'straight': {
      const index = run.frontLine.findIndex(({ id }) => id === part.vertexId);
      const moved = straightMoved(run, index, by);
      return together('Move a straight', moved.length ? [...moved, ...lessSure(run, uncertaintyPt)] : []);
    }
    case 'bend': {
      const straight = straightFrom(run, part.vertexId);
      if (!straight) return null;
      const to = shifted(middleOfStraight(straight), by);
      // Keys move it by the millimetre: they are not caught.
      const bent = bendDragged(run, part.vertexId, to, uncertaintyPt > 0 ? context.touchPt : 0);
      return bent && together('Bend a straight', [bent, ...lessSure(run, uncertaintyPt)]);
    }
    case 'zone':
    case 'zone-side': {
      const zone = context.document.zones[part.zoneId];
      const straight = zone && straightFrom(run, zone.vertexId);
      if (!zone || !straight) return null;
      const changes =
        part.kind === 'zone'
          ? zoneMoved(straight, zone.a, zone.b, by)
          : { [part.side]: footOnStraight(straight, shifted(zone[part.side], by)) };
      return { type: 'change-zone', zoneId: zone.id, changes };
    }
    case 'station': {
      const station = context.document.stations[part.stationId];
      const near =
        station && nearestStraight(context.document, context.sheetId, shifted(station.at, by), run.id);
      return near
        ? {
            type: 'change-station',
            stationId: station.id,
            changes: { vertexId: near.vertexId, at: near.at },
          }
        : null;
    }
  }
};

/** The command that moves the whole selected run by a way on the paper, with all that stands on it. */
export const moveRun = (by: Vector, context: ToolContext): Command | null => {
  const run = selectedRunOf(context);
  if (!run || (by.x === 0 && by.y === 0)) return null;
  return {
    type: 'move-vertices',
    runId: run.id,
    vertexIds: run.frontLine.map(({ id }) => id),
    by: { x: by.x, y: by.y },
  };
};

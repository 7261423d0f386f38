import { boxAround, grownBox } from '../geometry/box.ts';
import { projectOntoLine, type Segment } from '../geometry/line.ts';
import { type PaperPoint, type Point, paperPoint } from '../geometry/point.ts';
import { nearestOnPolyline, segmentsOf } from '../geometry/polyline.ts';
import { cross, distanceBetween, scaledBy, type Vector } from '../geometry/vector.ts';
import { type CounterBack, counterBack } from './counterBack.ts';
import { type BlockedStretch, blockedOn, type FollowedStretch } from './counterCuts.ts';
import { directionOf, lineAt } from './lineAt.ts';
import type { LineworkIndex } from './lineworkIndex.ts';
import { isSameStroke } from './strokeStyle.ts';
import { acrossGap, roundCorner, straightOn } from './walkLines.ts';

/** How the followed line stops. */
export type FollowedEnd = 'wall' | 'exposed';

/** A counter found by following one of its lines. Everything is an offer: the operator takes it or not. */
export interface FollowedCounter {
  /** Corners and ends of the line that was followed; fewer than two points where it leads nowhere. */
  readonly frontLine: readonly PaperPoint[];
  readonly ends: readonly [FollowedEnd, FollowedEnd];
  /** Null where no parallel line lies at a depth that counters have. */
  readonly back: CounterBack | null;
  /** Where the line stops and goes on straight behind a gap: a flap or a passage. */
  readonly gaps: readonly FollowedStretch[];
  readonly blocked: readonly BlockedStretch[];
}

export interface FollowOptions {
  /** Millimetres in the room in one user-space unit. */
  readonly mmPerUnit: number;
}

/** Depths of counters and lengths of passes, in mm (common practice, no source). */
const depthMm = { least: 250, most: 1200 } as const;
const gapMostMm = 1500;
/** A wall's face lies this near the end of a counter that stands against it, and shows this far to either side, in mm. */
const wallMm = { near: 30, beside: 60 } as const;
const mostStraights = 60;

/** Whether a line of another stroke goes across the end of a straight, to both sides of it: the face of a wall. */
const isAtWall = (
  index: LineworkIndex,
  like: number,
  place: Point,
  way: Vector,
  mmPerUnit: number,
): boolean => {
  const near = wallMm.near / mmPerUnit;
  const beside = wallMm.beside / mmPerUnit;
  const box = boxAround([place]);
  if (!box) return false;
  const { linework } = index;
  const across: Segment = { start: place, end: { x: place.x - way.y, y: place.y + way.x } };
  let [left, right] = [0, 0];
  for (const item of index.itemsIn(grownBox(box, near + beside))) {
    if (item >= linework.lineCount || isSameStroke(linework, like, item)) continue;
    const { start, end } = lineAt(linework, item);
    const [a, b] = [projectOntoLine(start, across), projectOntoLine(end, across)];
    // Within 20 degrees of square to the straight: offsets change little while it runs across.
    if (Math.abs(a.offset - b.offset) > 0.36 * Math.abs(a.along - b.along)) continue;
    const share = a.along === b.along ? 0 : (0 - a.along) / (b.along - a.along);
    const offsetHere = a.offset + (b.offset - a.offset) * Math.min(1, Math.max(0, share));
    if (Math.abs(offsetHere) > near) continue;
    left = Math.max(left, a.along, b.along);
    right = Math.max(right, -a.along, -b.along);
  }
  return left >= beside && right >= beside;
};

interface Walked {
  /** Corners in the order in which they were passed, then the end. */
  readonly points: readonly Point[];
  readonly gaps: readonly (readonly [Point, Point])[];
  readonly end: FollowedEnd;
  /** The walk came back to where it started. */
  readonly isRound: boolean;
}

/** Follows the line from one end of its first straight; `turnsToBack` is the sign of a turn towards the back. */
const walk = (
  index: LineworkIndex,
  line: number,
  first: { readonly from: Point; readonly way: Vector; readonly home: Point },
  back: CounterBack | null,
  turnsToBack: 1 | -1,
  mmPerUnit: number,
): Walked => {
  const points: Point[] = [];
  const gaps: (readonly [Point, Point])[] = [];
  let { from: place, way } = first;
  let last = line;
  const finish = (end: FollowedEnd, isRound = false): Walked => ({
    points: [...points, place],
    gaps,
    end,
    isRound,
  });
  for (let straights = 0; straights < mostStraights; straights += 1) {
    if (isAtWall(index, line, place, way, mmPerUnit)) return finish('wall');
    const corner = roundCorner(index, last, place, way);
    const turned = corner && directionOf({ start: corner.from, end: corner.to });
    const reached = corner && turned && straightOn(index, line, corner.to, turned).to;
    const isCap =
      corner &&
      turned &&
      reached &&
      back &&
      Math.sign(cross(way, turned)) === turnsToBack &&
      Math.abs(distanceBetween(corner.from, reached) - back.offset) <= 0.02 * back.offset;
    if (!corner || !turned || isCap) {
      const onward = acrossGap(index, line, place, way, gapMostMm / mmPerUnit);
      if (!onward) return finish('exposed');
      gaps.push([place, onward.from]);
      const { to, line: reachedBy } = straightOn(index, line, onward.to, way);
      place = to;
      last = reachedBy ?? onward.line;
      continue;
    }
    points.push(corner.from);
    const { to, line: reachedBy } = straightOn(index, line, corner.to, turned);
    place = to;
    last = reachedBy ?? corner.line;
    way = turned;
    if (distanceBetween(place, first.home) < 1e-6 || distanceBetween(corner.from, first.home) < 1e-6)
      return finish('exposed', true);
  }
  return finish('exposed');
};

const asPaper = ({ x, y }: Point): PaperPoint => paperPoint(x, y);

/**
 * Follows a line of the drawing as the front line of a counter: along lines of the same stroke, straight on and round
 * corners, over gaps such as a flap, to its ends. The parallel of the same stroke at a depth that counters have is its
 * back; a line across the end is a wall; dark bodies and recesses between front and back are blocked.
 *
 * @param line number of a straight line of the linework
 */
export const followLine = (index: LineworkIndex, line: number, options: FollowOptions): FollowedCounter => {
  const { linework } = index;
  const nothing: FollowedCounter = {
    frontLine: [],
    ends: ['exposed', 'exposed'],
    back: null,
    gaps: [],
    blocked: [],
  };
  if (line >= linework.lineCount) return nothing;
  const { mmPerUnit } = options;
  const picked = lineAt(linework, line);
  if (distanceBetween(picked.start, picked.end) === 0) return nothing;
  const way = directionOf(picked);
  const backwards = scaledBy(way, -1);
  const ahead = straightOn(index, line, picked.end, way);
  const behind = straightOn(index, line, picked.start, backwards);
  const straight: Segment = { start: behind.to, end: ahead.to };
  const depth = { least: depthMm.least / mmPerUnit, most: depthMm.most / mmPerUnit };
  const back = counterBack(index, line, straight, depth);
  const turnsToBack = back?.side === 'right' ? -1 : 1;
  const walkTo = (end: Point, by: number | null, direction: Vector, home: Point, sign: 1 | -1) =>
    walk(index, by ?? line, { from: end, way: direction, home }, back, sign, mmPerUnit);
  const forward = walkTo(straight.end, ahead.line, way, straight.start, turnsToBack);
  const backward = walkTo(straight.start, behind.line, backwards, straight.end, turnsToBack === 1 ? -1 : 1);
  // A line that only goes round and round has no front of its own: the picked straight is all there is to offer.
  const isRound = forward.isRound || backward.isRound;
  const frontLine = (
    isRound ? [straight.start, straight.end] : [...[...backward.points].reverse(), ...forward.points]
  ).map(asPaper);
  const gapPairs = isRound ? [] : [...backward.gaps.map(([a, b]) => [b, a] as const), ...forward.gaps];
  const gaps = gapPairs.map(([a, b]): FollowedStretch => {
    const middle = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
    return {
      straight: nearestOnPolyline(middle, frontLine)?.segmentIndex ?? 0,
      a: asPaper(a),
      b: asPaper(b),
    };
  });
  const blocked = back
    ? segmentsOf(frontLine).flatMap((segment, place) =>
        blockedOn(index, line, place, segment, back, mmPerUnit),
      )
    : [];
  return {
    frontLine,
    ends: isRound ? ['exposed', 'exposed'] : [backward.end, forward.end],
    back,
    gaps,
    blocked,
  };
};

import { boxAround, grownBox } from '../geometry/box.ts';
import { projectOntoLine, type Segment } from '../geometry/line.ts';
import { type PaperPoint, type Point, paperPoint } from '../geometry/point.ts';
import { nearestOnPolyline, segmentsOf } from '../geometry/polyline.ts';
import { cross, distanceBetween, dot, scaledBy, type Vector } from '../geometry/vector.ts';
import { type CounterBack, counterBack } from './counterBack.ts';
import { type BlockedStretch, blockedOn, type FollowedStretch } from './counterCuts.ts';
import { type FollowedArc, findArcs, type LineWithArcs } from './findArcs.ts';
import { directionOf, lineAt } from './lineAt.ts';
import type { LineworkIndex } from './lineworkIndex.ts';
import { isSameStroke } from './strokeStyle.ts';
import { acrossGap, bendAt, jointTolerance, roundBend, roundCorner, straightOn } from './walkLines.ts';

/** How the followed line stops. */
export type FollowedEnd = 'wall' | 'exposed';

/** A counter found by following one of its lines. Everything is an offer: the operator takes it or not. */
export interface FollowedCounter {
  /** Corners and ends of the line that was followed; fewer than two points where it leads nowhere. */
  readonly frontLine: readonly PaperPoint[];
  /** For each stretch of the front line: the point half-way along it where it is an arc, else undefined. */
  readonly bends: readonly (PaperPoint | undefined)[];
  readonly arcs: readonly FollowedArc[];
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
/** A line that turns more often than this outlines something else. */
const mostParts = 24;
/** Chords and straights that are looked at before arcs are found among them. */
const mostSteps = 200;
/** A gap that nobody can pass is one of a broken line, in mm (common practice, no source). */
const gapLeastMm = 300;
/** Cosine of 15 degrees: a curve that goes on so smoothly is taken before a corner. */
const smooth = 0.966;
/** Cosine of 40 degrees: no chord of an arc turns so far. */
const sharp = 0.766;

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

/**
 * Follows the line from one end of its first straight; `turnsToBack` is the sign of a turn towards the back. Line ends
 * that lie within a straight are put into `walkedOver`: they are points of the line only where it proves to be round.
 */
const walk = (
  index: LineworkIndex,
  line: number,
  first: {
    readonly from: Point;
    readonly way: Vector;
    readonly home: Point;
  },
  back: CounterBack | null,
  turnsToBack: 1 | -1,
  mmPerUnit: number,
  walkedOver: Set<Point>,
): Walked => {
  const points: Point[] = [];
  const gaps: (readonly [Point, Point])[] = [];
  let { from: place, way } = first;
  let last = line;
  /** A corner that was passed; line ends that are joined are one corner. */
  const pass = (corner: Point): void => {
    const before = points.at(-1);
    if (!before || distanceBetween(before, corner) > jointTolerance) points.push(corner);
  };
  const goOn = (from: Point, by: number): void => {
    const { to, line: reachedBy, passed } = straightOn(index, line, from, way);
    points.push(...passed);
    for (const one of passed) walkedOver.add(one);
    place = to;
    last = reachedBy ?? by;
  };
  const finish = (end: FollowedEnd, isRound = false): Walked => {
    const before = points.at(-1);
    const isPassed = before && distanceBetween(before, place) <= jointTolerance;
    return { points: [...(isPassed ? points.slice(0, -1) : points), place], gaps, end, isRound };
  };
  let sharpTurns = 0;
  const isHome = (here: Point): boolean => distanceBetween(here, first.home) < 1e-6;
  for (let straights = 0; straights < mostSteps; straights += 1) {
    if (isAtWall(index, line, place, way, mmPerUnit)) return finish('wall');
    const corner = roundCorner(index, last, place, way);
    const bend = roundBend(index, last, place, way);
    if (bend && (!corner || dot(way, bend.leaves) > smooth)) {
      pass(place);
      walkedOver.delete(place);
      const end = bend.points.at(-1) ?? place;
      points.push(...bend.points.slice(1));
      way = bend.arrives;
      goOn(end, bend.item);
      if (isHome(place) || isHome(end)) return finish('exposed', true);
      continue;
    }
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
      if (distanceBetween(place, onward.from) * mmPerUnit >= gapLeastMm) gaps.push([place, onward.from]);
      goOn(onward.to, onward.line);
      continue;
    }
    pass(corner.from);
    if (dot(way, turned) < sharp) sharpTurns += 1;
    if (sharpTurns > mostParts) return finish('exposed', true);
    way = turned;
    goOn(corner.to, corner.line);
    if (isHome(place) || isHome(corner.from)) return finish('exposed', true);
  }
  return finish('exposed');
};

/** A line without points that lie on the one before. */
const withoutTwins = (points: readonly Point[]): readonly Point[] =>
  points.filter((point, place) => place === 0 || distanceBetween(point, points[place - 1]!) > 1e-9);

const asPaper = ({ x, y }: Point): PaperPoint => paperPoint(x, y);

/** What is followed from: the picked straight as far as it goes, or the picked curve. */
interface Picked {
  readonly straight: Segment;
  readonly ahead: { readonly from: Point; readonly way: Vector; readonly by: number };
  readonly behind: { readonly from: Point; readonly way: Vector; readonly by: number };
  /** Points between the two ends; of these, the ones that a straight goes over. */
  readonly between: readonly Point[];
  readonly walkedOver: readonly Point[];
}

const pickedLine = (index: LineworkIndex, line: number): Picked | null => {
  const { linework } = index;
  if (line >= linework.lineCount) {
    const [bend, back] = [bendAt(linework, line, false), bendAt(linework, line, true)];
    const [start, end] = [bend?.points[0], bend?.points.at(-1)];
    if (!bend || !back || !start || !end) return null;
    const ahead = straightOn(index, line, end, bend.arrives);
    const behind = straightOn(index, line, start, back.arrives);
    return {
      straight: { start: behind.to, end: ahead.to },
      ahead: { from: ahead.to, way: bend.arrives, by: ahead.line ?? line },
      behind: { from: behind.to, way: back.arrives, by: behind.line ?? line },
      between: [...[...behind.passed].reverse(), ...bend.points, ...ahead.passed],
      walkedOver: [...behind.passed.slice(1), ...ahead.passed.slice(1)],
    };
  }
  const picked = lineAt(linework, line);
  if (distanceBetween(picked.start, picked.end) === 0) return null;
  const way = directionOf(picked);
  const backwards = scaledBy(way, -1);
  const ahead = straightOn(index, line, picked.end, way);
  const behind = straightOn(index, line, picked.start, backwards);
  return {
    straight: { start: behind.to, end: ahead.to },
    ahead: { from: ahead.to, way, by: ahead.line ?? line },
    behind: { from: behind.to, way: backwards, by: behind.line ?? line },
    between: [...[...behind.passed].reverse(), ...ahead.passed],
    walkedOver: [...behind.passed, ...ahead.passed],
  };
};

/**
 * Follows a line of the drawing as the front line of a counter: along lines and curves of the same stroke, straight on,
 * round corners and bends, over gaps such as a flap, to its ends. Chains of chords that lie on a circle become arcs. The
 * parallel of the same stroke at a depth that counters have is its back; a line across the end is a wall; dark bodies
 * and recesses between front and back are blocked.
 *
 * @param line number of a line of the linework, or (from `lineCount` on) of a curve
 */
export const followLine = (index: LineworkIndex, line: number, options: FollowOptions): FollowedCounter => {
  const { linework } = index;
  const picked = line < linework.lineCount + linework.curveCount ? pickedLine(index, line) : null;
  if (!picked)
    return {
      frontLine: [],
      bends: [],
      arcs: [],
      ends: ['exposed', 'exposed'],
      back: null,
      gaps: [],
      blocked: [],
    };
  const { mmPerUnit } = options;
  const { straight } = picked;
  const depth = { least: depthMm.least / mmPerUnit, most: depthMm.most / mmPerUnit };
  const isCurve = line >= linework.lineCount;
  const back = isCurve ? null : counterBack(index, line, straight, depth);
  const walkedOver = new Set<Point>(picked.walkedOver);
  const turnsToBack = back?.side === 'right' ? -1 : 1;
  const walkFrom = ({ from, way, by }: Picked['ahead'], home: Point, sign: 1 | -1) =>
    walk(index, by, { from, way, home }, back, sign, mmPerUnit, walkedOver);
  const forward = walkFrom(picked.ahead, straight.start, turnsToBack);
  const backward = walkFrom(picked.behind, straight.end, turnsToBack === 1 ? -1 : 1);
  const arcsOf = (line: readonly Point[]): LineWithArcs => findArcs(line, walkedOver);
  const own = [straight.start, ...picked.between, straight.end];
  const walked = arcsOf(
    withoutTwins([...[...backward.points].reverse(), ...picked.between, ...forward.points]),
  );
  // A line that only goes round and round, or from corner to corner, has no front of its own: the picked straight is all
  // there is to offer.
  const isOwn = forward.isRound || backward.isRound || walked.points.length - 1 > mostParts;
  const { points, arcs } = isOwn ? arcsOf(own) : walked;
  const frontLine = points.map(asPaper);
  const gapPairs = isOwn ? [] : [...backward.gaps.map(([a, b]) => [b, a] as const), ...forward.gaps];
  const gaps = gapPairs.map(([a, b]): FollowedStretch => {
    const middle = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
    return {
      straight: nearestOnPolyline(middle, frontLine)?.segmentIndex ?? 0,
      a: asPaper(a),
      b: asPaper(b),
    };
  });
  const bends = frontLine.slice(1).map((_, place): PaperPoint | undefined => {
    const arc = arcs.find(({ straight: at }) => at === place);
    return arc && asPaper(arc.through);
  });
  const blocked = back
    ? segmentsOf(frontLine).flatMap((segment, place) =>
        bends[place] ? [] : blockedOn(index, line, place, segment, back, mmPerUnit),
      )
    : [];
  return {
    frontLine,
    bends,
    arcs,
    ends: isOwn ? ['exposed', 'exposed'] : [backward.end, forward.end],
    back,
    gaps,
    blocked,
  };
};

import { boxBetween, grownBox } from '../geometry/box.ts';
import type { Point } from '../geometry/point.ts';
import {
  cross,
  distanceBetween,
  dot,
  movedBy,
  unitVector,
  type Vector,
  vectorBetween,
} from '../geometry/vector.ts';
import { cubicAt, cubicOf } from './cubic.ts';
import { lineAt } from './lineAt.ts';
import type { Linework } from './linework.ts';
import type { LineworkIndex } from './lineworkIndex.ts';
import { isSameStroke, pathOf } from './strokeStyle.ts';

/**
 * How near two line ends must be to be joined, in points of paper: corners of CAD plots miss one another by rounding, a
 * pen's width at most.
 */
export const jointTolerance = 0.25;

/** Sine of half a degree: lines within it go the same way. */
const sameWay = 0.0087;

/** A line that goes on from a place. */
export interface Onward {
  readonly line: number;
  /** Where it starts from, near the place that was asked for. */
  readonly from: Point;
  readonly to: Point;
}

const likeLines = (index: LineworkIndex, like: number, from: Point, to: Point): readonly number[] =>
  index
    .itemsIn(grownBox(boxBetween(from, to), jointTolerance))
    .filter((item) => item < index.linework.lineCount && isSameStroke(index.linework, like, item));

/** A line as seen by a walker at a place going one way: where its near and its far end are; null where it goes another way. */
const inLine = (index: LineworkIndex, line: number, place: Point, way: Vector) => {
  const { start, end } = lineAt(index.linework, line);
  const [a, b] = [vectorBetween(place, start), vectorBetween(place, end)];
  if (Math.abs(cross(way, a)) > jointTolerance || Math.abs(cross(way, b)) > jointTolerance) return null;
  const length = distanceBetween(start, end);
  if (length === 0 || Math.abs(cross(way, vectorBetween(start, end))) > sameWay * length) return null;
  const [alongA, alongB] = [dot(way, a), dot(way, b)];
  return alongA < alongB
    ? { near: alongA, far: alongB, from: start, to: end }
    : { near: alongB, far: alongA, from: end, to: start };
};

/** How far lines go on straight. */
export interface Straight {
  readonly to: Point;
  /** The last line of it; null where it goes nowhere. */
  readonly line: number | null;
  /** Line ends that were passed, the place that it started from among them; none where it goes nowhere. */
  readonly passed: readonly Point[];
}

/** The farthest place that lines of the same stroke reach from a place, going on straight without a gap. */
export const straightOn = (index: LineworkIndex, like: number, place: Point, way: Vector): Straight => {
  let at = place;
  let last: number | null = null;
  const passed: Point[] = [];
  // Each round reaches farther, so that it ends; the number of rounds is a guard against broken numbers.
  for (let round = 0; round < 1000; round += 1) {
    let best: { readonly far: number; readonly to: Point; readonly line: number } | null = null;
    for (const line of likeLines(index, like, at, at)) {
      const seen = inLine(index, line, at, way);
      if (!seen || seen.near > jointTolerance || seen.far <= jointTolerance) continue;
      if (!best || seen.far > best.far) best = { far: seen.far, to: seen.to, line };
    }
    if (!best) break;
    passed.push(at);
    at = best.to;
    last = best.line;
  }
  return { to: at, line: last, passed };
};

/** The nearest line of the same stroke that goes on straight behind a gap of at most `most`. */
export const acrossGap = (
  index: LineworkIndex,
  like: number,
  place: Point,
  way: Vector,
  most: number,
): Onward | null => {
  let best: (Onward & { readonly near: number }) | null = null;
  for (const line of likeLines(index, like, place, movedBy(place, way, most))) {
    const seen = inLine(index, line, place, way);
    if (!seen || seen.near <= jointTolerance || seen.near > most) continue;
    if (!best || seen.near < best.near) best = { line, from: seen.from, to: seen.to, near: seen.near };
  }
  return best;
};

/**
 * The line of the same stroke that turns off where a straight ends; null where none does, and where several do and none
 * of them belongs to the same drawn path: then the drawing does not say which.
 */
export const roundCorner = (index: LineworkIndex, last: number, place: Point, way: Vector): Onward | null => {
  const { linework } = index;
  const found: (Onward & { readonly way: Vector })[] = [];
  for (const line of likeLines(index, last, place, place)) {
    const { start, end } = lineAt(linework, line);
    const isStart = distanceBetween(start, place) <= jointTolerance;
    if (!isStart && distanceBetween(end, place) > jointTolerance) continue;
    const [from, to] = isStart ? [start, end] : [end, start];
    const length = distanceBetween(from, to);
    if (length <= jointTolerance) continue;
    const turned = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
    if (Math.abs(cross(way, turned)) > sameWay) found.push({ line, from, to, way: turned });
  }
  const samePath = found.filter(({ line }) => pathOf(linework, line) === pathOf(linework, last));
  for (const offered of [samePath, found]) {
    const [first, ...others] = offered;
    if (first && others.every((other) => dot(first.way, other.way) > 1 - sameWay))
      return others.reduce(
        (longest: Onward, other) =>
          distanceBetween(other.from, other.to) > distanceBetween(longest.from, longest.to) ? other : longest,
        first,
      );
  }
  return null;
};

/** A curve that goes on from a place, as points along it. */
export interface Bend {
  readonly item: number;
  readonly points: readonly Point[];
  /** The way it leaves the place, and the way it arrives. */
  readonly leaves: Vector;
  readonly arrives: Vector;
}

/** A curve is looked at in so many chords. */
const chordsOfCurve = 8;

/** A curve of the linework (from `lineCount` on) as points along it; null for one of no length. */
export const bendAt = (linework: Linework, item: number, isBackwards: boolean): Bend | null => {
  const curve = cubicOf(linework.curves, item - linework.lineCount);
  const points = Array.from({ length: chordsOfCurve + 1 }, (_, place): Point => {
    const [x, y] = cubicAt(curve, place / chordsOfCurve);
    return { x, y };
  });
  if (isBackwards) points.reverse();
  const handles = [0, 2, 4, 6].map((place): Point => ({ x: curve[place]!, y: curve[place + 1]! }));
  if (isBackwards) handles.reverse();
  const [start, end] = [handles[0]!, handles[3]!];
  const leaves = unitVector(
    vectorBetween(start, handles.find((handle) => distanceBetween(start, handle) > 0) ?? start),
  );
  const last = handles.findLast((handle) => distanceBetween(end, handle) > 0) ?? end;
  const arrives = unitVector(vectorBetween(last, end));
  return leaves && arrives ? { item, points, leaves, arrives } : null;
};

/**
 * The curve of the same stroke that goes on where a line ends, the smoothest where there are several; null where none
 * does.
 */
export const roundBend = (index: LineworkIndex, last: number, place: Point, way: Vector): Bend | null => {
  const { linework } = index;
  let best: Bend | null = null;
  for (const item of index.itemsIn(grownBox(boxBetween(place, place), jointTolerance))) {
    if (item < linework.lineCount || item === last || !isSameStroke(linework, last, item)) continue;
    const { curves } = linework;
    const at = (item - linework.lineCount) * 8;
    for (const isBackwards of [false, true]) {
      const start = { x: curves[at + (isBackwards ? 6 : 0)]!, y: curves[at + (isBackwards ? 7 : 1)]! };
      if (distanceBetween(start, place) > jointTolerance) continue;
      const bend = bendAt(linework, item, isBackwards);
      if (!bend) continue;
      if (!best || dot(way, bend.leaves) > dot(way, best.leaves)) best = bend;
    }
  }
  return best;
};

import type { Box } from '../../geometry/box.ts';
import type { Point } from '../../geometry/point.ts';
import { cubicAt, cubicOf } from '../../sheet/cubic.ts';
import { type Linework, PATH_FLAG } from '../../sheet/linework.ts';

/** The plan's own lines near the runs, in mm of the room. */
export interface ArchitectLines {
  readonly polylines: readonly (readonly Point[])[];
  /** Short lines left out so that the file stays small. */
  readonly leftOut: number;
}

/** Lines taken along around the runs, mm of the room. */
export const architectReachMm = 3000;
const mostLines = 20_000;
const curveSteps = 8;
const white = 0xffffff;

/** The part of a line within a box (Liang and Barsky, 1984); null where none is. */
export const lineWithin = (from: Point, to: Point, box: Box): readonly [Point, Point] | null => {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  let [enter, leave] = [0, 1];
  for (const [step, room] of [
    [-dx, from.x - box.minX],
    [dx, box.maxX - from.x],
    [-dy, from.y - box.minY],
    [dy, box.maxY - from.y],
  ] as const) {
    if (step === 0) {
      if (room < 0) return null;
      continue;
    }
    const at = room / step;
    if (step < 0) enter = Math.max(enter, at);
    else leave = Math.min(leave, at);
  }
  if (!(enter < leave)) return null;
  const place = (at: number): Point =>
    at === 0 ? from : at === 1 ? to : { x: from.x + dx * at, y: from.y + dy * at };
  return [place(enter), place(leave)];
};

interface Piece {
  readonly path: number;
  readonly from: Point;
  readonly to: Point;
  readonly lengthMm: number;
}

const isSeen = ({ pathFlags, pathStroke, pathFill }: Linework, path: number): boolean => {
  const flags = pathFlags[path] ?? 0;
  const stroked = (flags & PATH_FLAG.stroked) !== 0 && pathStroke[path] !== white;
  const filled = (flags & PATH_FLAG.filled) !== 0 && pathFill[path] !== white;
  return stroked || filled;
};

/** Lines that follow one another within a path, as polylines. */
const joined = (pieces: readonly Piece[]): readonly (readonly Point[])[] => {
  const found: Point[][] = [];
  let last: { readonly path: number; readonly to: Point } | null = null;
  for (const { path, from, to } of pieces) {
    const goesOn = last !== null && last.path === path && last.to.x === from.x && last.to.y === from.y;
    if (goesOn) found.at(-1)?.push(to);
    else found.push([from, to]);
    last = { path, to };
  }
  return found;
};

/**
 * The lines of a plan within a box of the room, cut off at it; curves as short chords. White ones, which nobody sees, are
 * not taken; of too many, the shortest are left out and counted.
 */
export const architectLines = (
  linework: Linework,
  toRoom: (paperPoint: Point) => Point,
  box: Box,
  most = mostLines,
): ArchitectLines => {
  const pieces: Piece[] = [];
  const add = (path: number, one: Point, other: Point): void => {
    const within = lineWithin(one, other, box);
    if (!within) return;
    const [from, to] = within;
    const lengthMm = Math.hypot(to.x - from.x, to.y - from.y);
    if (lengthMm > 0.1) pieces.push({ path, from, to, lengthMm });
  };
  const { lines, curves, linePath, curvePath } = linework;
  const pointOf = (list: Float64Array, at: number): Point =>
    toRoom({ x: list[at] ?? 0, y: list[at + 1] ?? 0 });
  for (let line = 0; line < linework.lineCount; line += 1) {
    const path = linePath[line] ?? 0;
    if (isSeen(linework, path)) add(path, pointOf(lines, line * 4), pointOf(lines, line * 4 + 2));
  }
  for (let curve = 0; curve < linework.curveCount; curve += 1) {
    const path = curvePath[curve] ?? 0;
    if (!isSeen(linework, path)) continue;
    const cubic = cubicOf(curves, curve);
    const points = Array.from({ length: curveSteps + 1 }, (_, step) => {
      const [x, y] = cubicAt(cubic, step / curveSteps);
      return toRoom({ x, y });
    });
    for (const [index, to] of points.slice(1).entries()) add(path, points[index]!, to);
  }
  if (pieces.length <= most) return { polylines: joined(pieces), leftOut: 0 };
  const order = pieces
    .map(({ lengthMm }, index) => ({ lengthMm, index }))
    .toSorted((one, other) => other.lengthMm - one.lengthMm || one.index - other.index);
  const kept = new Set(order.slice(0, most).map(({ index }) => index));
  return {
    polylines: joined(pieces.filter((_, index) => kept.has(index))),
    leftOut: pieces.length - kept.size,
  };
};

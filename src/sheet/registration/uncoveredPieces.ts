import Flatbush from 'flatbush';
import type { LinePieces } from './linePieces.ts';

/** A part of a line that no line of the other sheet covers. */
export interface LoosePart {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  /** The line or curve of its own linework. */
  readonly item: number;
}

/** A long slanting line has a box that holds much of the sheet: it is looked at in parts of this length, in points. */
const PART_PT = 48;

/** Lines looked at around one part: a smudge of more covers what it covers with these. */
const MOST_NEAR = 600;

/**
 * The parts of `pieces` that no piece of `others` runs along within `tolerance`; shorter than twice the tolerance they
 * are not told. Both in the same space. The work is bounded by the number of pieces and their length.
 */
export const uncoveredPieces = (pieces: LinePieces, others: LinePieces, tolerance: number): LoosePart[] => {
  const tree = treeOf(others);
  const hasTwin = twinFinder(others, tolerance);
  const loose: LoosePart[] = [];
  const covered: [number, number][] = [];
  for (let i = 0; i < pieces.count; i++) {
    const [x0, y0, x1, y1] = endsOf(pieces.ends, i);
    const length = Math.sqrt((x1 - x0) ** 2 + (y1 - y0) ** 2);
    if (!(length > 0) || hasTwin(x0, y0, x1, y1)) continue;
    const [ux, uy] = [(x1 - x0) / length, (y1 - y0) / length];
    covered.length = 0;
    let [isCovered, looked] = [false, 0];
    const slant = Math.min(Math.abs(x1 - x0), Math.abs(y1 - y0));
    const parts = Math.min(200, Math.max(1, Math.ceil(slant / PART_PT)));
    for (let part = 0; part < parts && tree; part++) {
      const [fromX, fromY] = [x0 + ((x1 - x0) * part) / parts, y0 + ((y1 - y0) * part) / parts];
      const [toX, toY] = [x0 + ((x1 - x0) * (part + 1)) / parts, y0 + ((y1 - y0) * (part + 1)) / parts];
      if (isCovered) break;
      looked = 0;
      tree.search(
        Math.min(fromX, toX) - tolerance,
        Math.min(fromY, toY) - tolerance,
        Math.max(fromX, toX) + tolerance,
        Math.max(fromY, toY) + tolerance,
        (other) => {
          if (isCovered || looked++ > MOST_NEAR) return false;
          const span = spanAlong(others.ends, other, x0, y0, ux, uy, length, tolerance);
          if (span) covered.push(span);
          isCovered = span !== null && span[0] <= 0 && span[1] >= length;
          return false;
        },
      );
    }
    let from = 0;
    covered.sort((p, q) => p[0] - q[0]);
    const tell = (to: number): void => {
      const isWhole = from === 0 && to === length;
      if (to - from <= 2 * tolerance && !isWhole) return;
      loose.push({
        x0: x0 + ux * from,
        y0: y0 + uy * from,
        x1: x0 + ux * to,
        y1: y0 + uy * to,
        item: pieces.item[i]!,
      });
    };
    for (const [start, end] of covered) {
      if (start > from) tell(start);
      from = Math.max(from, end);
    }
    if (from < length) tell(length);
  }
  return loose;
};

/**
 * Whether another piece has both its ends where this one has: most lines of a revision do, and need no search. By the
 * squares that the ends lie in; a twin across the edge of a square is missed and found by the search.
 */
const twinFinder = (
  { count, ends }: LinePieces,
  tolerance: number,
): ((x0: number, y0: number, x1: number, y1: number) => boolean) => {
  let slots = 16;
  while (slots < 2 * count) slots *= 2;
  const first = new Int32Array(slots).fill(-1);
  const after = new Int32Array(count);
  const slotOf = (x0: number, y0: number, x1: number, y1: number): number => {
    const mixed =
      Math.imul(Math.round(x0 / tolerance), 0x9e3779b1) ^
      Math.imul(Math.round(y0 / tolerance), 0x85ebca6b) ^
      Math.imul(Math.round(x1 / tolerance), 0xc2b2ae35) ^
      Math.imul(Math.round(y1 / tolerance), 0x27d4eb2f);
    return (mixed ^ (mixed >>> 15)) & (slots - 1);
  };
  for (let i = 0; i < count; i++) {
    const slot = slotOf(ends[i * 4]!, ends[i * 4 + 1]!, ends[i * 4 + 2]!, ends[i * 4 + 3]!);
    after[i] = first[slot]!;
    first[slot] = i;
  }
  const isIn = (x0: number, y0: number, x1: number, y1: number): boolean => {
    for (let i = first[slotOf(x0, y0, x1, y1)]!; i >= 0; i = after[i]!) {
      const from = (ends[i * 4]! - x0) ** 2 + (ends[i * 4 + 1]! - y0) ** 2;
      const to = (ends[i * 4 + 2]! - x1) ** 2 + (ends[i * 4 + 3]! - y1) ** 2;
      if (Math.max(from, to) <= tolerance * tolerance) return true;
    }
    return false;
  };
  return (x0, y0, x1, y1) => isIn(x0, y0, x1, y1) || isIn(x1, y1, x0, y0);
};

const treeOf = ({ count, ends }: LinePieces): Flatbush | null => {
  if (count === 0) return null;
  const tree = new Flatbush(count);
  for (let i = 0; i < count; i++) {
    const [x0, y0, x1, y1] = endsOf(ends, i);
    tree.add(Math.min(x0, x1), Math.min(y0, y1), Math.max(x0, x1), Math.max(y0, y1));
  }
  tree.finish();
  return tree;
};

const endsOf = (ends: Float64Array, i: number): readonly [number, number, number, number] => [
  ends[i * 4]!,
  ends[i * 4 + 1]!,
  ends[i * 4 + 2]!,
  ends[i * 4 + 3]!,
];

/** Where along a line another runs within the tolerance of it: from and to, or null. */
const spanAlong = (
  ends: Float64Array,
  other: number,
  x0: number,
  y0: number,
  ux: number,
  uy: number,
  length: number,
  tolerance: number,
): [number, number] | null => {
  const [ax, ay] = [ends[other * 4]! - x0, ends[other * 4 + 1]! - y0];
  const [bx, by] = [ends[other * 4 + 2]! - x0, ends[other * 4 + 3]! - y0];
  let [s0, t0] = [ux * ax + uy * ay, ux * ay - uy * ax];
  let [s1, t1] = [ux * bx + uy * by, ux * by - uy * bx];
  if (s0 > s1) [s0, t0, s1, t1] = [s1, t1, s0, t0];
  // A line that crosses is near only for a moment; one that runs along leans by less than a sixth.
  if (Math.abs(t1 - t0) > Math.max(0.17 * (s1 - s0), s1 - s0 < 2 * tolerance ? tolerance : 0)) return null;
  if (s1 - s0 < 1e-9) {
    return Math.abs(t0) <= tolerance ? [s0 - tolerance, s0 + tolerance] : null;
  }
  // Cut to where the distance is within the tolerance.
  const slope = (t1 - t0) / (s1 - s0);
  let [from, to] = [s0, s1];
  if (Math.abs(slope) < 1e-12) {
    if (Math.abs(t0) > tolerance) return null;
  } else {
    const [p, q] = [s0 + (-tolerance - t0) / slope, s0 + (tolerance - t0) / slope];
    from = Math.max(from, Math.min(p, q));
    to = Math.min(to, Math.max(p, q));
    if (from > to) return null;
  }
  // Ends may miss by the tolerance as well.
  from -= tolerance;
  to += tolerance;
  return to < 0 || from > length ? null : [Math.max(0, from), Math.min(length, to)];
};

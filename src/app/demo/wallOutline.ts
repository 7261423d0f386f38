import type { XY } from './planPen.ts';

/** A rectangle with sides along the axes, in room millimetres. */
export interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

export type Segment = readonly [from: XY, to: XY];

const sortedUnique = (values: readonly number[]): readonly number[] =>
  [...new Set(values)].sort((a, b) => a - b);

/** Joins intervals on one line that touch. Mutates nothing. */
const joined = (
  intervals: readonly (readonly [number, number])[],
): readonly (readonly [number, number])[] => {
  const result: [number, number][] = [];
  for (const [from, to] of [...intervals].sort((a, b) => a[0] - b[0])) {
    const last = result[result.length - 1];
    if (last !== undefined && from <= last[1] + 1e-9) last[1] = Math.max(last[1], to);
    else result.push([from, to]);
  }
  return result;
};

/**
 * The outline of the union of boxes, as the longest straight segments, so that walls that meet draw no line between
 * them. Cells of the grid of all box edges are either wall or not; a segment lies where the two meet.
 */
export const wallOutline = (boxes: readonly Box[]): readonly Segment[] => {
  const xs = sortedUnique(boxes.flatMap((box) => [box.x0, box.x1]));
  const ys = sortedUnique(boxes.flatMap((box) => [box.y0, box.y1]));
  const isWall = (column: number, row: number): boolean => {
    if (column < 0 || row < 0 || column >= xs.length - 1 || row >= ys.length - 1) return false;
    const x = (xs[column]! + xs[column + 1]!) / 2;
    const y = (ys[row]! + ys[row + 1]!) / 2;
    return boxes.some((box) => x > box.x0 && x < box.x1 && y > box.y0 && y < box.y1);
  };
  const segments: Segment[] = [];
  for (const [row, y] of ys.entries()) {
    const edges: [number, number][] = [];
    for (let column = 0; column < xs.length - 1; column += 1)
      if (isWall(column, row - 1) !== isWall(column, row)) edges.push([xs[column]!, xs[column + 1]!]);
    for (const [from, to] of joined(edges))
      segments.push([
        [from, y],
        [to, y],
      ]);
  }
  for (const [column, x] of xs.entries()) {
    const edges: [number, number][] = [];
    for (let row = 0; row < ys.length - 1; row += 1)
      if (isWall(column - 1, row) !== isWall(column, row)) edges.push([ys[row]!, ys[row + 1]!]);
    for (const [from, to] of joined(edges))
      segments.push([
        [x, from],
        [x, to],
      ]);
  }
  return segments;
};

/**
 * Parallel hatching at 45 degrees over the union of boxes, `spacing` apart, each line as long as the wall it crosses.
 * A line has x - y constant; on it a box covers the interval of x where both x and y = x - offset lie inside.
 */
export const wallHatching = (boxes: readonly Box[], spacing: number): readonly Segment[] => {
  const step = spacing * Math.SQRT2;
  const lowest = Math.min(...boxes.map((box) => box.x0 - box.y1));
  const highest = Math.max(...boxes.map((box) => box.x1 - box.y0));
  const segments: Segment[] = [];
  for (let index = Math.ceil(lowest / step); index * step < highest; index += 1) {
    const offset = index * step;
    const covered: [number, number][] = [];
    for (const box of boxes) {
      const from = Math.max(box.x0, box.y0 + offset);
      const to = Math.min(box.x1, box.y1 + offset);
      if (to - from > 1) covered.push([from, to]);
    }
    for (const [from, to] of joined(covered))
      segments.push([
        [from, from - offset],
        [to, to - offset],
      ]);
  }
  return segments;
};

import Flatbush from 'flatbush';
import type { Box } from '../geometry/box.ts';
import { findSnaps, type SnapCandidate } from './findSnaps.ts';
import type { Linework } from './linework.ts';
import { buildLineworkTree } from './lineworkTree.ts';

export type { SnapCandidate, SnapKind } from './findSnaps.ts';

/** A line that runs beside another. */
export interface ParallelLine {
  readonly line: number;
  /** Signed: positive on the left of the first line's direction. In user-space units. */
  readonly offset: number;
}

export interface LineworkIndex {
  readonly linework: Linework;
  /** Lines and curves whose boxes touch a box: below lineCount a line, from there on curves. */
  itemsIn(box: Box): number[];
  /** Places to snap to within `radius` user-space units of a point, best first. */
  snapCandidates(point: { readonly x: number; readonly y: number }, radius: number): SnapCandidate[];
  /** Lines parallel to a line within `angleTolerance`, beside it and within `reach`, nearest first. */
  parallelLines(line: number, reach: number, angleTolerance?: number): ParallelLine[];
}

/**
 * Indexes linework by flatbush, a packed Hilbert R-tree.
 *
 * @param treeData the tree that `buildLineworkTree` made of this very linework, perhaps in another thread
 * @example createLineworkIndex(linework).snapCandidates({ x: 100, y: 200 }, 5)[0]?.kind // 'end'
 */
export const createLineworkIndex = (
  linework: Linework,
  treeData: ArrayBuffer | null = buildLineworkTree(linework),
): LineworkIndex => {
  const tree = treeData && Flatbush.from(treeData);
  const itemsIn = ({ minX, minY, maxX, maxY }: Box): number[] => tree?.search(minX, minY, maxX, maxY) ?? [];
  return {
    linework,
    itemsIn,
    snapCandidates: (point, radius) => {
      const { x, y } = point;
      const items = itemsIn({ minX: x - radius, minY: y - radius, maxX: x + radius, maxY: y + radius });
      return findSnaps(linework, items, x, y, radius);
    },
    parallelLines: (line, reach, angleTolerance = 0.01) =>
      findParallels(linework, itemsIn, line, reach, angleTolerance),
  };
};

const findParallels = (
  { lines, lineCount }: Linework,
  itemsIn: (box: Box) => number[],
  line: number,
  reach: number,
  angleTolerance: number,
): ParallelLine[] => {
  const x0 = lines[line * 4]!;
  const y0 = lines[line * 4 + 1]!;
  const x1 = lines[line * 4 + 2]!;
  const y1 = lines[line * 4 + 3]!;
  const length = Math.hypot(x1 - x0, y1 - y0);
  const ux = (x1 - x0) / length;
  const uy = (y1 - y0) / length;
  const box: Box = {
    minX: Math.min(x0, x1) - reach,
    minY: Math.min(y0, y1) - reach,
    maxX: Math.max(x0, x1) + reach,
    maxY: Math.max(y0, y1) + reach,
  };
  const found: ParallelLine[] = [];
  for (const item of itemsIn(box)) {
    if (item >= lineCount || item === line) continue;
    const ax = lines[item * 4]! - x0;
    const ay = lines[item * 4 + 1]! - y0;
    const bx = lines[item * 4 + 2]! - x0;
    const by = lines[item * 4 + 3]! - y0;
    const otherLength = Math.hypot(bx - ax, by - ay);
    const sine = Math.abs(ux * (by - ay) - uy * (bx - ax)) / otherLength;
    if (!(sine <= angleTolerance)) continue;
    const from = Math.min(ux * ax + uy * ay, ux * bx + uy * by);
    const to = Math.max(ux * ax + uy * ay, ux * bx + uy * by);
    if (to <= 0 || from >= length) continue;
    const offset = (ux * ay - uy * ax + (ux * by - uy * bx)) / 2;
    if (Math.abs(offset) <= reach) found.push({ line: item, offset });
  }
  return found.sort((a, b) => Math.abs(a.offset) - Math.abs(b.offset));
};

import Flatbush from 'flatbush';
import type { Box } from '../geometry/box.ts';
import { type PaperPoint, paperPoint } from '../geometry/point.ts';
import { type Cubic, cubicAt } from './cubic.ts';
import type { Linework } from './linework.ts';
import { nearestOnCubic } from './nearestOnCubic.ts';

/** What a snap holds on to. */
export type SnapKind = 'end' | 'crossing' | 'middle' | 'on-line';

export interface SnapCandidate {
  readonly kind: SnapKind;
  readonly point: PaperPoint;
  /** From the asked point, in user-space units. */
  readonly distance: number;
  /** The lines or curves it lies on: below lineCount a line, from there on curves. */
  readonly items: readonly number[];
}

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

/** More items than this around one point are a hatch or a smudge: only the nearest are looked at for crossings. */
const MOST_ITEMS = 40;

/** Ends, crossings and middles closer together than this are one place. In user-space units. */
const SAME_PLACE = 1e-3;

/** A point mark is preferred to the bare line unless it is this share of the radius farther away. */
const KIND_BIAS: Readonly<Record<SnapKind, number>> = { end: 0, crossing: 0.05, middle: 0.35, 'on-line': 1 };

/**
 * Indexes linework by flatbush, a packed Hilbert R-tree.
 *
 * @example createLineworkIndex(linework).snapCandidates({ x: 100, y: 200 }, 5)[0]?.kind // 'end'
 */
export const createLineworkIndex = (linework: Linework): LineworkIndex => {
  const { lines, lineCount, curves, curveCount } = linework;
  const itemCount = lineCount + curveCount;
  const tree = itemCount > 0 ? new Flatbush(itemCount) : null;
  if (tree) {
    for (let i = 0; i < lineCount * 4; i += 4) {
      const x0 = lines[i]!;
      const y0 = lines[i + 1]!;
      const x1 = lines[i + 2]!;
      const y1 = lines[i + 3]!;
      tree.add(Math.min(x0, x1), Math.min(y0, y1), Math.max(x0, x1), Math.max(y0, y1));
    }
    for (let i = 0; i < curveCount * 8; i += 8) {
      const x0 = curves[i]!;
      const x1 = curves[i + 2]!;
      const x2 = curves[i + 4]!;
      const x3 = curves[i + 6]!;
      const y0 = curves[i + 1]!;
      const y1 = curves[i + 3]!;
      const y2 = curves[i + 5]!;
      const y3 = curves[i + 7]!;
      tree.add(
        Math.min(x0, x1, x2, x3),
        Math.min(y0, y1, y2, y3),
        Math.max(x0, x1, x2, x3),
        Math.max(y0, y1, y2, y3),
      );
    }
    tree.finish();
  }
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

interface NearItem {
  readonly item: number;
  readonly x: number;
  readonly y: number;
  readonly distance: number;
}

const findSnaps = (
  linework: Linework,
  items: readonly number[],
  x: number,
  y: number,
  radius: number,
): SnapCandidate[] => {
  const near = nearestItems(linework, items, x, y, radius);
  const found: SnapCandidate[] = [];
  const add = (kind: SnapKind, px: number, py: number, on: readonly number[]): void => {
    const distance = Math.hypot(px - x, py - y);
    if (!(distance <= radius)) return;
    for (const other of found) {
      const isSame = Math.abs(other.point.x - px) < SAME_PLACE && Math.abs(other.point.y - py) < SAME_PLACE;
      if (isSame && other.kind !== 'on-line') return;
    }
    found.push({ kind, point: paperPoint(px, py), distance, items: on });
  };
  for (const { item } of near) {
    const { x0, y0, x1, y1 } = endsOf(linework, item);
    add('end', x0, y0, [item]);
    add('end', x1, y1, [item]);
  }
  addCrossings(linework, near, add);
  for (const { item } of near) {
    const [mx, my] = middleOf(linework, item);
    add('middle', mx, my, [item]);
  }
  const closest = near[0];
  if (closest) add('on-line', closest.x, closest.y, [closest.item]);
  const cost = ({ kind, distance }: SnapCandidate): number => distance + KIND_BIAS[kind] * radius;
  return found.sort((a, b) => cost(a) - cost(b));
};

const nearestItems = (
  linework: Linework,
  items: readonly number[],
  x: number,
  y: number,
  radius: number,
): readonly NearItem[] => {
  const { lines, lineCount } = linework;
  const near: NearItem[] = [];
  let limit = radius;
  for (const item of items) {
    let px: number;
    let py: number;
    if (item < lineCount) {
      const i = item * 4;
      const x0 = lines[i]!;
      const y0 = lines[i + 1]!;
      const dx = lines[i + 2]! - x0;
      const dy = lines[i + 3]! - y0;
      const t = Math.min(1, Math.max(0, ((x - x0) * dx + (y - y0) * dy) / (dx * dx + dy * dy)));
      px = x0 + t * dx;
      py = y0 + t * dy;
    } else {
      [px, py] = nearestOnCubic(curveOf(linework, item), x, y);
    }
    const distance = Math.hypot(px - x, py - y);
    if (distance > limit) continue;
    near.push({ item, x: px, y: py, distance });
    if (near.length >= MOST_ITEMS * 4) {
      near.sort((a, b) => a.distance - b.distance);
      near.length = MOST_ITEMS;
      limit = near[MOST_ITEMS - 1]!.distance;
    }
  }
  near.sort((a, b) => a.distance - b.distance);
  return near.slice(0, MOST_ITEMS);
};

const addCrossings = (
  linework: Linework,
  near: readonly NearItem[],
  add: (kind: SnapKind, x: number, y: number, items: readonly number[]) => void,
): void => {
  const { lines, lineCount } = linework;
  for (let i = 0; i < near.length; i++) {
    const first = near[i]!.item;
    if (first >= lineCount) continue;
    const ax = lines[first * 4]!;
    const ay = lines[first * 4 + 1]!;
    const adx = lines[first * 4 + 2]! - ax;
    const ady = lines[first * 4 + 3]! - ay;
    for (let j = i + 1; j < near.length; j++) {
      const second = near[j]!.item;
      if (second >= lineCount) continue;
      const bx = lines[second * 4]!;
      const by = lines[second * 4 + 1]!;
      const bdx = lines[second * 4 + 2]! - bx;
      const bdy = lines[second * 4 + 3]! - by;
      const cross = adx * bdy - ady * bdx;
      if (cross === 0) continue;
      const t = ((bx - ax) * bdy - (by - ay) * bdx) / cross;
      const s = ((bx - ax) * ady - (by - ay) * adx) / cross;
      if (t >= 0 && t <= 1 && s >= 0 && s <= 1) add('crossing', ax + t * adx, ay + t * ady, [first, second]);
    }
  }
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

const curveOf = ({ curves, lineCount }: Linework, item: number): Cubic => {
  const i = (item - lineCount) * 8;
  return [
    curves[i]!,
    curves[i + 1]!,
    curves[i + 2]!,
    curves[i + 3]!,
    curves[i + 4]!,
    curves[i + 5]!,
    curves[i + 6]!,
    curves[i + 7]!,
  ];
};

const endsOf = (linework: Linework, item: number): { x0: number; y0: number; x1: number; y1: number } => {
  const { lines, curves, lineCount } = linework;
  if (item < lineCount) {
    const i = item * 4;
    return { x0: lines[i]!, y0: lines[i + 1]!, x1: lines[i + 2]!, y1: lines[i + 3]! };
  }
  const i = (item - lineCount) * 8;
  return { x0: curves[i]!, y0: curves[i + 1]!, x1: curves[i + 6]!, y1: curves[i + 7]! };
};

const middleOf = (linework: Linework, item: number): readonly [number, number] => {
  if (item >= linework.lineCount) return cubicAt(curveOf(linework, item), 0.5);
  const { x0, y0, x1, y1 } = endsOf(linework, item);
  return [(x0 + x1) / 2, (y0 + y1) / 2];
};

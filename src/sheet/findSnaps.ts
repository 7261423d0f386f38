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

/** More items than this around one point are a hatch or a smudge: only the nearest are looked at. */
const MOST_ITEMS = 32;

/** A person chooses among a few places, not among all. */
const MOST_CANDIDATES = 16;

/** Ends, crossings and middles closer together than this are one place. In user-space units. */
const SAME_PLACE = 1e-3;

/** How much farther away, as a share of the radius, the next kind of place must be to lose to the bare line. */
const KIND_BIAS: Readonly<Record<SnapKind, number>> = { end: 0, crossing: 0.05, middle: 0.35, 'on-line': 1 };

/**
 * Places to snap to within `radius` of (x, y) on some items of the linework, best first. A query runs under the
 * pointer, so this keeps only its best few as it goes.
 */
export const findSnaps = (
  linework: Linework,
  items: readonly number[],
  x: number,
  y: number,
  radius: number,
): SnapCandidate[] => {
  const near = nearestItems(linework, items, x, y, radius);
  const best: (SnapCandidate & { readonly cost: number })[] = [];
  const add = (kind: SnapKind, px: number, py: number, first: number, second = -1): void => {
    const distance = Math.sqrt((px - x) ** 2 + (py - y) ** 2);
    if (!(distance <= radius)) return;
    const cost = distance + KIND_BIAS[kind] * radius;
    if (best.length === MOST_CANDIDATES && cost >= best[MOST_CANDIDATES - 1]!.cost) return;
    for (let i = 0; i < best.length; i++) {
      const { point } = best[i]!;
      if (Math.abs(point.x - px) >= SAME_PLACE || Math.abs(point.y - py) >= SAME_PLACE) continue;
      if (best[i]!.cost <= cost) return;
      best.splice(i--, 1);
    }
    let at = best.length;
    while (at > 0 && best[at - 1]!.cost > cost) at--;
    const on = second < 0 ? [first] : [first, second];
    best.splice(at, 0, { kind, point: paperPoint(px, py), distance, items: on, cost });
    if (best.length > MOST_CANDIDATES) best.pop();
  };
  for (let i = 0; i < near.count; i++) addOwnPlaces(linework, near.items[i]!, add);
  addCrossings(linework, near, add);
  // The nearest line is always among the places: it says what the pointer is on, whatever else is near.
  if (best.length === MOST_CANDIDATES) best.pop();
  if (near.count > 0) add('on-line', near.xs[0]!, near.ys[0]!, near.items[0]!);
  return best.map(({ kind, point, distance, items: on }) => ({ kind, point, distance, items: on }));
};

/** The nearest items in order of distance, as columns. */
interface NearItems {
  count: number;
  readonly items: Int32Array;
  readonly xs: Float64Array;
  readonly ys: Float64Array;
  readonly distances2: Float64Array;
}

const nearestItems = (
  linework: Linework,
  items: readonly number[],
  x: number,
  y: number,
  radius: number,
): NearItems => {
  const { lines, lineCount } = linework;
  const near: NearItems = {
    count: 0,
    items: new Int32Array(MOST_ITEMS),
    xs: new Float64Array(MOST_ITEMS),
    ys: new Float64Array(MOST_ITEMS),
    distances2: new Float64Array(MOST_ITEMS),
  };
  let limit2 = radius * radius;
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
    const distance2 = (px - x) ** 2 + (py - y) ** 2;
    if (!(distance2 <= limit2)) continue;
    insert(near, item, px, py, distance2);
    if (near.count === MOST_ITEMS) limit2 = near.distances2[MOST_ITEMS - 1]!;
  }
  return near;
};

/** Puts an item in its place by distance; the farthest falls out where there is no room. */
const insert = (near: NearItems, item: number, x: number, y: number, distance2: number): void => {
  const { items, xs, ys, distances2 } = near;
  let at = Math.min(near.count, MOST_ITEMS - 1);
  if (near.count < MOST_ITEMS) near.count++;
  for (; at > 0 && distances2[at - 1]! > distance2; at--) {
    items[at] = items[at - 1]!;
    xs[at] = xs[at - 1]!;
    ys[at] = ys[at - 1]!;
    distances2[at] = distances2[at - 1]!;
  }
  items[at] = item;
  xs[at] = x;
  ys[at] = y;
  distances2[at] = distance2;
};

type AddPlace = (kind: SnapKind, x: number, y: number, first: number, second?: number) => void;

/** Both ends and the middle of a line or curve. */
const addOwnPlaces = (linework: Linework, item: number, add: AddPlace): void => {
  const { lines, lineCount } = linework;
  if (item >= lineCount) {
    const curve = curveOf(linework, item);
    add('end', curve[0], curve[1], item);
    add('end', curve[6], curve[7], item);
    const [mx, my] = cubicAt(curve, 0.5);
    add('middle', mx, my, item);
    return;
  }
  const i = item * 4;
  const x0 = lines[i]!;
  const y0 = lines[i + 1]!;
  const x1 = lines[i + 2]!;
  const y1 = lines[i + 3]!;
  add('end', x0, y0, item);
  add('end', x1, y1, item);
  add('middle', (x0 + x1) / 2, (y0 + y1) / 2, item);
};

const addCrossings = ({ lines, lineCount }: Linework, near: NearItems, add: AddPlace): void => {
  for (let i = 0; i < near.count; i++) {
    const first = near.items[i]!;
    if (first >= lineCount) continue;
    const ax = lines[first * 4]!;
    const ay = lines[first * 4 + 1]!;
    const adx = lines[first * 4 + 2]! - ax;
    const ady = lines[first * 4 + 3]! - ay;
    for (let j = i + 1; j < near.count; j++) {
      const second = near.items[j]!;
      if (second >= lineCount) continue;
      const bx = lines[second * 4]!;
      const by = lines[second * 4 + 1]!;
      const bdx = lines[second * 4 + 2]! - bx;
      const bdy = lines[second * 4 + 3]! - by;
      const cross = adx * bdy - ady * bdx;
      if (cross === 0) continue;
      const t = ((bx - ax) * bdy - (by - ay) * bdx) / cross;
      const s = ((bx - ax) * ady - (by - ay) * adx) / cross;
      if (t >= 0 && t <= 1 && s >= 0 && s <= 1) add('crossing', ax + t * adx, ay + t * ady, first, second);
    }
  }
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

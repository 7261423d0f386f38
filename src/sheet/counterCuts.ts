import { boxAround, grownBox } from '../geometry/box.ts';
import { projectOntoLine, type Segment } from '../geometry/line.ts';
import { type PaperPoint, type Point, paperPoint } from '../geometry/point.ts';
import { polygonArea } from '../geometry/polygon.ts';
import { distanceBetween, movedBy, type Vector } from '../geometry/vector.ts';
import type { CounterBack } from './counterBack.ts';
import { directionOf, lineAt } from './lineAt.ts';
import { type Linework, PATH_FLAG } from './linework.ts';
import type { LineworkIndex } from './lineworkIndex.ts';
import { isSameStroke } from './strokeStyle.ts';
import { jointTolerance } from './walkLines.ts';

/** A length of a straight of the front line. */
export interface FollowedStretch {
  readonly straight: number;
  readonly a: PaperPoint;
  readonly b: PaperPoint;
}

/** A length in which something stands in the counter. */
export interface BlockedStretch extends FollowedStretch {
  readonly name: 'Column' | 'Cut-out';
}

interface Along {
  readonly from: number;
  readonly to: number;
  readonly name: BlockedStretch['name'];
}

/** Bodies smaller than this are fittings, larger ones are walls; in mm of the room. */
const columnMm = { least: 100, most: 1500 } as const;
/** A body fills most of the rectangle round it; letters and arrows, filled as they are, do not. */
const leastFilledShare = 0.6;
/** What reaches less than this into the counter does not block it, in mm. */
const leastBiteMm = 20;
/** Fills lighter than this are paper or tone, not something cut through. */
const darkMost = 0.7;

const brightnessOf = (rgb: number): number =>
  (0.299 * ((rgb >> 16) & 255) + 0.587 * ((rgb >> 8) & 255) + 0.114 * (rgb & 255)) / 255;

/** A path of more lines than this is a hatch or a picture, not the outline of a column. */
const mostOutlineLines = 100;

/** The corners of the path that a line belongs to; none for a path that outlines no simple body. */
const cornersOfPath = (linework: Linework, line: number): readonly Point[] => {
  const { linePath, lineCount } = linework;
  const path = linePath[line];
  let first = line;
  while (first > 0 && linePath[first - 1] === path && line - first <= mostOutlineLines) first -= 1;
  const corners: Point[] = [];
  for (let at = first; at < lineCount && linePath[at] === path; at += 1) {
    const { start, end } = lineAt(linework, at);
    corners.push(start, end);
    if (at - first > mostOutlineLines) return [];
  }
  return corners;
};

/** The part of a straight that a body of these corners takes, if it reaches between front and back. */
const bodyAlong = (
  corners: readonly Point[],
  straight: Segment,
  back: CounterBack,
  mmPerUnit: number,
): Along | null => {
  if (corners.length === 0) return null;
  const places = corners.map((corner) => projectOntoLine(corner, straight));
  const sign = back.side === 'left' ? 1 : -1;
  const alongs = places.map(({ along }) => along);
  const offsets = places.map(({ offset }) => offset * sign);
  const [from, to] = [Math.min(...alongs), Math.max(...alongs)];
  const [near, far] = [Math.min(...offsets), Math.max(...offsets)];
  const sizes = [to - from, far - near].map((size) => size * mmPerUnit);
  if (sizes.some((size) => size < columnMm.least || size > columnMm.most)) return null;
  const filled = polygonArea(corners);
  if (filled < leastFilledShare * (to - from) * (far - near)) return null;
  const bite = (Math.min(far, back.offset) - Math.max(near, 0)) * mmPerUnit;
  const whole = distanceBetween(straight.start, straight.end);
  const [cutFrom, cutTo] = [Math.max(0, from), Math.min(whole, to)];
  return bite >= leastBiteMm && (cutTo - cutFrom) * mmPerUnit >= leastBiteMm
    ? { from: cutFrom, to: cutTo, name: 'Column' }
    : null;
};

/** Recesses of the counter's own back line: two short lines square to it, joined at their inner ends. */
const recesses = (
  index: LineworkIndex,
  items: readonly number[],
  like: number,
  straight: Segment,
  back: CounterBack,
  mmPerUnit: number,
): readonly Along[] => {
  const { linework } = index;
  const sign = back.side === 'left' ? 1 : -1;
  const bite = leastBiteMm / mmPerUnit;
  const whole = distanceBetween(straight.start, straight.end);
  const sides: { readonly along: number; readonly inner: number }[] = [];
  const floors: { readonly from: number; readonly to: number; readonly inner: number }[] = [];
  for (const line of items) {
    if (!isSameStroke(linework, like, line)) continue;
    const { start, end } = lineAt(linework, line);
    const [a, b] = [projectOntoLine(start, straight), projectOntoLine(end, straight)];
    const [offsetA, offsetB] = [a.offset * sign, b.offset * sign];
    const [inner, outer] = [Math.min(offsetA, offsetB), Math.max(offsetA, offsetB)];
    if (inner < bite || inner > back.offset - bite) continue;
    if (Math.abs(outer - back.offset) <= jointTolerance && Math.abs(a.along - b.along) <= jointTolerance)
      sides.push({ along: (a.along + b.along) / 2, inner });
    else if (outer - inner <= jointTolerance)
      floors.push({ from: Math.min(a.along, b.along), to: Math.max(a.along, b.along), inner });
  }
  const isAt = (along: number, inner: number) =>
    sides.some(
      (side) =>
        Math.abs(side.along - along) <= jointTolerance && Math.abs(side.inner - inner) <= jointTolerance,
    );
  return floors
    .filter(({ from, to, inner }) => isAt(from, inner) && isAt(to, inner) && to > 0 && from < whole)
    .map(({ from, to }) => ({ from: Math.max(0, from), to: Math.min(whole, to), name: 'Cut-out' }));
};

const merged = (alongs: readonly Along[]): readonly Along[] => {
  const out: Along[] = [];
  for (const next of [...alongs].sort((a, b) => a.from - b.from)) {
    const last = out.at(-1);
    if (!last || next.from > last.to + jointTolerance) out.push(next);
    else {
      const name = last.name === 'Column' || next.name === 'Column' ? 'Column' : 'Cut-out';
      out[out.length - 1] = { from: last.from, to: Math.max(last.to, next.to), name };
    }
  }
  return out;
};

/** What stands in a straight of the counter between its front and its back: columns, recesses round them. */
export const blockedOn = (
  index: LineworkIndex,
  like: number,
  straightIndex: number,
  straight: Segment,
  back: CounterBack,
  mmPerUnit: number,
): readonly BlockedStretch[] => {
  const { linework } = index;
  const along: Vector = directionOf(straight);
  const sign = back.side === 'left' ? 1 : -1;
  const towardsBack = { x: -along.y * sign, y: along.x * sign };
  const strip = boxAround([
    straight.start,
    straight.end,
    movedBy(straight.start, towardsBack, back.offset),
    movedBy(straight.end, towardsBack, back.offset),
  ]);
  if (!strip) return [];
  const items = index.itemsIn(grownBox(strip, jointTolerance)).filter((item) => item < linework.lineCount);
  const bodies: Along[] = [];
  const seen = new Set<number>();
  for (const item of items) {
    const path = linework.linePath[item]!;
    if (seen.has(path)) continue;
    seen.add(path);
    const isDark =
      (linework.pathFlags[path]! & PATH_FLAG.filled) !== 0 &&
      brightnessOf(linework.pathFill[path]!) < darkMost;
    const body = isDark ? bodyAlong(cornersOfPath(linework, item), straight, back, mmPerUnit) : null;
    if (body) bodies.push(body);
  }
  const cuts = merged([...bodies, ...recesses(index, items, like, straight, back, mmPerUnit)]);
  const at = (distance: number): PaperPoint => {
    const point = movedBy(straight.start, along, distance);
    return paperPoint(point.x, point.y);
  };
  return cuts.map(({ from, to, name }) => ({ straight: straightIndex, a: at(from), b: at(to), name }));
};

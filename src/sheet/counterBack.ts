import { projectOntoLine, type Segment } from '../geometry/line.ts';
import { distanceBetween, leftOf, scaledBy } from '../geometry/vector.ts';
import { directionOf, lineAt } from './lineAt.ts';
import type { LineworkIndex } from './lineworkIndex.ts';
import { isSameStroke, isSolid } from './strokeStyle.ts';
import { straightOn } from './walkLines.ts';

/** The opposite line of a counter. */
export interface CounterBack {
  /** The side of the front line, walking it from its first to its last point (y up). */
  readonly side: 'left' | 'right';
  /** Distance between front line and back line, in user-space units. */
  readonly offset: number;
}

/** Parallels nearer together than this are one line, in points of paper. */
const sameOffset = 0.1;

interface Beside {
  readonly offset: number;
  readonly from: number;
  readonly to: number;
}

const lengthCovered = (stretches: readonly Beside[]): number => {
  let covered = 0;
  let reached = Number.NEGATIVE_INFINITY;
  for (const { from, to } of [...stretches].sort((a, b) => a.from - b.from)) {
    covered += Math.max(0, to - Math.max(from, reached));
    reached = Math.max(reached, to);
  }
  return covered;
};

/** The nearest offset at which lines cover at least `share` of the straight. */
const nearestCovered = (beside: readonly Beside[], whole: number, share: number): number | null => {
  const sorted = [...beside].sort((a, b) => a.offset - b.offset);
  // Windows of one offset, found by walking along; only those whose lengths could suffice are looked at closely.
  let best: number | null = null;
  let [first, end, length] = [0, 0, 0];
  for (const { offset } of sorted) {
    while (end < sorted.length && sorted[end]!.offset <= offset + sameOffset) {
      length += sorted[end]!.to - sorted[end]!.from;
      end += 1;
    }
    while (sorted[first]!.offset < offset - sameOffset) {
      length -= sorted[first]!.to - sorted[first]!.from;
      first += 1;
    }
    if (best !== null && Math.abs(offset) >= Math.abs(best)) continue;
    if (length < share * whole * 0.999) continue;
    if (lengthCovered(sorted.slice(first, end)) >= share * whole) best = offset;
  }
  return best;
};

/** Signed offsets that lines reach which stand square on an end of the straight: the ends of the counter, as drawn. */
const endReaches = (index: LineworkIndex, line: number, straight: Segment): readonly number[] => {
  const along = directionOf(straight);
  const left = leftOf(along);
  return [straight.start, straight.end].flatMap((place) =>
    [left, scaledBy(left, -1)].flatMap((way) => {
      const { to } = straightOn(index, line, place, way);
      const { offset } = projectOntoLine(to, straight);
      return offset === 0 ? [] : [offset];
    }),
  );
};

/**
 * The line opposite a straight of a counter: a parallel of the same stroke within the depths that counters have, which
 * runs beside a good part of it, before all one that the ends of the counter lead to; where there is none, the face of a
 * wall that it stands against.
 *
 * @param depth least and most depth in user-space units
 */
export const counterBack = (
  index: LineworkIndex,
  line: number,
  straight: Segment,
  depth: { readonly least: number; readonly most: number },
): CounterBack | null => {
  const whole = distanceBetween(straight.start, straight.end);
  if (whole === 0) return null;
  const { linework } = index;
  const own: Beside[] = [];
  const others: Beside[] = [];
  const box = {
    minX: Math.min(straight.start.x, straight.end.x) - depth.most,
    minY: Math.min(straight.start.y, straight.end.y) - depth.most,
    maxX: Math.max(straight.start.x, straight.end.x) + depth.most,
    maxY: Math.max(straight.start.y, straight.end.y) + depth.most,
  };
  for (const item of index.itemsIn(box)) {
    if (item >= linework.lineCount) continue;
    const { start, end } = lineAt(linework, item);
    const [a, b] = [projectOntoLine(start, straight), projectOntoLine(end, straight)];
    if (Math.abs(a.offset - b.offset) > 0.005 * distanceBetween(start, end)) continue;
    const offset = (a.offset + b.offset) / 2;
    if (Math.abs(offset) < depth.least || Math.abs(offset) > depth.most) continue;
    const from = Math.max(0, Math.min(a.along, b.along));
    const to = Math.min(whole, Math.max(a.along, b.along));
    if (to <= from) continue;
    if (isSameStroke(linework, line, item)) own.push({ offset, from, to });
    else if (isSolid(linework, item)) others.push({ offset, from, to });
  }
  const reaches = endReaches(index, line, straight);
  const joined = own.filter(({ offset }) =>
    reaches.some((reach) => Math.abs(reach - offset) <= 0.02 * Math.abs(offset)),
  );
  const beside =
    nearestCovered(joined, whole, 0.25) ??
    nearestCovered(own, whole, 0.4) ??
    nearestCovered(others, whole, 0.7);
  // An end that is drawn shows the depth even where the back is hidden under a window or left out.
  const drawnEnd = reaches
    .filter((reach) => Math.abs(reach) >= depth.least && Math.abs(reach) <= depth.most)
    .sort((a, b) => Math.abs(b) - Math.abs(a))[0];
  const isNearer =
    drawnEnd !== undefined && (beside === null || Math.abs(drawnEnd) < 0.98 * Math.abs(beside));
  const found = isNearer ? drawnEnd : beside;
  return found === null || found === undefined
    ? null
    : { side: found > 0 ? 'left' : 'right', offset: Math.abs(found) };
};

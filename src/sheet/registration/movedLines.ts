import Flatbush from 'flatbush';
import type { LoosePart } from './uncoveredPieces.ts';

/** A line that is gone at one place and new, parallel and about as long, a little way off. */
export interface MovedLine {
  /** Indexes into the gone and the added parts. */
  readonly gone: number;
  readonly added: number;
  /** From the old place to the new, in new paper points. */
  readonly vector: { readonly x: number; readonly y: number };
}

/** Sine of the angle within which a moved line keeps its direction: one degree. */
const SAME_DIRECTION = 0.0175;

/** Lengths of one line before and after differ by no more than this share. */
const SAME_LENGTH = 0.1;

/** Pairs looked at for one part, and in all, the longest first: hatching offers thousands and millions. */
const MOST_NEAR = 100;
const MOST_PAIRS = 300_000;

interface Pair {
  readonly gone: number;
  readonly added: number;
  readonly x: number;
  readonly y: number;
  readonly misfit: number;
  readonly length: number;
}

/**
 * Pairs of gone and added parts that look like one line moved. Where several would do, the move that many neighbours
 * share goes first: both faces of a wall move together. Each part is used once.
 *
 * @param reach how far a line may have moved, in the same points as the parts
 */
export const movedLines = (
  gone: readonly LoosePart[],
  added: readonly LoosePart[],
  {
    reach,
    tolerance,
    leastLength,
  }: { readonly reach: number; readonly tolerance: number; readonly leastLength: number },
): MovedLine[] => {
  if (added.length === 0) return [];
  const tree = new Flatbush(added.length);
  for (const part of added) {
    const [x, y] = [(part.x0 + part.x1) / 2, (part.y0 + part.y1) / 2];
    tree.add(x, y, x, y);
  }
  tree.finish();
  const pairs: Pair[] = [];
  const longest = gone
    .map((part, index) => ({ part, index, length: lengthOf(part) }))
    .filter(({ length }) => length >= leastLength)
    .sort((p, q) => q.length - p.length || p.index - q.index);
  const addedLengths = Float64Array.from(added, lengthOf);
  for (const { part, index, length } of longest) {
    if (pairs.length > MOST_PAIRS) break;
    const [x, y] = [(part.x0 + part.x1) / 2, (part.y0 + part.y1) / 2];
    let looked = 0;
    tree.search(x - reach, y - reach, x + reach, y + reach, (candidate) => {
      const misfit = Math.abs(addedLengths[candidate]! - length);
      if (misfit > Math.max(SAME_LENGTH * length, 2 * tolerance)) return false;
      if (addedLengths[candidate]! < leastLength || looked++ > MOST_NEAR) return false;
      const other = added[candidate]!;
      const turn = (part.x1 - part.x0) * (other.y1 - other.y0) - (part.y1 - part.y0) * (other.x1 - other.x0);
      if (Math.abs(turn) > SAME_DIRECTION * length * addedLengths[candidate]!) return false;
      const [dx, dy] = [(other.x0 + other.x1) / 2 - x, (other.y0 + other.y1) / 2 - y];
      if (dx * dx + dy * dy <= reach * reach)
        pairs.push({ gone: index, added: candidate, x: dx, y: dy, misfit, length });
      return false;
    });
  }
  const step = Math.max(2 * tolerance, 1e-6);
  const columns = 2 * Math.ceil(reach / step) + 3;
  const keyOf = (x: number, y: number): number => Math.round(y / step) * columns + Math.round(x / step);
  const shared = new Map<number, number>();
  for (const { x, y, length } of pairs) shared.set(keyOf(x, y), (shared.get(keyOf(x, y)) ?? 0) + length);
  // The third power: of a wall moved by little more than its thickness, each face is nearer to the other's new place.
  const costed = pairs.map((pair) => ({
    ...pair,
    cost:
      (Math.sqrt(pair.x ** 2 + pair.y ** 2) + pair.misfit + tolerance) /
      shared.get(keyOf(pair.x, pair.y))! ** 3,
  }));
  costed.sort((p, q) => p.cost - q.cost || p.gone - q.gone || p.added - q.added);
  const [usedGone, usedAdded] = [new Set<number>(), new Set<number>()];
  const moved: MovedLine[] = [];
  for (const pair of costed) {
    if (usedGone.has(pair.gone) || usedAdded.has(pair.added)) continue;
    usedGone.add(pair.gone);
    usedAdded.add(pair.added);
    moved.push({ gone: pair.gone, added: pair.added, vector: { x: pair.x, y: pair.y } });
  }
  return moved.sort((p, q) => p.gone - q.gone);
};

const lengthOf = ({ x0, y0, x1, y1 }: LoosePart): number => Math.sqrt((x1 - x0) ** 2 + (y1 - y0) ** 2);

import type { DistinctLines } from './distinctLines.ts';
import { fitSimilarity, type WeightedPair } from './fitSimilarity.ts';
import type { LineTree } from './layOnLines.ts';
import { applySimilarity, type Similarity } from './similarity.ts';

/** Lines of the old sheet that are laid end to end on lines of the new: the longest. */
const MOST_LINES = 900;

const END_REACHES = [1 / 400, 1 / 800, 1 / 1500, 1 / 3000, 1 / 3000];

/** Pairs nearer than this are exact, however near the others are; in points. */
const EXACT_PT = 0.08;

/** A similarity made exact on the lines that it lays end to end. */
export interface MatchedEnds {
  readonly transform: Similarity;
  readonly matched: number;
}

/**
 * Lays the longest old lines on new ones that start and end where they do, fits the similarity to their ends, and does
 * so again with a shorter reach. Of the pairs within reach the nearer half decides (least trimmed squares, Rousseeuw, J. Am.
 * Stat. Assoc. 79, 1984, 871-880): a title block that moved otherwise by a little must not bend the answer. Null where fewer than two lines are found.
 */
export const matchEnds = (
  old: DistinctLines,
  next: DistinctLines,
  tree: LineTree,
  start: Similarity,
): MatchedEnds | null => {
  let best: MatchedEnds | null = null;
  let transform = start;
  for (const share of END_REACHES) {
    const pairs = endsWithin(old, next, tree, transform, share * next.diagonal);
    if (pairs.length < 4) break;
    const gaps = pairs.map((pair) => pair.gap).sort((p, q) => p - q);
    const cut = Math.max(gaps[gaps.length >> 1]!, EXACT_PT ** 2);
    const fit = fitSimilarity(pairs.filter((pair) => pair.gap <= cut));
    if (!fit) break;
    transform = fit.transform;
    best = { transform, matched: pairs.length / 2 };
  }
  return best;
};

const endsWithin = (
  old: DistinctLines,
  next: DistinctLines,
  tree: LineTree,
  transform: Similarity,
  reach: number,
): (WeightedPair & { readonly gap: number })[] => {
  const pairs: (WeightedPair & { readonly gap: number })[] = [];
  const reachSquare = reach * reach;
  for (let i = 0; i < Math.min(old.count, MOST_LINES); i++) {
    const [oldStart, oldEnd] = endsOf(old, i);
    const [from, to] = [applySimilarity(transform, oldStart), applySimilarity(transform, oldEnd)];
    let [least, start, end] = [2 * reachSquare, from, to];
    for (const line of tree.near(from.x, from.y, reach)) {
      const [p, q] = endsOf(next, line);
      const [straight, swapped] = [gap(from, p) + gap(to, q), gap(from, q) + gap(to, p)];
      if (straight < least) [least, start, end] = [straight, p, q];
      if (swapped < least) [least, start, end] = [swapped, q, p];
    }
    if (least >= reachSquare) continue;
    pairs.push(
      { old: oldStart, new: start, weight: 1, gap: least },
      { old: oldEnd, new: end, weight: 1, gap: least },
    );
  }
  return pairs;
};

const endsOf = ({ ends }: DistinctLines, line: number) =>
  [
    { x: ends[line * 4]!, y: ends[line * 4 + 1]! },
    { x: ends[line * 4 + 2]!, y: ends[line * 4 + 3]! },
  ] as const;

const gap = (p: { x: number; y: number }, q: { x: number; y: number }): number =>
  (p.x - q.x) ** 2 + (p.y - q.y) ** 2;

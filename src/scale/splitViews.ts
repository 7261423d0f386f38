import type { Supporter } from './voter.ts';

/** Two groups of dimensions, each on its own side of an upright line, those on the wrong side left out. */
export interface SplitGroups {
  readonly first: readonly Supporter[];
  readonly second: readonly Supporter[];
}

/** This share of the smaller group may stand on the wrong side: they agree by chance. */
const MOST_STRAYS = 0.21;

/** A group of fewer is no view. */
const LEAST_GROUP = 3;

/**
 * Separates two groups of dimensions by an upright line, as views stand side by side or one above the other.
 *
 * @returns null where they stand among each other, as the false and the true reading of one view do.
 */
export const splitGroups = (
  first: readonly Supporter[],
  second: readonly Supporter[],
): SplitGroups | null => {
  if (first.length < LEAST_GROUP || second.length < LEAST_GROUP) return null;
  let best: (SplitGroups & { readonly strays: number }) | null = null;
  for (const axis of ['x', 'y'] as const) {
    const middleOf = ({ span: { a, b } }: Supporter): number => (a[axis] + b[axis]) / 2;
    const middles = [...first, ...second].map(middleOf).sort((a, b) => a - b);
    for (let i = 0; i + 1 < middles.length; i++) {
      const at = (middles[i]! + middles[i + 1]!) / 2;
      for (const isFirstBelow of [true, false]) {
        const isFirstSide = (supporter: Supporter): boolean => middleOf(supporter) < at === isFirstBelow;
        const split = {
          first: first.filter(isFirstSide),
          second: second.filter((supporter) => !isFirstSide(supporter)),
        };
        const strays = first.length + second.length - split.first.length - split.second.length;
        if (!best || strays < best.strays) best = { ...split, strays };
      }
    }
  }
  const isClean = best && best.strays <= MOST_STRAYS * Math.min(first.length, second.length);
  const areBothLeft = best && best.first.length >= LEAST_GROUP && best.second.length >= LEAST_GROUP;
  return isClean && areBothLeft ? { first: best!.first, second: best!.second } : null;
};

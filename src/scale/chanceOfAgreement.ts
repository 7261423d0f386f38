import type { DimensionSpan } from './dimensionSpans.ts';

/** A voter as the chance of its agreement needs it. */
export interface ChanceVoter {
  readonly value: number;
  readonly spans: readonly DimensionSpan[];
}

/** A voter that agrees, by which span, and how near it had to come. */
export interface ChanceSupporter {
  readonly voter: ChanceVoter;
  readonly span: DimensionSpan;
  /** Half-width of the window in which it counts as agreeing, as a share. */
  readonly tolerance: number;
}

/** Natural logarithm of the range over which a false figure's ratio falls: a factor of about twenty. */
const SPREAD = 3;

/**
 * How many agreements as good as this one would be expected if the figures had nothing to do with the lines: the number
 * of ratios that can be tried, times the ways to choose the other supporters, times each one's chance to agree. A
 * supporter's chance is its window over the spread, for each of its spans that looks no worse than the one it agrees by.
 *
 * A rough bound, for figures are not spread evenly; it is there to tell 2 of 13 from 11 of 13. Equal figures count once,
 * for they agree together.
 */
export const chanceOfAgreement = (
  supporters: readonly ChanceSupporter[],
  voters: readonly ChanceVoter[],
): number => {
  const independent = new Map<number, number>();
  let weakest = Infinity;
  for (const { voter, span, tolerance } of supporters) {
    const alike = voter.spans.filter(({ weight }) => weight >= 0.95 * span.weight).length;
    const chance = Math.min(1, (alike * 2 * tolerance) / SPREAD);
    const known = independent.get(voter.value);
    if (known === undefined || chance < known) independent.set(voter.value, chance);
    weakest = Math.min(weakest, span.weight);
  }
  const chances = [...independent.values()].sort((a, b) => a - b);
  const distinctVoters = new Set(voters.map(({ value }) => value)).size;
  let tries = 0;
  for (const { spans } of voters) tries += spans.filter(({ weight }) => weight >= 0.95 * weakest).length;
  let best = Infinity;
  let product = 1;
  // The likeliest to be true first: a few that agree well may say more than many that agree loosely.
  for (let i = 1; i < chances.length; i++) {
    product *= chances[i - 1]!;
    best = Math.min(best, tries * choose(distinctVoters - 1, i) * product);
  }
  return best;
};

const choose = (n: number, k: number): number => {
  let ways = 1;
  for (let i = 1; i <= k; i++) ways *= (n - k + i) / i;
  return ways;
};

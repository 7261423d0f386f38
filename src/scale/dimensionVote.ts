import type { Box } from '../geometry/box.ts';
import { chanceOfAgreement } from './chanceOfAgreement.ts';
import type { DimensionSpan } from './dimensionSpans.ts';
import { splitGroups } from './splitViews.ts';
import type { Supporter, Voter } from './voter.ts';

/** Units of the text per user-space unit, and who says so. */
export interface VoteResult {
  readonly unitsPerPoint: number;
  readonly supporters: readonly Supporter[];
  /** Sum of the supporters' best spans, equal values damped. */
  readonly weight: number;
}

/** Beyond rounding and drafting, a supporter may be off by this share. */
const SLACK = 5e-4;

/** Rivals closer than this to the winner are the winner seen a little wrong. */
const RIVAL_DISTANCE = 0.02;

/** A winner must outweigh each rival by this factor; by the second where only two values agree. */
const CLEAR_LEAD = 1.35;
const CLEAR_LEAD_OF_TWO = 1.7;

/** Fewer supporters than this must be at least a third of the texts that look like a dimension. */
const ENOUGH_SUPPORTERS = 6;

/** A text whose best span looks this good is a dimension, whether it agrees or not. */
export const CLEAR_SPAN = 0.9;

/** An agreement is believed where fewer than this many as good would be expected by chance. */
const MOST_CHANCE = 0.05;

interface Candidate {
  readonly log: number;
  readonly tolerance: number;
  readonly voter: number;
  readonly span: DimensionSpan;
}

/**
 * Lets dimension texts vote for the scale: every length that a text may state proposes a ratio, and the ratio that
 * most texts can agree on wins. Wrong lengths scatter, right ones meet. Equal values count little more than one, for
 * they share their mistakes. Answers null rather than guess: where fewer than two different values agree, or where
 * another ratio explains nearly as much.
 */
export const voteForScale = (voters: readonly Voter[]): VoteResult | null => {
  const candidates = candidatesOf(voters);
  const winner = bestCluster(candidates, voters, () => true);
  if (!winner) return null;
  const values = new Set(winner.supporters.map(({ voter }) => voter.value)).size;
  if (values < 2) return null;
  const lead = values === 2 ? CLEAR_LEAD_OF_TWO : CLEAR_LEAD;
  const isAway = ({ log }: Candidate): boolean => Math.abs(log - winner.log) > RIVAL_DISTANCE;
  const rival = bestCluster(candidates, voters, isAway);
  const isClear =
    !rival ||
    winner.weight >= lead * rival.weight ||
    splitGroups(winner.supporters, rival.supporters) !== null ||
    isOtherAxis(winner, rival);
  if (!isClear || chanceOfAgreement(winner.members, voters) > MOST_CHANCE) return null;
  const clearVoters = voters.filter(({ spans }) => (spans[0]?.weight ?? 0) >= CLEAR_SPAN).length;
  const isFew = winner.supporters.length < ENOUGH_SUPPORTERS && winner.supporters.length < clearVoters / 3;
  if (isFew) return null;
  return { unitsPerPoint: Math.exp(winner.log), supporters: winner.supporters, weight: winner.weight };
};

/**
 * The dimensions that agree best within `reach` (a share) of a ratio. An agreement away from the ratio itself counts
 * only where it is much the stronger and has different values: else null or those at the ratio.
 */
export const bestClusterNear = (
  voters: readonly Voter[],
  unitsPerPoint: number,
  reach: number,
): readonly Supporter[] | null => {
  const target = Math.log(unitsPerPoint);
  const near = candidatesOf(voters).filter(({ log }) => Math.abs(log - target) <= reach);
  const best = bestCluster(near, voters, () => true);
  const here = bestCluster(near, voters, ({ log, tolerance }) => Math.abs(log - target) <= tolerance + 0.002);
  const isElsewhere =
    best &&
    best.weight > 1.8 * (here?.weight ?? 0) &&
    best.supporters.length >= 3 &&
    new Set(best.supporters.map(({ voter }) => voter.value)).size >= 2;
  return (isElsewhere ? best : here)?.supporters ?? null;
};

/** The votes for ratios within `reach` of one that is known, as a share. */
export const supportersOf = (
  voters: readonly Voter[],
  unitsPerPoint: number,
  reach = 0,
): readonly Supporter[] => {
  const target = Math.log(unitsPerPoint);
  const best = new Map<number, Candidate>();
  for (const candidate of candidatesOf(voters)) {
    if (Math.abs(candidate.log - target) > candidate.tolerance + reach) continue;
    const other = best.get(candidate.voter);
    if (!other || isBetter(candidate, other, target)) best.set(candidate.voter, candidate);
  }
  return [...best.values()].map(({ voter, span }) => ({ voter: voters[voter]!, span }));
};

const candidatesOf = (voters: readonly Voter[]): Candidate[] =>
  voters.flatMap((voter, index) =>
    voter.spans.map((span) => ({
      log: Math.log(voter.value / span.length),
      tolerance: voter.step / 2 / voter.value + (2 * voter.endUncertainty) / span.length + SLACK,
      voter: index,
      span,
    })),
  );

/** Nearer wins between spans that look alike; else the one that looks more like a dimension. */
const isBetter = (a: Candidate, b: Candidate, target: number): boolean =>
  Math.abs(a.span.weight - b.span.weight) < 0.1
    ? Math.abs(a.log - target) < Math.abs(b.log - target)
    : a.span.weight > b.span.weight;

interface Cluster {
  readonly log: number;
  readonly weight: number;
  readonly supporters: readonly Supporter[];
  readonly members: readonly (Supporter & { readonly tolerance: number })[];
}

const bestCluster = (
  all: readonly Candidate[],
  voters: readonly Voter[],
  isAllowed: (candidate: Candidate) => boolean,
): Cluster | null => {
  const candidates = all.filter(isAllowed).sort((a, b) => a.log - b.log);
  let best: { log: number; weight: number; members: readonly Candidate[] } | null = null;
  let first = 0;
  const widest = candidates.reduce((most, { tolerance }) => Math.max(most, tolerance), 0);
  for (const centre of candidates) {
    // A coarse text (a small number) cannot place the centre of the vote; its own vote still counts.
    if (centre.tolerance > 0.01) continue;
    while (candidates[first]!.log < centre.log - widest) first++;
    const members = new Map<number, Candidate>();
    for (let i = first; i < candidates.length && candidates[i]!.log <= centre.log + widest; i++) {
      const candidate = candidates[i]!;
      if (Math.abs(candidate.log - centre.log) > Math.min(0.02, candidate.tolerance + centre.tolerance / 2))
        continue;
      const other = members.get(candidate.voter);
      if (!other || isBetter(candidate, other, centre.log)) members.set(candidate.voter, candidate);
    }
    const weight = dampedWeight([...members.values()], voters);
    if (!best || weight > best.weight) best = { log: centre.log, weight, members: [...members.values()] };
  }
  if (!best) return null;
  return {
    log: best.log,
    weight: best.weight,
    supporters: best.members.map(({ voter, span }) => ({ voter: voters[voter]!, span })),
    members: best.members.map(({ voter, span, tolerance }) => ({ voter: voters[voter]!, span, tolerance })),
  };
};

/** Equal values add up to at most twice the best of them. Coarse values agree with anything, so they count less. */
const dampedWeight = (members: readonly Candidate[], voters: readonly Voter[]): number => {
  const byValue = new Map<number, number[]>();
  for (const { voter, span, tolerance } of members) {
    const weight = span.weight * Math.min(1, 0.004 / tolerance) ** 0.5;
    const { value } = voters[voter]!;
    byValue.set(value, [...(byValue.get(value) ?? []), weight]);
  }
  let sum = 0;
  for (const weights of byValue.values()) {
    const most = Math.max(...weights);
    sum += Math.min(2 * most, most + 0.25 * (weights.reduce((a, b) => a + b, 0) - most));
  }
  return sum;
};

/** Whether a rival is the same drawing seen along its other axis, stretched by a few percent. */
const isOtherAxis = (winner: Cluster, rival: Cluster): boolean => {
  if (Math.abs(winner.log - rival.log) > 0.08) return false;
  // Only those that agree by a span that is among their best: others of the wrong axis agree by chance.
  const shareAlongX = ({ supporters }: Cluster): number => {
    const sure = supporters.filter(({ voter, span }) => span.weight >= 0.85 * (voter.spans[0]?.weight ?? 0));
    return (
      sure.filter(({ span: { a, b } }) => Math.abs(a.x - b.x) > Math.abs(a.y - b.y)).length / sure.length
    );
  };
  return Math.abs(shareAlongX(winner) - shareAlongX(rival)) > 0.7;
};

/** The box around the spans of some dimensions. */
export const extentOf = (supporters: readonly Supporter[]): Box => {
  const box = { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };
  for (const { span } of supporters) {
    for (const { x, y } of [span.a, span.b]) {
      box.minX = Math.min(box.minX, x);
      box.minY = Math.min(box.minY, y);
      box.maxX = Math.max(box.maxX, x);
      box.maxY = Math.max(box.maxY, y);
    }
  }
  return box;
};

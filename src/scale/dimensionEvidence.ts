import type { Box } from '../geometry/box.ts';
import type { LineworkIndex } from '../sheet/lineworkIndex.ts';
import type { TextRun } from '../sheet/textRun.ts';
import { fitAxes } from './axisFit.ts';
import type { DimensionSpan } from './dimensionSpans.ts';
import type { DrawingUnit } from './dimensionText.ts';
import { CLEAR_SPAN, extentOf, supportersOf, voteForScale } from './dimensionVote.ts';
import { findVoters, type ResolvedVoters, resolveUnits } from './dimensionVoters.ts';
import type { UnitHints } from './drawingUnit.ts';
import { paperMmPerUnit } from './paperLength.ts';
import { refineScale } from './refineScale.ts';
import { splitGroups } from './splitViews.ts';
import type { Supporter, Voter } from './voter.ts';

/** What the dimensions of one view say about its scale. */
export interface DimensionEvidence {
  readonly ratio: number;
  /** Expanded, k = 2. */
  readonly relativeUncertainty: number;
  readonly unit: DrawingUnit;
  /** True where no text and no form of a number says the unit. */
  readonly unitAssumed: boolean;
  readonly agreeing: readonly AgreeingDimension[];
  readonly disagreeing: readonly DisagreeingDimension[];
  /** Ratios along x and y, where dimensions run both ways. */
  readonly ratioX?: number;
  readonly ratioY?: number;
  /** Around the agreeing dimensions, in user-space units. */
  readonly extent: Box;
}

export interface AgreeingDimension {
  readonly text: TextRun;
  readonly supporter: Supporter;
  readonly lengthMm: number;
  /** What is drawn, at the scale of all, in mm. */
  readonly drawnMm: number;
}

/** A text that looks like a dimension and does not fit the scale: a stretched or altered one is news. */
export interface DisagreeingDimension {
  readonly text: TextRun;
  readonly statedMm: number;
  /** Its clearest span, where that is a likely one. */
  readonly supporter?: Supporter;
  /** What is drawn, at the scale of the others, in mm. */
  readonly drawnMm: number;
}

const MOST_VIEWS = 8;

/** Ratios outside this are no drawing of a room. */
const LIKELY_RATIOS = [0.1, 20_000] as const;

/**
 * The scale from the dimension strings alone, one for each view of the sheet that has its own; none where they do not
 * prove one. The view of the largest extent comes first.
 *
 * @param text runs of the sheet, joined.
 * @param hints what else on the sheet says the unit of plain numbers.
 */
export const readDimensionEvidence = (
  text: readonly TextRun[],
  index: LineworkIndex,
  userUnit: number,
  hints: UnitHints = { claimedRatios: [] },
): readonly DimensionEvidence[] => {
  const paperMm = paperMmPerUnit(userUnit);
  const resolved = resolveUnits(findVoters(text, index, userUnit), paperMm, hints);
  if (!resolved) return [];
  let claims: readonly Claim[] = [];
  let left = resolved.voters;
  let vote = resolved.winner;
  // Each round takes at least one text out, so that this ends.
  while (claims.length < MOST_VIEWS) {
    const claim = settle(left, vote.unitsPerPoint);
    const ratio = claim ? claim.mmPerPoint / paperMm : 0;
    if (!claim || !(ratio >= LIKELY_RATIOS[0] && ratio <= LIKELY_RATIOS[1])) break;
    const parted = partFrom(claims, claim);
    if (parted) claims = parted;
    const strong = claim.supporters.filter(isStrong);
    const taken = new Set((strong.length > 0 ? strong : claim.supporters).map(({ voter }) => voter.text));
    left = left.filter((voter) => !taken.has(voter.text));
    const next = voteForScale(left);
    if (!next) break;
    vote = next;
  }
  return claims
    .map((claim) => concluded(claim, claims, resolved, paperMm))
    .sort((a, b) => areaOf(b.extent) - areaOf(a.extent));
};

/** A scale that a group of dimensions agrees on. */
interface Claim {
  readonly mmPerPoint: number;
  readonly relativeUncertainty: number;
  readonly supporters: readonly Supporter[];
  readonly mmPerPointX?: number;
  readonly mmPerPointY?: number;
}

/** The claims with another added, where it stands apart from each of them; strays between two are dropped. */
const partFrom = (claims: readonly Claim[], claim: Claim): readonly Claim[] | null => {
  let added = claim;
  const parted: Claim[] = [];
  for (const earlier of claims) {
    const [mine, theirs] = shareOut(earlier.supporters, added.supporters);
    const split = splitGroups(mine, theirs);
    if (!split) return null;
    parted.push({ ...earlier, supporters: split.first });
    added = { ...added, supporters: split.second };
  }
  return [...parted, added];
};

/** Whether a dimension agrees by a span that is about its best: else it may belong to another view. */
const isStrong = ({ voter, span }: Supporter): boolean => span.weight >= 0.6 * (voter.spans[0]?.weight ?? 0);

/** A dimension that agrees with two scales belongs to that for which its span is the better. */
const shareOut = (
  first: readonly Supporter[],
  second: readonly Supporter[],
): readonly [readonly Supporter[], readonly Supporter[]] => {
  const weightIn = (group: readonly Supporter[], { voter }: Supporter): number =>
    group.find((other) => other.voter.text === voter.text)?.span.weight ?? 0;
  return [
    first.filter((supporter) => supporter.span.weight >= weightIn(second, supporter)),
    second.filter((supporter) => supporter.span.weight > weightIn(first, supporter)),
  ];
};

const settle = (voters: readonly Voter[], mmPerPoint: number): Claim | null => {
  const axes = fitAxes(voters, mmPerPoint);
  if (axes?.isStretched) {
    const { x, y } = axes;
    return {
      mmPerPoint: Math.sqrt(x.unitsPerPoint * y.unitsPerPoint),
      // One ratio for both axes is wrong along each, by half of what lies between them.
      relativeUncertainty: Math.abs(Math.log(x.unitsPerPoint / y.unitsPerPoint)) / 2,
      supporters: [...x.supporters, ...y.supporters],
      mmPerPointX: x.unitsPerPoint,
      mmPerPointY: y.unitsPerPoint,
    };
  }
  const fit = refineScale(supportersOf(voters, mmPerPoint, 0.002));
  if (!fit) return null;
  return {
    mmPerPoint: fit.unitsPerPoint,
    relativeUncertainty: fit.relativeUncertainty,
    supporters: fit.supporters,
    ...(axes ? { mmPerPointX: axes.x.unitsPerPoint, mmPerPointY: axes.y.unitsPerPoint } : {}),
  };
};

const concluded = (
  claim: Claim,
  claims: readonly Claim[],
  { voters, unit, unitAssumed }: ResolvedVoters,
  paperMm: number,
): DimensionEvidence => {
  const { supporters, mmPerPoint, relativeUncertainty, mmPerPointX, mmPerPointY } = claim;
  const extent = extentOf(supporters);
  const taken = new Set(claims.flatMap((other) => other.supporters.map(({ voter }) => voter.text)));
  const disagreeing: DisagreeingDimension[] = [];
  for (const voter of voters) {
    const isClear = (voter.spans[0]?.weight ?? 0) >= CLEAR_SPAN;
    if (taken.has(voter.text) || !isClear) continue;
    if (claims.length > 1 && !isInside(voter.text.origin, extent)) continue;
    // A figure wider than the length that it states is set beside its gap: what it lies over is not its dimension.
    if (voter.text.width > voter.value / mmPerPoint) continue;
    const span = nearestSpan(voter, voter.value / mmPerPoint);
    disagreeing.push({
      text: voter.text,
      statedMm: voter.value,
      drawnMm: (span?.length ?? 0) * mmPerPoint,
      ...(span ? { supporter: { voter, span } } : {}),
    });
  }
  return {
    ratio: mmPerPoint / paperMm,
    relativeUncertainty: Math.max(relativeUncertainty, scatterOf(supporters, disagreeing, mmPerPoint)),
    unit,
    unitAssumed,
    agreeing: supporters.map((supporter) => ({
      text: supporter.voter.text,
      supporter,
      lengthMm: supporter.voter.value,
      drawnMm: supporter.span.length * mmPerPoint,
    })),
    disagreeing,
    ...(mmPerPointX && mmPerPointY ? { ratioX: mmPerPointX / paperMm, ratioY: mmPerPointY / paperMm } : {}),
    extent,
  };
};

/** A figure off by less than this share is of the same scale, rounded or measured to another face. */
const NEAR_MISS = 0.05;

/** So many near misses, and so large a share of all, are no single slips. */
const LEAST_NEAR_MISSES = 2;
const LEAST_SHARE_OF_MISSES = 0.2;

/**
 * Twice the root mean square of what figures and lines differ by (k = 2), where many figures miss the scale narrowly:
 * those that agree were then picked out by chance, and are no surer than all. Else 0.
 */
const scatterOf = (
  supporters: readonly Supporter[],
  disagreeing: readonly DisagreeingDimension[],
  mmPerPoint: number,
): number => {
  const misses = disagreeing
    .map(({ statedMm, drawnMm }) => Math.abs(Math.log(drawnMm / statedMm)))
    .filter((miss) => miss < NEAR_MISS);
  const all = supporters.length + misses.length;
  if (misses.length < LEAST_NEAR_MISSES || misses.length < LEAST_SHARE_OF_MISSES * all) return 0;
  let sum = 0;
  for (const miss of misses) sum += miss ** 2;
  for (const { voter, span } of supporters) sum += Math.log((span.length * mmPerPoint) / voter.value) ** 2;
  return 2 * Math.sqrt(sum / all);
};

/** Of the spans that look clearly like a dimension, the one nearest to what is stated. */
const nearestSpan = ({ spans }: Voter, wanted: number): DimensionSpan | undefined => {
  const farFrom = ({ length }: DimensionSpan): number => Math.abs(Math.log(length / wanted));
  return spans
    .filter(({ weight }) => weight >= Math.max(CLEAR_SPAN, 0.95 * (spans[0]?.weight ?? 0)))
    .reduce<DimensionSpan | undefined>(
      (best, span) => (!best || farFrom(span) < farFrom(best) ? span : best),
      undefined,
    );
};

const isInside = (
  { x, y }: { readonly x: number; readonly y: number },
  { minX, minY, maxX, maxY }: Box,
): boolean => x >= minX && x <= maxX && y >= minY && y <= maxY;

const areaOf = ({ minX, minY, maxX, maxY }: Box): number => (maxX - minX) * (maxY - minY);

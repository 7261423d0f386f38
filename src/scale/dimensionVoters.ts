import type { LineworkIndex } from '../sheet/lineworkIndex.ts';
import type { TextRun } from '../sheet/textRun.ts';
import { findSpans } from './dimensionSpans.ts';
import { type DrawingUnit, MM_PER_UNIT, readDimensionText } from './dimensionText.ts';
import { type Supporter, supportersOf, type VoteResult, type Voter, voteForScale } from './dimensionVote.ts';

/** Every text of a sheet that may be a dimension and has a length beside it; known units in mm, others as written. */
export const findVoters = (text: readonly TextRun[], index: LineworkIndex): readonly Voter[] => {
  const voters: Voter[] = [];
  for (const run of text) {
    const dimension = readDimensionText(run.text);
    if (dimension.kind !== 'dimension') continue;
    const spans = findSpans(run, index);
    if (spans.length === 0) continue;
    const mm = dimension.unit ? MM_PER_UNIT[dimension.unit] : 1;
    voters.push({ text: run, dimension, value: dimension.value * mm, step: dimension.step * mm, spans });
  }
  return voters;
};

/** The unit of a sheet's plain numbers, and all voters in mm. */
export interface ResolvedVoters {
  readonly voters: readonly Voter[];
  /** The unit that dimensions are written in: the commonest where they say it. */
  readonly unit: DrawingUnit;
  /** True where neither a text nor the form of a number says the unit. */
  readonly unitAssumed: boolean;
  /** The first vote, in mm per user-space unit. */
  readonly winner: VoteResult;
}

/** DESIGN section 5: a unit is believed when it makes the longest dimension this long, in mm … */
const LONGEST_BETWEEN_MM = [3_000, 300_000] as const;
/** … and the ratio at least this. */
const LEAST_RATIO = 10;

/**
 * Settles the unit of numbers that have none. Where numbers with a unit prove a scale, plain ones beside them take the
 * unit in which most agree with it (metres and centimetres stand side by side on masonry drawings). Else the first of
 * mm, cm, m that makes the longest dimension 3 to 300 m and the ratio at least 10.
 *
 * @param mmPerPoint mm of paper in a user-space unit.
 * @returns null where no scale can be voted for, or no unit fits.
 */
export const resolveUnits = (voters: readonly Voter[], mmPerPoint: number): ResolvedVoters | null => {
  const withUnit = voters.filter(({ dimension }) => dimension.unit !== undefined);
  const plain = voters.filter(({ dimension }) => dimension.unit === undefined);
  const fixed = voteForScale(withUnit);
  const open = voteForScale(plain);
  if (fixed && (!open || fixed.weight * 1.5 >= open.weight)) {
    const all = [...withUnit, ...plainVotersAt(plain, fixed.unitsPerPoint)];
    return { voters: all, unit: commonUnit(fixed.supporters), unitAssumed: false, winner: fixed };
  }
  if (!open) return null;
  const unit = unitByRule(longestValue(plain, open), open.unitsPerPoint, mmPerPoint);
  if (!unit) return null;
  const winner: VoteResult = {
    unitsPerPoint: open.unitsPerPoint * MM_PER_UNIT[unit],
    weight: open.weight,
    supporters: open.supporters.map(({ voter, span }) => ({ voter: inMillimetres(voter, unit), span })),
  };
  return {
    voters: [...plain.map((voter) => inMillimetres(voter, unit)), ...withUnit],
    unit,
    unitAssumed: true,
    winner,
  };
};

const inMillimetres = (voter: Voter, unit: DrawingUnit): Voter => ({
  ...voter,
  value: voter.value * MM_PER_UNIT[unit],
  step: voter.step * MM_PER_UNIT[unit],
});

const plainVotersAt = (voters: readonly Voter[], mmPerPoint: number): readonly Voter[] => {
  let best: readonly Voter[] = [];
  let most = 0;
  for (const unit of ['mm', 'cm', 'm'] as const) {
    const inUnit = voters.map((voter) => inMillimetres(voter, unit));
    const agreeing = supportersOf(inUnit, mmPerPoint).length;
    if (agreeing > most) {
      most = agreeing;
      best = inUnit;
    }
  }
  return best;
};

const commonUnit = (supporters: readonly Supporter[]): DrawingUnit => {
  const counts = new Map<DrawingUnit, number>();
  for (const { voter } of supporters) {
    const unit = voter.dimension.unit ?? 'mm';
    counts.set(unit, (counts.get(unit) ?? 0) + 1);
  }
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? 'mm';
};

/** Of all that agree at all: a second pass lets coarse and lightly marked dimensions in, the longest among them. */
const longestValue = (voters: readonly Voter[], vote: VoteResult): number =>
  Math.max(
    ...vote.supporters.map(({ voter }) => voter.value),
    ...supportersOf(voters, vote.unitsPerPoint).map(({ voter }) => voter.value),
  );

const unitByRule = (longest: number, unitsPerPoint: number, mmPerPoint: number): DrawingUnit | null => {
  for (const unit of ['mm', 'cm', 'm'] as const) {
    const longestMm = longest * MM_PER_UNIT[unit];
    const ratio = (unitsPerPoint * MM_PER_UNIT[unit]) / mmPerPoint;
    if (longestMm >= LONGEST_BETWEEN_MM[0] && longestMm <= LONGEST_BETWEEN_MM[1] && ratio >= LEAST_RATIO)
      return unit;
  }
  return null;
};

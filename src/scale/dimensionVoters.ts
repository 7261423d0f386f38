import type { LineworkIndex } from '../sheet/lineworkIndex.ts';
import type { TextRun } from '../sheet/textRun.ts';
import { findSpans } from './dimensionSpans.ts';
import { type DrawingUnit, MM_PER_UNIT, readDimensionText } from './dimensionText.ts';
import { supportersOf, type VoteResult, voteForScale } from './dimensionVote.ts';
import { areMetresFeet, plainUnit, type UnitHints } from './drawingUnit.ts';
import { splitGroups } from './splitViews.ts';
import { withoutTables } from './tabulatedNumbers.ts';
import type { Supporter, Voter } from './voter.ts';

/** Drafting and export leave the ends of a line this uncertain, in points of paper. */
const DRAWN_UNCERTAINTY_PT = 0.05;

/** Every text of a sheet that may be a dimension and has a length beside it; known units in mm, others as written. */
export const findVoters = (
  text: readonly TextRun[],
  index: LineworkIndex,
  userUnit = 1,
): readonly Voter[] => {
  const endUncertainty = DRAWN_UNCERTAINTY_PT / userUnit;
  const voters: Voter[] = [];
  for (const run of text) {
    const dimension = readDimensionText(run.text);
    if (dimension.kind !== 'dimension') continue;
    const spans = findSpans(run, index);
    if (spans.length === 0) continue;
    const mm = dimension.unit ? MM_PER_UNIT[dimension.unit] : 1;
    voters.push({
      text: run,
      dimension,
      value: dimension.value * mm,
      step: dimension.step * mm,
      endUncertainty,
      spans,
    });
  }
  return clearest(withoutTables(voters, userUnit));
};

/** Sheets with more numbers than this have their clearest dimensions weighed: a vote takes the square of their number. */
const MOST_VOTERS = 2500;

const clearest = (voters: readonly Voter[]): readonly Voter[] => {
  if (voters.length <= MOST_VOTERS) return voters;
  const weightOf = ({ spans }: Voter): number => spans[0]?.weight ?? 0;
  return [...voters].sort((a, b) => weightOf(b) - weightOf(a)).slice(0, MOST_VOTERS);
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

/**
 * Settles the unit of numbers that have none. Where numbers with a unit prove a scale, plain ones beside them take the
 * unit in which most agree with it (metres and centimetres stand side by side on masonry drawings). Else see
 * {@link plainUnit}.
 *
 * @param mmPerPoint mm of paper in a user-space unit.
 * @returns null where no scale can be voted for, or no unit fits.
 */
export const resolveUnits = (
  voters: readonly Voter[],
  mmPerPoint: number,
  hints: UnitHints = { claimedRatios: [] },
): ResolvedVoters | null => {
  const withUnit = voters.filter(({ dimension }) => dimension.unit !== undefined);
  const plain = voters.filter(({ dimension }) => dimension.unit === undefined);
  const fixed = voteForScale(withUnit);
  const open = voteForScale(plain);
  // Plain numbers may outnumber those with a unit and still confirm them: 585 beside 1,300 on a drawing in mm.
  if (fixed && (!open || isSameScale(fixed, open) || fixed.weight * 1.5 >= open.weight)) {
    return byNumbersWithUnit(fixed, withUnit, plain, mmPerPoint, hints);
  }
  if (!open) return null;
  const byForm = unitThatOthersConfirm(withUnit, open.unitsPerPoint);
  const found = byForm
    ? { unit: byForm, isAssumed: false }
    : plainUnit(
        {
          longest: longestValue(plain, open),
          values: [...new Set(open.supporters.map(({ voter }) => voter.value))],
          unitsPerPaperMm: open.unitsPerPoint / mmPerPoint,
        },
        hints,
      );
  if (!found) return null;
  const { unit } = found;
  const winner: VoteResult = {
    unitsPerPoint: open.unitsPerPoint * MM_PER_UNIT[unit],
    weight: open.weight,
    supporters: open.supporters.map(({ voter, span }) => ({ voter: inMillimetres(voter, unit), span })),
  };
  return {
    voters: [...plain.map((voter) => inMillimetres(voter, unit)), ...withUnit],
    unit,
    unitAssumed: found.isAssumed,
    winner,
  };
};

/** The scale of numbers whose unit is known; those that are metres only by their decimals may be feet. */
const byNumbersWithUnit = (
  fixed: VoteResult,
  withUnit: readonly Voter[],
  plain: readonly Voter[],
  mmPerPoint: number,
  hints: UnitHints,
): ResolvedVoters => {
  const areMetresByForm = fixed.supporters.every(
    ({ voter: { dimension } }) => dimension.unitFrom === 'form' && dimension.unit === 'm',
  );
  const feet = areMetresByForm ? areMetresFeet(fixed.unitsPerPoint / mmPerPoint, hints) : null;
  if (!feet) {
    const all = [...withUnit, ...plainVotersAt(plain, fixed.unitsPerPoint)];
    return { voters: all, unit: commonUnit(fixed.supporters), unitAssumed: false, winner: fixed };
  }
  const factor = MM_PER_UNIT.ft / MM_PER_UNIT.m;
  const inFeet = (voter: Voter): Voter =>
    voter.dimension.unitFrom === 'form' && voter.dimension.unit === 'm'
      ? { ...voter, value: voter.value * factor, step: voter.step * factor }
      : voter;
  const winner: VoteResult = {
    unitsPerPoint: fixed.unitsPerPoint * factor,
    weight: fixed.weight,
    supporters: fixed.supporters.map(({ voter, span }) => ({ voter: inFeet(voter), span })),
  };
  return { voters: withUnit.map(inFeet), unit: 'ft', unitAssumed: feet.isAssumed, winner };
};

/** Units that a plain number may be in. */
const PLAIN_UNITS = ['mm', 'cm', 'm'] as const;

const isSameScale = (fixed: VoteResult, open: VoteResult): boolean =>
  PLAIN_UNITS.some(
    (unit) => Math.abs((open.unitsPerPoint * MM_PER_UNIT[unit]) / fixed.unitsPerPoint - 1) < 0.005,
  );

/** The unit in which plain numbers meet at least one number whose unit is known; undefined where none does. */
const unitThatOthersConfirm = (
  withUnit: readonly Voter[],
  unitsPerPoint: number,
): DrawingUnit | undefined => {
  let best: DrawingUnit | undefined;
  let most = 0;
  for (const unit of PLAIN_UNITS) {
    const clear = supportersOf(withUnit, unitsPerPoint * MM_PER_UNIT[unit]).filter(
      ({ voter, span }) => span.weight >= 0.8 * (voter.spans[0]?.weight ?? 0),
    );
    if (clear.length > most) {
      most = clear.length;
      best = unit;
    }
  }
  return best;
};

const inMillimetres = (voter: Voter, unit: DrawingUnit): Voter => ({
  ...voter,
  value: voter.value * MM_PER_UNIT[unit],
  step: voter.step * MM_PER_UNIT[unit],
});

const plainVotersAt = (voters: readonly Voter[], mmPerPoint: number): readonly Voter[] => {
  let best: readonly Voter[] = [];
  let most = 0;
  for (const unit of PLAIN_UNITS) {
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

/**
 * Of all that agree at all: a second pass lets coarse and lightly marked dimensions in, the longest among them. Views
 * beside, each with its scale, are of the same sheet and its unit.
 */
const longestValue = (voters: readonly Voter[], vote: VoteResult): number => {
  let longest = 0;
  let left = voters;
  let next: VoteResult | null = vote;
  for (let view = 0; next && view < MOST_VIEWS_LOOKED_AT; view++) {
    const agreeing: readonly Supporter[] = [...next.supporters, ...supportersOf(left, next.unitsPerPoint)];
    longest = Math.max(longest, ...agreeing.map(({ voter }) => voter.value));
    const taken = new Set(agreeing.map(({ voter }) => voter.text));
    left = left.filter(({ text }) => !taken.has(text));
    const beside: VoteResult | null = voteForScale(left);
    next = beside && splitGroups(vote.supporters, beside.supporters) ? beside : null;
  }
  return longest;
};

/** So many views are enough to tell the unit of a sheet. */
const MOST_VIEWS_LOOKED_AT = 4;

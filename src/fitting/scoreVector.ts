import type { FitScore } from './fitAnswer.ts';
import type { FitOrder } from './problemSchema.ts';

/**
 * A score inside the solver: integers in the order of `FitScore`, and one more. Leftover is in micrometres, displacement in
 * half micrometres (a centre may lie between two of them), price in ten-thousandths. Scores add over stretches and
 * corners and are compared place by place, so the best whole is made of best parts.
 */
export type ScoreVector = readonly number[];

export const UNPLACED = 0;
export const MADE_TO_MEASURE = 1;
export const LEFTOVER = 2;
export const FILLERS = 3;
export const PIECES = 4;
export const DISPLACEMENT = 5;
export const PRICE = 6;
/** Length to be made to measure, in micrometres: not published, only compared by some orders. Absent means 0. */
export const MADE_LENGTH = 7;

export const zeroScore: ScoreVector = [0, 0, 0, 0, 0, 0, 0];

/** In which sequence the places of a score are compared. */
export type ScoreSequence = readonly number[];

/**
 * The named orders. `best` is DESIGN section 5. The others lead with what they are named for, but never leave out a
 * station for it; and because no piece at all is both the fewest and the cheapest, `pieces` and `price` also never
 * buy their lead with a made-to-measure piece or a longer one.
 */
export const scoreSequences: Readonly<Record<FitOrder, ScoreSequence>> = {
  best: [UNPLACED, MADE_TO_MEASURE, LEFTOVER, FILLERS, PIECES, DISPLACEMENT, PRICE],
  pieces: [UNPLACED, MADE_TO_MEASURE, MADE_LENGTH, PIECES, LEFTOVER, FILLERS, DISPLACEMENT, PRICE],
  price: [UNPLACED, MADE_TO_MEASURE, MADE_LENGTH, PRICE, LEFTOVER, FILLERS, PIECES, DISPLACEMENT],
  position: [UNPLACED, DISPLACEMENT, MADE_TO_MEASURE, LEFTOVER, FILLERS, PIECES, PRICE],
};

/** The score of two parts together: every entry adds up. */
export const addScores = (a: ScoreVector, b: ScoreVector): ScoreVector => [
  a[0]! + b[0]!,
  a[1]! + b[1]!,
  a[2]! + b[2]!,
  a[3]! + b[3]!,
  a[4]! + b[4]!,
  a[5]! + b[5]!,
  a[6]! + b[6]!,
  (a[7] ?? 0) + (b[7] ?? 0),
];

/** Below 0 where `a` is better than `b`, 0 where they are equal. */
export const compareScores = (a: ScoreVector, b: ScoreVector, sequence: ScoreSequence): number => {
  for (let rank = 0; rank < sequence.length; rank += 1) {
    const place = sequence[rank]!;
    const difference = (a[place] ?? 0) - (b[place] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
};

/** As `compareScores` of the sum of `a` and `b` with `other`, without making that sum. */
export const compareSum = (
  a: ScoreVector,
  b: ScoreVector,
  other: ScoreVector,
  sequence: ScoreSequence,
): number => {
  for (let rank = 0; rank < sequence.length; rank += 1) {
    const place = sequence[rank]!;
    const difference = (a[place] ?? 0) + (b[place] ?? 0) - (other[place] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
};

const pricePerUnit = 10_000;

/** A price as an integer of ten-thousandths, so that sums do not depend on their order. */
export const priceUnits = (price: number | undefined): number => Math.round((price ?? 0) * pricePerUnit);

/** The score of the contract, in mm. */
export const publishedScore = (score: ScoreVector): FitScore => ({
  unplaced: score[UNPLACED]!,
  madeToMeasure: score[MADE_TO_MEASURE]!,
  leftoverMm: score[LEFTOVER]! / 1000,
  fillers: score[FILLERS]!,
  pieces: score[PIECES]!,
  displacementMm: score[DISPLACEMENT]! / 2000,
  price: score[PRICE]! / pricePerUnit,
});

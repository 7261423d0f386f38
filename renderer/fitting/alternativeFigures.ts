import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import type { FitProblem } from '../../src/fitting/problemSchema.ts';
import { costOfFit } from '../../src/quote/costOfFit.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import { formatMoney, minorDigitsOf, moneyOf } from '../../src/units/money.ts';

/** The numbers by which an estimator compares fits. Lengths in mm, the price in the range's currency. */
export interface AlternativeFigures {
  readonly unplaced: number;
  readonly leftoverMm: number;
  readonly madeToMeasure: number;
  readonly fillers: number;
  readonly joints: number;
  readonly pieces: number;
  readonly widestMm: number;
  readonly movedMm: number;
  /** Pieces, leftovers and extras after the range's rules. */
  readonly price: number;
  /** How many lines the range gives no price for. */
  readonly unpriced: number;
}

export const figuresOf = (
  problem: FitProblem,
  alternative: FitAlternative,
  range: StockRange,
): AlternativeFigures => {
  const cost = costOfFit({ name: '', number: 1, problem }, alternative, range);
  const { score } = alternative;
  return {
    unplaced: score.unplaced,
    leftoverMm: score.leftoverMm,
    madeToMeasure: score.madeToMeasure,
    fillers: score.fillers,
    joints: cost.joints,
    pieces: score.pieces,
    widestMm: Math.max(0, ...alternative.pieces.map(({ fromMm, toMm, widthMm }) => widthMm ?? toMm - fromMm)),
    movedMm: score.displacementMm,
    price: cost.goods.minor / 10 ** minorDigitsOf(range.currency),
    unpriced: cost.withoutPrice,
  };
};

/** A price in whole units of its currency, as it is compared; cents stand in the schedule. */
export const wholePriceWords = (price: number, currency: string): string => {
  const whole = Math.round(price) * 10 ** minorDigitsOf(currency);
  return formatMoney(moneyOf(whole, currency)).replace(/\.0+$/, '');
};

const difference = (by: number, one: string, many: string): readonly string[] =>
  by === 0 ? [] : [`${Math.abs(by)} ${by > 0 ? 'more' : 'fewer'} ${Math.abs(by) === 1 ? one : many}`];

/** What an alternative has that the fit shown has not, in words and small numbers; empty where they come to the same. */
export const differenceFrom = (
  shown: AlternativeFigures,
  other: AlternativeFigures,
  given: { readonly unit: DisplayUnit; readonly currency: string },
): readonly string[] => {
  const length = (mm: number) => formatLength(Math.abs(mm), { unit: given.unit });
  const leftoverMm = other.leftoverMm - shown.leftoverMm;
  const movedMm = other.movedMm - shown.movedMm;
  const price = Math.round(other.price) - Math.round(shown.price);
  return [
    ...difference(other.unplaced - shown.unplaced, 'station left out', 'stations left out'),
    ...difference(other.madeToMeasure - shown.madeToMeasure, 'made to measure', 'made to measure'),
    ...(Math.abs(leftoverMm) < 0.5
      ? []
      : [`${length(leftoverMm)} ${leftoverMm > 0 ? 'more' : 'less'} left over`]),
    ...difference(other.fillers - shown.fillers, 'filler', 'fillers'),
    ...difference(other.pieces - shown.pieces, 'piece', 'pieces'),
    ...difference(other.joints - shown.joints, 'joint', 'joints'),
    ...(other.widestMm < shown.widestMm ? [`no piece wider than ${length(other.widestMm)}`] : []),
    ...(Math.abs(movedMm) < 0.5
      ? []
      : [`stations ${length(movedMm)} ${movedMm > 0 ? 'further from' : 'nearer to'} their places`]),
    ...(price === 0
      ? []
      : [`${wholePriceWords(Math.abs(price), given.currency)} ${price > 0 ? 'dearer' : 'cheaper'}`]),
  ];
};

import type { FitAlternative } from '../fitting/fitAnswer.ts';
import type { FitProblem } from '../fitting/problemSchema.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { type Money, sumMoney } from '../units/money.ts';
import { fitLines } from './fitLines.ts';
import { priceLine } from './quoteLine.ts';
import { topJoints } from './topJoints.ts';

/** What a fit comes to, for holding one beside another. */
export interface CostOfFit {
  readonly pieces: number;
  /** Joints between tops. */
  readonly joints: number;
  readonly madeToMeasure: number;
  /** Pieces, corners, leftovers and extras at the range's prices, before discount, freight and tax. */
  readonly goods: Money;
  /** Lines that have no price and are in no sum. */
  readonly withoutPrice: number;
}

/** Pieces, joints, made-to-measure pieces and money of one fit of a run. */
export const costOfFit = (
  run: { readonly name: string; readonly number: number; readonly problem: FitProblem },
  alternative: FitAlternative,
  range: StockRange,
): CostOfFit => {
  const lines = fitLines({ ...run, alternative, others: [], questions: [] }, range).map((line) =>
    priceLine(line, range.currency),
  );
  return {
    pieces: alternative.score.pieces,
    joints: topJoints(run.problem, alternative),
    madeToMeasure: alternative.score.madeToMeasure,
    goods: sumMoney(
      lines.flatMap(({ amount }) => (amount ? [amount] : [])),
      range.currency,
    ),
    withoutPrice: lines.filter(({ amount }) => amount === null).length,
  };
};

/** The costs of several runs together. */
export const sumOfCosts = (costs: readonly CostOfFit[], currency: string): CostOfFit => {
  const sum = (count: (cost: CostOfFit) => number) => costs.reduce((total, cost) => total + count(cost), 0);
  return {
    pieces: sum(({ pieces }) => pieces),
    joints: sum(({ joints }) => joints),
    madeToMeasure: sum(({ madeToMeasure }) => madeToMeasure),
    goods: sumMoney(
      costs.map(({ goods }) => goods),
      currency,
    ),
    withoutPrice: sum(({ withoutPrice }) => withoutPrice),
  };
};

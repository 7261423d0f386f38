import { micrometres } from './micrometre.ts';
import type { FitProblem, StockItem } from './problemSchema.ts';
import { priceUnits } from './scoreVector.ts';

/** A stock piece as the solver sees it. Width in micrometres, price in ten-thousandths. */
export interface FillItem {
  readonly id: string;
  readonly widthUm: number;
  readonly carried: boolean;
  readonly price: number;
}

/** Whether a stock piece may be used where nobody asked for it; pieces that take no length never are. */
const isFill = (item: StockItem): boolean =>
  (item.support === 'standing' || item.support === 'carried') && (item.fill ?? item.support === 'standing');

/** Whether a piece is narrow enough for `maxWidthMm`, which bounds every piece, wanted or not. */
export const isNarrowEnough = (problem: FitProblem, item: StockItem): boolean =>
  problem.maxWidthMm === undefined || micrometres(item.widthMm) <= micrometres(problem.maxWidthMm);

/**
 * The stock used as fill, widest first. Of pieces that are alike in width and support only the cheapest is kept, and
 * of equally cheap ones the first by id: the others can never be in a better fit. The result does not depend on the
 * sequence of the stock list.
 */
export const fillStock = (problem: FitProblem): readonly FillItem[] => {
  const byKind = new Map<string, FillItem>();
  for (const item of problem.stock) {
    if (!isFill(item) || !isNarrowEnough(problem, item)) continue;
    const fill: FillItem = {
      id: item.id,
      widthUm: micrometres(item.widthMm),
      carried: item.support === 'carried',
      price: priceUnits(item.price),
    };
    const kind = `${fill.widthUm}/${fill.carried}`;
    const kept = byKind.get(kind);
    if (kept === undefined || fill.price < kept.price || (fill.price === kept.price && fill.id < kept.id)) {
      byKind.set(kind, fill);
    }
  }
  return [...byKind.values()].sort((a, b) => b.widthUm - a.widthUm || Number(a.carried) - Number(b.carried));
};

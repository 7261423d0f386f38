import { micrometres } from './micrometre.ts';
import type { FitProblem, StockItem } from './problemSchema.ts';
import { ruledItems } from './ruledItems.ts';
import { priceUnits } from './scoreVector.ts';

/** A stock piece as the solver sees it. Width in micrometres, price in ten-thousandths. */
export interface FillItem {
  readonly id: string;
  readonly widthUm: number;
  /** Its own width, where that is not what it takes of the front: on an arc. */
  readonly ownUm?: number;
  readonly carried: boolean;
  readonly price: number;
}

/** Whether a stock piece may be used where nobody asked for it; pieces that take no length never are. */
const isFill = (item: StockItem): boolean =>
  (item.support === 'standing' || item.support === 'carried') && (item.fill ?? item.support === 'standing');

/** Whether a piece is no deeper than the run; one without a depth is made to it. */
export const isShallowEnough = (problem: FitProblem, item: StockItem): boolean =>
  item.depthMm === undefined || micrometres(item.depthMm) <= micrometres(problem.depthMm);

/** The depth that a piece takes on this run. */
export const depthUmOf = (problem: FitProblem, item: StockItem): number =>
  micrometres(item.depthMm ?? problem.depthMm);

/** Whether a piece is narrow enough for `maxWidthMm`, which bounds every piece, wanted or not. */
export const isNarrowEnough = (problem: FitProblem, item: StockItem): boolean =>
  problem.maxWidthMm === undefined || micrometres(item.widthMm) <= micrometres(problem.maxWidthMm);

/**
 * The stock used as fill, widest first. Of pieces that are alike in width and support only the cheapest is kept, and
 * of equally cheap ones the first by id: the others can never be in a better fit. The result does not depend on the
 * sequence of the stock list.
 */
export const fillStock = (problem: FitProblem): readonly FillItem[] => {
  const ruled = ruledItems(problem);
  const hasColumns = problem.straights.some(({ columns = [] }) => columns.length > 0);
  const byKind = new Map<string, FillItem>();
  for (const item of problem.stock) {
    if (!isFill(item) || !isNarrowEnough(problem, item) || !isShallowEnough(problem, item)) continue;
    const fill: FillItem = {
      id: item.id,
      widthUm: micrometres(item.widthMm),
      carried: item.support === 'carried',
      price: priceUnits(item.price),
    };
    // Where columns or rules tell pieces apart, those alike in width are not alike.
    const depth = hasColumns ? depthUmOf(problem, item) : '';
    const kind = `${fill.widthUm}/${fill.carried}/${depth}/${ruled.has(item.id) ? item.id : ''}`;
    const kept = byKind.get(kind);
    if (kept === undefined || fill.price < kept.price || (fill.price === kept.price && fill.id < kept.id)) {
      byKind.set(kind, fill);
    }
  }
  return [...byKind.values()].sort(
    (a, b) => b.widthUm - a.widthUm || Number(a.carried) - Number(b.carried) || (a.id < b.id ? -1 : 1),
  );
};

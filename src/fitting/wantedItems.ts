import type { FitProblem, StockItem, WantedStation } from './problemSchema.ts';

/**
 * The stock items that would answer a wanted station, in the sequence of their ids: the item that it names, or the
 * items of the pair that it names, of its hand where it asks for one.
 */
export const wantedItems = (problem: FitProblem, wish: WantedStation): readonly StockItem[] => {
  const named = problem.stock.filter(({ id }) => id === wish.item);
  if (named.length > 0) return named;
  return problem.stock
    .filter(({ handOf, hand }) => handOf === wish.item && (wish.hand === undefined || hand === wish.hand))
    .sort((a, b) => (a.id < b.id ? -1 : 1));
};

/** The side, along the front of the run, at which an item must be free; nothing where it does not matter. */
export const freeSideOf = (problem: FitProblem, { hand }: StockItem): 'start' | 'end' | undefined => {
  if (hand === undefined) return undefined;
  return hand === (problem.startHand ?? 'left') ? 'start' : 'end';
};

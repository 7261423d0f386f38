import { handPairOf } from './handPair.ts';
import type { StockItem, StockRange } from './stockSchema.ts';

/** The item that a fitting problem's wish names: by its id, or as one of a pair, whichever hand comes first. */
export const wantedItemOf = (range: StockRange, wanted: string): StockItem | undefined =>
  range.items.find(({ id }) => id === wanted) ??
  range.items.find((item) => handPairOf(range, item) === wanted);

/** What a wish of a fitting problem is called; what it says itself where the range does not have it. */
export const nameOfWanted = (range: StockRange, wanted: string): string =>
  wantedItemOf(range, wanted)?.name ?? wanted;

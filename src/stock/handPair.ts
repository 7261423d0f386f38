import { otherHandOf } from './otherHand.ts';
import type { StockItem, StockRange } from './stockSchema.ts';

/**
 * What both hands of an item are called together in a fitting problem: its `handOf`, or a name made of both ids where
 * the range has its mirror image without saying so. Undefined for an item without another hand. No id has this form, so
 * that it is never taken for a piece.
 */
export const handPairOf = (range: StockRange, item: StockItem): string | undefined => {
  if (item.hand === undefined) return undefined;
  if (item.handOf !== undefined) return item.handOf;
  const other = otherHandOf(range, item);
  return other === undefined || other.handOf !== undefined
    ? undefined
    : [item.id, other.id].sort().join(' / ');
};

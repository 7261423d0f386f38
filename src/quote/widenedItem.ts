import { travellingWidened } from '../access/travellingPiece.ts';
import type { StockItem, StockRange } from '../stock/stockSchema.ts';

const figure = (mm: number): string => String(Math.round(mm * 10) / 10);

/** `Module 1500, made 1650 mm wide`. */
export const widenedName = (item: StockItem, widenedMm: number): string =>
  `${item.name}, made ${figure(item.widthMm + widenedMm)} mm wide`;

/** A stock item that a fit has made wider: its name, its own price with the range's for widening, its mass worked out. */
export const widenedItem = (
  range: StockRange,
  item: StockItem,
  widenedMm: number,
  /** Null where the run's depth is not known: then neither is the mass, unless the item has a depth of its own. */
  runDepthMm: number | null,
): { readonly name: string; readonly price: number | null; readonly massKg: number | null } => ({
  name: widenedName(item, widenedMm),
  price:
    item.price === undefined
      ? null
      : Math.round((item.price + range.madeToMeasure.wideningPrice) * 100) / 100,
  massKg:
    runDepthMm === null && item.depthMm === undefined
      ? null
      : travellingWidened(range, item, widenedMm, { depthMm: runDepthMm ?? 0 }).piece.massKg,
});

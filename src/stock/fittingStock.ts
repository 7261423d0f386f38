import { handPairOf } from './handPair.ts';
import type { StockItem, StockRange, Support } from './stockSchema.ts';

/** A stock line as the fitting contract takes it. */
export interface FittingStockItem {
  readonly id: string;
  readonly widthMm: number;
  readonly support: Support;
  readonly fill?: boolean;
  readonly price?: number;
  readonly massKg?: number;
  readonly depthMm?: number;
  readonly hand?: 'left' | 'right';
  readonly handOf?: string;
  readonly beside?: readonly string[];
  readonly clearOf?: readonly { readonly item: string; readonly distanceMm: number }[];
}

/** A corner unit as the fitting contract takes it. */
export interface FittingCornerUnit {
  readonly id: string;
  readonly sizeMm: number;
  readonly price?: number;
}

const handOfItem = (range: StockRange, item: StockItem): Pick<FittingStockItem, 'hand' | 'handOf'> => {
  const pair = handPairOf(range, item);
  return {
    ...(item.hand === undefined ? {} : { hand: item.hand }),
    ...(pair === undefined ? {} : { handOf: pair }),
  };
};

/**
 * The part of a stock range that the fitting contract takes: its `stock` and `cornerUnits`.
 *
 * With `depthMm` (the run's depth) it leaves out what can't stand there: items deeper than the run, and corner units
 * smaller than the depth. With `hands` it says which hand each item is and what pair it belongs to; then the problem
 * must say on which hand its run starts (`startHand`).
 */
export const fittingStock = (
  range: StockRange,
  run: { readonly depthMm?: number; readonly hands?: boolean } = {},
): { readonly stock: readonly FittingStockItem[]; readonly cornerUnits: readonly FittingCornerUnit[] } => {
  const depthMm = run.depthMm;
  return {
    stock: range.items
      .filter((item) => depthMm === undefined || item.depthMm === undefined || item.depthMm <= depthMm)
      .map((item) => ({
        id: item.id,
        widthMm: item.widthMm,
        support: item.support,
        ...(item.fill === undefined ? {} : { fill: item.fill }),
        ...(item.price === undefined ? {} : { price: item.price }),
        ...(item.massKg === undefined ? {} : { massKg: item.massKg }),
        ...(item.depthMm === undefined ? {} : { depthMm: item.depthMm }),
        ...(run.hands ? handOfItem(range, item) : {}),
        ...(item.beside === undefined || item.beside.length === 0 ? {} : { beside: item.beside }),
        ...(item.clearOf === undefined || item.clearOf.length === 0 ? {} : { clearOf: item.clearOf }),
      })),
    cornerUnits: range.cornerUnits
      .filter((unit) => depthMm === undefined || unit.sizeMm >= depthMm)
      .map((unit) => ({
        id: unit.id,
        sizeMm: unit.sizeMm,
        ...(unit.price === undefined ? {} : { price: unit.price }),
      })),
  };
};

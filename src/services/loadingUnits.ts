import type { StockItem } from '../stock/stockSchema.ts';
import { drainedApplianceOf } from './drainageTotal.ts';
import type { ServicePoint } from './servicePoint.ts';

/**
 * Draw-off points by loading units: EN 806-3:2006, Table 2 (read in a copy). One loading unit is a draw-off of 0.1 l/s.
 * The table asks for non-domestic appliances to be checked with their manufacturer, and 5.1 limits the method to
 * standard installations: an indication for whoever sizes the pipes, never a size.
 */
const table2 = { washbasin: 1, sink: 2 } as const;

/** The loading units of one draw-off point; null for what the table does not know. */
export const loadingUnitsOf = (item: Pick<StockItem, 'elevation'> | undefined): number | null => {
  const appliance = drainedApplianceOf(item);
  if (appliance === 'washbasin') return table2.washbasin;
  return appliance === 'kitchen-sink' ? table2.sink : null;
};

/** What the water of a project draws by the standard's table, and which draw-off points the table does not know. */
export interface WaterTotal {
  readonly cold: number;
  readonly hot: number;
  /** Draw-off points in no sum: how many, by item name. */
  readonly notInTable: readonly { readonly itemName: string; readonly count: number }[];
}

/** Sums loading units of cold and of hot water. */
export const waterTotal = (
  points: readonly ServicePoint[],
  itemOf: (id: string) => Pick<StockItem, 'elevation'> | undefined,
): WaterTotal => {
  const sums = { 'cold-water': 0, 'hot-water': 0 };
  const notInTable = new Map<string, number>();
  for (const { kind, asker, item, itemName, count } of points) {
    if (kind !== 'cold-water' && kind !== 'hot-water') continue;
    const units = asker.kind === 'piece' ? loadingUnitsOf(itemOf(item)) : null;
    if (units === null) notInTable.set(itemName, (notInTable.get(itemName) ?? 0) + count);
    else sums[kind] += units * count;
  }
  return {
    cold: sums['cold-water'],
    hot: sums['hot-water'],
    notInTable: [...notInTable].map(([itemName, count]) => ({ itemName, count })),
  };
};

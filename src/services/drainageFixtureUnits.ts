import type { StockItem } from '../stock/stockSchema.ts';
import { drainedApplianceOf } from './drainageTotal.ts';
import type { ServicePoint } from './servicePoint.ts';

/**
 * Drainage fixture units of the Uniform Plumbing Code, Table 702.1 (lavatory read in a county's excerpt, commercial bar
 * sink with a 2 in trap in a course's table): an example for places under that code. Editions differ and other places
 * have other tables (IPC 709.1): the code of the place decides.
 */
const table = { lavatory: 1, barSinkCommercial: 2 } as const;

/** The fixture units of one waste; null for what the table does not name plainly. */
export const drainageFixtureUnitsOf = (item: Pick<StockItem, 'elevation'> | undefined): number | null => {
  const appliance = drainedApplianceOf(item);
  if (appliance === 'washbasin') return table.lavatory;
  return appliance === 'kitchen-sink' ? table.barSinkCommercial : null;
};

/** The fixture units of a project's wastes, and which wastes are in no sum. */
export const fixtureUnitTotal = (
  points: readonly ServicePoint[],
  itemOf: (id: string) => Pick<StockItem, 'elevation'> | undefined,
): {
  readonly units: number;
  readonly notInTable: readonly { readonly itemName: string; readonly count: number }[];
} => {
  let units = 0;
  const notInTable = new Map<string, number>();
  for (const { kind, asker, item, itemName, count } of points) {
    if (kind !== 'waste') continue;
    const own = asker.kind === 'piece' ? drainageFixtureUnitsOf(itemOf(item)) : null;
    if (own === null) notInTable.set(itemName, (notInTable.get(itemName) ?? 0) + count);
    else units += own * count;
  }
  return { units, notInTable: [...notInTable].map(([itemName, count]) => ({ itemName, count })) };
};

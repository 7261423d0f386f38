import type { StockItem } from '../stock/stockSchema.ts';
import {
  type DrainageSystem,
  type DrainedAppliance,
  dischargeUnit,
  RESTAURANT_FREQUENCY_FACTOR,
  wasteFlow,
} from './dischargeUnits.ts';
import type { ServicePoint } from './servicePoint.ts';

/** What the wastes of a project discharge by the standard's table, and which of them the table does not know. */
export interface DrainageTotal {
  readonly system: DrainageSystem;
  readonly frequencyFactor: number;
  /** Wastes that the table has a discharge unit for. */
  readonly counted: readonly {
    readonly appliance: DrainedAppliance;
    readonly count: number;
    readonly unit: number;
  }[];
  readonly sumOfUnits: number;
  /** Indicative flow of what is counted, l/s. */
  readonly flowLitresPerSecond: number;
  /** Wastes without a discharge unit in the table (drip trays, rinsers, ice wells): how many, by item name. */
  readonly notInTable: readonly { readonly itemName: string; readonly count: number }[];
}

/** The appliance of the standard's table that an item’s waste belongs to, by what the item shows: a basin or a sink. */
export const drainedApplianceOf = (
  item: Pick<StockItem, 'elevation'> | undefined,
): DrainedAppliance | null => {
  const shown = (item?.elevation ?? []).map(({ feature }) => feature);
  if (shown.includes('sink')) return 'kitchen-sink';
  return shown.includes('basin') ? 'washbasin' : null;
};

/**
 * The same of a service point. A glasswasher by others belongs to the table's dishwasher; what other equipment drains, the
 * table does not know.
 */
export const drainedApplianceAt = (
  { asker, item }: Pick<ServicePoint, 'asker' | 'item'>,
  itemOf: (id: string) => Pick<StockItem, 'elevation'> | undefined,
): DrainedAppliance | null => {
  if (asker.kind === 'piece') return drainedApplianceOf(itemOf(item));
  return asker.equipment === 'glasswasher' ? 'dishwasher' : null;
};

/** Sums the wastes among service points by the table of one drainage system; the restaurant's frequency factor. */
export const drainageTotal = (
  points: readonly ServicePoint[],
  itemOf: (id: string) => Pick<StockItem, 'elevation'> | undefined,
  system: DrainageSystem = 'I',
): DrainageTotal => {
  const counted = new Map<DrainedAppliance, { count: number; unit: number }>();
  const notInTable = new Map<string, number>();
  const units: number[] = [];
  for (const point of points) {
    const { kind, itemName, count } = point;
    if (kind !== 'waste') continue;
    const appliance = drainedApplianceAt(point, itemOf);
    const unit = appliance && dischargeUnit(appliance, system);
    if (appliance === null || unit === null) {
      notInTable.set(itemName, (notInTable.get(itemName) ?? 0) + count);
      continue;
    }
    counted.set(appliance, { count: (counted.get(appliance)?.count ?? 0) + count, unit });
    for (let one = 0; one < count; one += 1) units.push(unit);
  }
  return {
    system,
    frequencyFactor: RESTAURANT_FREQUENCY_FACTOR,
    counted: [...counted].map(([appliance, entry]) => ({ appliance, ...entry })),
    sumOfUnits: units.reduce((sum, unit) => sum + unit, 0),
    flowLitresPerSecond: wasteFlow(units, RESTAURANT_FREQUENCY_FACTOR),
    notInTable: [...notInTable].map(([itemName, count]) => ({ itemName, count })),
  };
};

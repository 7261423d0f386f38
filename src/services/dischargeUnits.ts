/**
 * Waste-water flow by discharge units: EN 12056-2:2000, Tables 2 (discharge units) and 3 (frequency factor), read in a
 * copy. Household appliances only: clause 6.2.3 excludes commercial kitchens, so that this is an indication for the
 * drainage designer and never a design.
 */

/** The four kinds of drainage system that the standard tells apart. */
export type DrainageSystem = 'I' | 'II' | 'III' | 'IV';

export const drainedAppliances = ['washbasin', 'kitchen-sink', 'dishwasher', 'floor-gully-dn-50'] as const;
export type DrainedAppliance = (typeof drainedAppliances)[number];

/** Table 2, l/s, in the order of systems I to IV; null where the table gives none. */
const table2: Readonly<Record<DrainedAppliance, readonly (number | null)[]>> = {
  washbasin: [0.5, 0.3, 0.3, 0.3],
  'kitchen-sink': [0.8, 0.6, 1.3, 0.5],
  dishwasher: [0.8, 0.6, 0.2, 0.5],
  'floor-gully-dn-50': [0.8, 0.9, null, 0.6],
};

const column: Readonly<Record<DrainageSystem, number>> = { I: 0, II: 1, III: 2, IV: 3 };

/** Table 3, K: how often appliances run together. */
export const frequencyFactors = { intermittent: 0.5, frequent: 0.7, congested: 1, special: 1.2 } as const;

/** Table 3: frequent use, as in hospital, school, restaurant, hotel. */
export const RESTAURANT_FREQUENCY_FACTOR = frequencyFactors.frequent;

/** Table 2: the discharge unit of an appliance, l/s; null where the table has none for that system. */
export const dischargeUnit = (appliance: DrainedAppliance, system: DrainageSystem): number | null => {
  const unit = table2[appliance][column[system]];
  return unit ?? null;
};

/**
 * Waste-water flow in l/s: Q = K x sqrt(sum of DU), and never less than the largest single discharge unit
 * (EN 12056-2:2000, 6.3.1 and 6.3.4; the second read in a secondary text). Zero for nothing.
 *
 * @example wasteFlow([0.5, 0.8, 0.8], 0.7) // 1.0144
 */
export const wasteFlow = (units: readonly number[], factor: number): number =>
  Math.max(0, factor * Math.sqrt(units.reduce((sum, unit) => sum + unit, 0)), ...units);

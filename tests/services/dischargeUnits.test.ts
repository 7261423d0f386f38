import { describe, expect, it } from 'vitest';
import {
  type DrainageSystem,
  dischargeUnit,
  frequencyFactors,
  RESTAURANT_FREQUENCY_FACTOR,
  wasteFlow,
} from '../../src/services/dischargeUnits.ts';

/** EN 12056-2:2000, Table 2, l/s, systems I to IV (read in a copy). */
const table2 = [
  ['washbasin', [0.5, 0.3, 0.3, 0.3]],
  ['kitchen-sink', [0.8, 0.6, 1.3, 0.5]],
  ['dishwasher', [0.8, 0.6, 0.2, 0.5]],
  ['floor-gully-dn-50', [0.8, 0.9, null, 0.6]],
] as const;

describe('waste-water flow after EN 12056-2:2000', () => {
  it('has the discharge units of Table 2', () => {
    for (const [appliance, units] of table2) {
      expect(
        (['I', 'II', 'III', 'IV'] as DrainageSystem[]).map((system) => dischargeUnit(appliance, system)),
      ).toEqual(units);
    }
  });

  it('has the frequency factors of Table 3, 0.7 for restaurants', () => {
    expect(Object.values(frequencyFactors)).toEqual([0.5, 0.7, 1, 1.2]);
    expect(RESTAURANT_FREQUENCY_FACTOR).toBe(0.7);
  });

  it('gives 1.0144 l/s for a basin, a sink and a dishwasher: 0.7 x sqrt(2.1)', () => {
    expect(wasteFlow([0.5, 0.8, 0.8], 0.7)).toBeCloseTo(1.0144, 4);
  });

  it('is never less than the largest single unit', () => {
    expect(wasteFlow([0.8], 0.7)).toBe(0.8);
    expect(wasteFlow([0.8, 0.3], 0.7)).toBe(0.8);
    expect(wasteFlow([], 0.7)).toBe(0);
  });
});

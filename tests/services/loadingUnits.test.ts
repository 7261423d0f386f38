import { describe, expect, it } from 'vitest';
import { servicesSchedule } from '../../src/services/servicesSchedule.ts';
import { drainageSentences, waterSentences } from '../../src/services/servicesWords.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { fitOf, runAt } from './fittedRun.ts';

const run = runAt(
  [
    [0, 0],
    [500, 0],
  ],
  'left',
);
const alternative = fitOf([
  { straight: 0, item: 'module-1800', fromMm: 0, toMm: 1_800 },
  { straight: 0, item: 'hand-basin-11l', fromMm: 100, toMm: 480, host: 0 },
  { straight: 0, item: 'wash-sink-400', fromMm: 600, toMm: 1_040, host: 0 },
  { straight: 0, item: 'cocktail-station-1200', fromMm: 2_400, toMm: 3_600 },
]);
const schedule = servicesSchedule(
  [{ run, alternative, scale: { ratio: 50, relativeUncertainty: 0, userUnit: 1 } }],
  demoRange,
);

describe('the water that a bar draws', () => {
  it('counts a hand basin as 1 and a sink as 2 loading units: EN 806-3:2006, Table 2 (read in a copy)', () => {
    // Basin and sink draw cold and hot: 1 + 2 each.
    expect(schedule.water).toMatchObject({ cold: 3, hot: 3 });
    expect(schedule.water.notInTable.map(({ itemName }) => itemName)).toEqual(['Cocktail station 1200']);
    expect(waterSentences(schedule).join(' ')).toContain('cold 3, hot 3');
  });

  it('drains by fixture units where a place counts in them: UPC, Table 702.1 (from secondary texts)', () => {
    // Lavatory 1, commercial bar sink 2; the cocktail station's ice well is in no table.
    expect(schedule.fixtureUnits.units).toBe(3);
    expect(drainageSentences(schedule, 'us').join(' ')).toContain('3 DFU');
    expect(drainageSentences(schedule, 'metric').join(' ')).toContain('EN 12056-2:2000');
  });
});

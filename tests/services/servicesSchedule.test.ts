import { describe, expect, it } from 'vitest';
import { gapLinesOf, lineDiameterMm } from '../../src/services/servicesGap.ts';
import { servicesSchedule } from '../../src/services/servicesSchedule.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { fitOf, runAt } from './fittedRun.ts';

const scale = { ratio: 50, relativeUncertainty: 0, userUnit: 1 };
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
  { straight: 0, item: 'beer-station-600', fromMm: 1_800, toMm: 2_400 },
  { straight: 0, item: 'cocktail-station-1200', fromMm: 2_400, toMm: 3_600 },
  { straight: 0, item: 'blender-station-400', fromMm: 3_600, toMm: 4_000 },
]);
const schedule = servicesSchedule([{ run, alternative, scale }], demoRange);

describe('the services schedule', () => {
  it('totals every trade: added up by hand from the range', () => {
    expect(schedule.trades.map(({ trade, points }) => [trade, points])).toEqual([
      // cold 3, hot 2; waste 4: basin, sink, beer station, cocktail station
      ['plumbing', 9],
      ['electrical', 3],
      ['dispense', 8],
    ]);
    expect(schedule.load).toEqual({ totalKw: 3.9, unstatedPoints: 0 });
  });

  it('counts basin and sink by the table, and names the wastes that the table does not know', () => {
    const { drainage } = schedule;
    expect(drainage.sumOfUnits).toBeCloseTo(1.3, 12);
    // EN 12056-2:2000: 0.7 x sqrt(0.5 + 0.8) = 0.798, below the sink's own 0.8.
    expect(drainage.flowLitresPerSecond).toBe(0.8);
    expect(drainage.notInTable.map(({ itemName }) => itemName)).toEqual([
      'Beer station 600, six lines',
      'Cocktail station 1200',
    ]);
  });

  it('says that the method is not made for commercial kitchens', () => {
    expect(schedule.cautions.join(' ')).toContain('6.2.3');
    expect(schedule.cautions.join(' ')).toContain('codes of the place');
  });

  it('finds the lines to lie in a gap of 150 mm, and not in one of 100 mm', () => {
    expect(schedule.runs[0]?.gaps[0]).toMatchObject({ gapMm: 150, fits: true });
    const narrow = servicesSchedule([{ run, alternative, scale }], { ...demoRange, servicesGapMm: 100 });
    expect(narrow.runs[0]?.gaps[0]?.fits).toBe(false);
    expect(narrow.runs[0]?.gaps[0]?.marginMm).toBeLessThan(0);
  });

  it('lays lines in rows, thickest first, 20 mm apart, and asks for the height that they take', () => {
    // By hand, with the sizes above: bundle 78.65 and 50 waste in one row (78.65 + 20 + 50 <= 150), then 41, 41 and
    // 25 (41 + 20 + 41 + 20 + 25 = 147 <= 150) in the next: each row as high as its thickest line, and 20 over it.
    const bundleMm = Math.sqrt((6 * 9.5 ** 2 + 2 * 15 ** 2) / 0.6) + 38;
    const [verdict] = schedule.runs[0]?.gaps ?? [];
    expect(verdict?.stackedMm).toBeCloseTo(bundleMm + 20 + 41 + 20, 9);
    // A line that would lie beside another with less than 20 mm between them starts a row of its own.
    const tight = { ...demoRange, servicesGapMm: bundleMm + 50 + 19 };
    const other = servicesSchedule([{ run, alternative, scale }], tight).runs[0]?.gaps[0];
    expect(other?.stackedMm).toBeGreaterThan(bundleMm + 20 + 41 + 20);
    const low = { ...demoRange, heights: { ...demoRange.heights, topMm: 160 } };
    expect(servicesSchedule([{ run, alternative, scale }], low).runs[0]?.gaps[0]).toMatchObject({
      fits: false,
    });
  });

  it('bundles beer lines by the area of their tubes', () => {
    const bundle = gapLinesOf(schedule.runs[0]?.points ?? []).find(({ what }) => what.startsWith('Beer'));
    // Six 9.5 mm and two 15 mm tubes at 60 % fill, 19 mm of insulation all round.
    expect(bundle?.diameterMm).toBeCloseTo(Math.sqrt((6 * 9.5 ** 2 + 2 * 15 ** 2) / 0.6) + 38, 9);
  });

  it('reads sizes as the trades write them', () => {
    expect(['DN 40', '15 mm tube', '9.5 mm tube', 'G 1/2', 'G 1 1/4', 'RJ45'].map(lineDiameterMm)).toEqual([
      40,
      15,
      9.5,
      15,
      35,
      null,
    ]);
  });
});

import { describe, expect, it } from 'vitest';
import { settledZones, type UnsettledZone } from '../../src/measure/settledZones.ts';

const zone = (fromMm: number, toMm: number, more: Partial<UnsettledZone> = {}): UnsettledZone => ({
  fromMm,
  toMm,
  softBeforeMm: 0,
  softAfterMm: 0,
  rank: 0,
  ...more,
});
const wide = { lowMm: 0, highMm: 10_000 };
const settled = (zones: readonly UnsettledZone[], toleranceMm = 3, bounds = wide) =>
  settledZones(zones, bounds, toleranceMm).map((one) => one && [one.fromMm, one.toMm]);

// The arithmetic of closed intervals; what gives way to what is common practice, no source.
describe('zones of a straight as they are posed', () => {
  it('touch where they overlap by less than the drawing can tell: the one of the higher rank gives way', () => {
    expect(settled([zone(1000, 2000), zone(1999.5, 2600, { rank: 1 })])).toEqual([
      [1000, 2000],
      [2000, 2600],
    ]);
    expect(settled([zone(1000, 2000, { rank: 2 }), zone(1999.5, 2600)])).toEqual([
      [1000, 1999.5],
      [1999.5, 2600],
    ]);
  });

  it('let room beside equipment give way, to an opening and to other equipment’s, not the equipment', () => {
    const washer = zone(5250, 5950, { softBeforeMm: 50, softAfterMm: 50, rank: 2 });
    expect(settled([washer, zone(5920, 6750)])).toEqual([
      [5250, 5920],
      [5920, 6750],
    ]);
    // 5 250 to 5 950 holds 600 of equipment: an opening that reaches 30 mm into that is drawn wrong and stays so.
    expect(settled([washer, zone(5870, 6750)])).toEqual([
      [5250, 5950],
      [5870, 6750],
    ]);
  });

  it('end where the straight’s material ends', () => {
    expect(settled([zone(-40, 500), zone(9800, 10_300)])).toEqual([
      [0, 500],
      [9800, 10_000],
    ]);
    expect(settled([zone(-40, 500)], 3, { lowMm: -700, highMm: 10_000 })).toEqual([[-40, 500]]);
    expect(settled([zone(10_050, 10_300)])).toEqual([null]);
  });

  it('stay as they are where they do not touch, in whatever order they are given', () => {
    expect(settled([zone(3000, 3400, { rank: 1 }), zone(1000, 1800)])).toEqual([
      [3000, 3400],
      [1000, 1800],
    ]);
  });
});

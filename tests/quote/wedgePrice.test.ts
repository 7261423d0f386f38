import { describe, expect, it } from 'vitest';
import { quoteOf } from '../../src/quote/quote.ts';
import { defaultQuoteSettings } from '../../src/quote/quoteSettings.ts';
import { scheduleOfRun } from '../../src/quote/schedule.ts';
import { wedgePrice } from '../../src/quote/wedgePrice.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { problemFor, quotedRun } from './quotedBar.ts';

const mitred = (turnDeg: number) =>
  quotedRun('Bar', 1, problemFor([4_000, 3_000], { corners: [{ turnDeg }] }));

describe('a corner wedge', () => {
  it('is priced as a made-to-measure module as wide as its longer side: worked by hand', () => {
    // 2 x 700 x tan 22.5 degrees = 1400 x 0.41421356 = 579.899 mm, ordered at 580; 620 + 0.75 x 580 = 1055.00.
    const { sideMm, price } = wedgePrice(demoRange, { depthMm: 700, corners: [{ turnDeg: 45 }] }, 0);
    expect(sideMm).toBeCloseTo(579.899, 3);
    expect(price).toEqual({ base: 620, ratePerMm: 0.75, lengthMm: 580 });
    const quote = quoteOf([mitred(45)], demoRange, defaultQuoteSettings('2027-03-15'));
    const line = quote.lines.find(({ kind }) => kind === 'corner-wedge');
    expect(line?.amount?.minor).toBe(105_500);
    expect(line?.note).toContain('Measure the corner');
    expect(quote.withoutPrice).toEqual([]);
  });

  it('costs the same in the schedule, whichever way the corner turns', () => {
    for (const turnDeg of [45, -45]) {
      const run = mitred(turnDeg);
      const row = scheduleOfRun(run, run.alternative, demoRange).find(({ kind }) => kind === 'corner-wedge');
      expect(row?.price).toBe(1055);
    }
  });

  it('costs at least the narrowest module, and has no price where the range makes nothing so wide', () => {
    // 2 x 700 x tan 2.5 degrees = 61 mm: below the 150 that the range makes.
    expect(wedgePrice(demoRange, { depthMm: 700, corners: [{ turnDeg: 5 }] }, 0).price?.lengthMm).toBe(150);
    // 2 x 700 x tan 65 degrees = 3002 mm: above its 2700.
    const wide = wedgePrice(demoRange, { depthMm: 700, corners: [{ turnDeg: 130 }] }, 0);
    expect(wide.price).toBeNull();
    expect(wide.note).toContain('ask for a price');
  });
});

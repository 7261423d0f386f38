import { describe, expect, it } from 'vitest';
import { fitRun } from '../../src/fitting/fitRun.ts';
import { parseProblem } from '../../src/fitting/problemSchema.ts';
import type { RunZone } from '../../src/measure/zonesOfRun.ts';
import { fitLines } from '../../src/quote/fitLines.ts';
import { frontStretches } from '../../src/quote/frontStretches.ts';
import { siteMeasureList } from '../../src/quote/siteMeasure.ts';
import { topJoints } from '../../src/quote/topJoints.ts';
import { zoneRows } from '../../src/quote/zoneRows.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { fittingStock } from '../../src/stock/fittingStock.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';

const zone = (kind: RunZone['kind'], fromMm: number, toMm: number, more: Partial<RunZone> = {}): RunZone => ({
  id: `zone-${fromMm}` as RunZone['id'],
  kind,
  name: kind === 'bay' ? 'Bottle cooler' : 'Low section',
  straight: 0,
  fromMm,
  toMm,
  ...more,
});

/** 3 600 mm: a module of 1 200, a bay or low section of 1 200, a module of 1 200. */
const fitted = (isLow: boolean, end: 'wall' | 'meets' = 'wall') => {
  const parsed = parseProblem({
    depthMm: 700,
    straights: [
      { lengthMm: 3600, bays: [{ id: 'zone-1', fromMm: 1200, toMm: 2400, ...(isLow ? { isLow } : {}) }] },
    ],
    ends: [{ kind: 'wall' }, { kind: end }],
    stock: fittingStock(demoRange, { depthMm: 700 }).stock,
    fillerMaxMm: 150,
  });
  if (!parsed.ok) throw new Error(parsed.error.message);
  const { problem } = parsed;
  const alternative = fitRun(problem, { alternatives: 1 }).alternatives[0];
  if (!alternative) throw new Error('no fit');
  return { name: 'Bar', number: 1, problem, alternative, others: [], questions: [], corners: [] };
};

// What is counted follows from the layout; that a low top meets no neighbour and carries no shelf is common practice, no source.
describe('bays and low sections in the schedule', () => {
  it('are listed with what others bring and what it needs, and at which height a low one is made', () => {
    const clearance = { beforeMm: 20, afterMm: 60, heightMm: 820, doorSwingMm: 500 };
    const rows = zoneRows(
      { name: 'Bar', number: 2 },
      [
        zone('low', 4000, 5000, { topHeightMm: 800 }),
        zone('bay', 1000, 1600, { clearance }),
        zone('opening', 0, 9),
      ],
      demoRange,
    );
    expect(rows.map(({ mark, kind, widthMm, price }) => [mark, kind, widthMm, price])).toEqual([
      ['2.Q1', 'by-others', 600, null],
      ['2.T1', 'low-section', 1000, 620 + 0.75 * 1000],
    ]);
    expect(rows[0]?.note).toBe(
      'By others; kept clear 20 and 60 mm beside it; 820 mm high; door swings 500 mm into the aisle',
    );
    expect(rows[1]?.note).toContain('top at 800 mm');
  });

  it('are in the quote: the top over a bay by its length, or without a price where the range has none, a low section by the made-to-measure rule', () => {
    const priced = (isLow: boolean, range: StockRange = demoRange) =>
      fitLines(fitted(isLow), range)
        .filter(({ kind }) => kind === 'bay-top' || kind === 'low-section')
        .map(({ kind, price }) => [kind, price]);
    expect(priced(false)).toEqual([['bay-top', { base: 0, ratePerMm: 0.46, lengthMm: 1200 }]]);
    const { bayTopPricePerMm: _, ...extras } = demoRange.extras;
    expect(priced(false, { ...demoRange, extras })).toEqual([['bay-top', null]]);
    expect(priced(true)).toEqual([['low-section', { base: 620, ratePerMm: 0.75, lengthMm: 1200 }]]);
  });

  it('carry the shelf on over a bay and stop it at a low section, whose top joins nobody’s', () => {
    const [bay, low] = [fitted(false), fitted(true)];
    expect(frontStretches(bay.problem, bay.alternative).map(({ fromMm, toMm }) => [fromMm, toMm])).toEqual([
      [0, 3600],
    ]);
    expect(frontStretches(low.problem, low.alternative).map(({ fromMm, toMm }) => [fromMm, toMm])).toEqual([
      [0, 1200],
      [2400, 3600],
    ]);
    expect([topJoints(bay.problem, bay.alternative), topJoints(low.problem, low.alternative)]).toEqual([
      2, 0,
    ]);
  });

  it('are measured on site, and an end that meets another run is called so', () => {
    const whats = (isLow: boolean) => siteMeasureList([fitted(isLow, 'meets')]).map(({ what }) => what);
    expect(whats(false)).toContain('Width of the bay');
    expect(whats(true)).toContain('Width of the low section');
    expect(whats(false)[0]).toContain('wall to the run that it meets');
  });
});

import { describe, expect, it } from 'vitest';
import { demoRange } from '../../src/stock/demoRange.ts';
import { differenceWords, isSameStock, stockDifference } from '../../src/stock/stockDifference.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';

const [first, second, ...others] = demoRange.items;
if (!first || !second) throw new Error('the demo range has modules');

describe('the difference of two stock ranges', () => {
  it('is none between versions that hold the same', () => {
    const difference = stockDifference(demoRange, { ...demoRange, version: 9 });
    expect(isSameStock(difference)).toBe(true);
    expect(differenceWords(difference)).toBe('');
  });

  it('names pieces that came, went and changed, and rules that changed', () => {
    const after: StockRange = {
      ...demoRange,
      items: [{ ...first, price: 701.5 }, ...others, { ...second, id: 'module-950', widthMm: 950 }],
      heights: { ...demoRange.heights, topMm: 920 },
      note: 'Another note.',
    };
    const difference = stockDifference(demoRange, after);
    expect(difference.added.map(({ id }) => id)).toEqual(['module-950']);
    expect(difference.removed.map(({ id }) => id)).toEqual([second.id]);
    expect(difference.changed).toEqual([
      { id: first.id, name: first.name, changes: [{ column: 'price', before: '690', after: '701.5' }] },
    ]);
    expect(difference.rules.map(({ path, before, after: now }) => [path, before, now])).toEqual([
      ['heights.topMm', '900', '920'],
    ]);
    expect(differenceWords(difference)).toBe(
      '1 piece new, 1 piece gone, 1 piece changed, 1 rule changed, note changed',
    );
  });

  it('turns round when the ranges change places', () => {
    const after: StockRange = { ...demoRange, items: demoRange.items.slice(3) };
    const there = stockDifference(demoRange, after);
    const back = stockDifference(after, demoRange);
    expect(back.added).toEqual(there.removed);
    expect(back.removed).toEqual(there.added);
  });
});

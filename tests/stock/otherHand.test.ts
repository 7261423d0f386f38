import { describe, expect, it } from 'vitest';
import { demoRange } from '../../src/stock/demoRange.ts';
import { otherHandOf } from '../../src/stock/otherHand.ts';
import { type StockItem, type StockRange, stockRangeSchema } from '../../src/stock/stockSchema.ts';

const station = (id: string, name: string, more: Partial<StockItem>): StockItem => ({
  id,
  name,
  kind: 'station',
  widthMm: 900,
  support: 'standing',
  fill: false,
  ...more,
});

const rangeWith = (...items: readonly StockItem[]): StockRange =>
  stockRangeSchema.parse({ ...demoRange, items: [...demoRange.items, ...items] });

const left = station('dish-900-left', 'Dish table 900, left hand', { hand: 'left', price: 500 });
const right = station('dish-900-right', 'Dish table 900, right hand', { hand: 'right', price: 480 });

// That a handed piece is sold as two items of one size is common practice, no source.
describe('the other hand of a station', () => {
  it('is the item called the same but for its hand', () => {
    expect(otherHandOf(rangeWith(left, right), left)?.id).toBe('dish-900-right');
    expect(otherHandOf(rangeWith(left, right), right)?.id).toBe('dish-900-left');
  });

  it('is none of another width, name or rule, and none for an item without a hand', () => {
    expect(otherHandOf(rangeWith(left, { ...right, widthMm: 800 }), left)).toBeUndefined();
    expect(
      otherHandOf(rangeWith(left, { ...right, id: 'x-right', name: 'Rack, right' }), left),
    ).toBeUndefined();
    expect(otherHandOf(rangeWith(left, { ...right, beside: ['ice-well-600'] }), left)).toBeUndefined();
    expect(demoRange.items.map((item) => otherHandOf(demoRange, item)).filter(Boolean)).toEqual([]);
  });
});

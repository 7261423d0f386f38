import { describe, expect, it } from 'vitest';
import { demoRange } from '../../src/stock/demoRange.ts';
import { fittingStock } from '../../src/stock/fittingStock.ts';
import { handPairOf } from '../../src/stock/handPair.ts';
import { readStockCsv } from '../../src/stock/readStockCsv.ts';
import { type StockItem, type StockRange, stockRangeSchema } from '../../src/stock/stockSchema.ts';
import { writeStockCsv } from '../../src/stock/writeStockCsv.ts';

const sink = (id: string, fields: Partial<StockItem>): StockItem => ({
  id,
  name: `Sink ${id}`,
  kind: 'station',
  widthMm: 900,
  support: 'standing',
  fill: false,
  ...fields,
});
const withItems = (...items: StockItem[]): StockRange => ({
  ...demoRange,
  items: [...demoRange.items, ...items],
});

describe('the two hands of a stock item', () => {
  const named = withItems(
    sink('drainer-l', { hand: 'left', handOf: 'drainer' }),
    sink('drainer-r', { hand: 'right', handOf: 'drainer', widthMm: 1_000 }),
  );

  it('are one pair by the name that both give, whatever their widths', () => {
    const [left, right] = named.items.slice(-2);
    expect([handPairOf(named, left!), handPairOf(named, right!)]).toEqual(['drainer', 'drainer']);
  });

  it('are one pair where the range has a mirror image without saying so, under a name that no id can have', () => {
    const range = withItems(sink('bin-left', { hand: 'left' }), sink('bin-right', { hand: 'right' }));
    const pair = handPairOf(range, range.items.at(-1)!);
    expect(pair).toBe('bin-left / bin-right');
    expect(range.items.some(({ id }) => id === pair)).toBe(false);
  });

  it('are told to the fit only where it asks for hands', () => {
    const last = (hands: boolean) => fittingStock(named, { hands }).stock.at(-1);
    expect(last(true)).toMatchObject({ hand: 'right', handOf: 'drainer' });
    expect(last(false)).not.toHaveProperty('hand');
  });

  it('survive the way to CSV and back', () => {
    const read = readStockCsv(writeStockCsv(named), demoRange);
    expect(read.ok && read.range.items.at(-1)).toMatchObject({ hand: 'right', handOf: 'drainer' });
  });

  it('are refused under the id of a piece, and without a hand', () => {
    const messages = (item: StockItem) =>
      stockRangeSchema
        .safeParse(withItems(item))
        .error?.issues.map(({ path, message }) => [path.at(-1), message]);
    expect(messages(sink('one', { hand: 'left', handOf: demoRange.items[0]!.id }))?.[0]?.[0]).toBe('handOf');
    expect(messages(sink('one', { handOf: 'pair' }))).toEqual([['handOf', 'needs a hand']]);
  });
});

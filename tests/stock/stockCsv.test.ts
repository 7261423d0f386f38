import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { demoRange } from '../../src/stock/demoRange.ts';
import { readStockCsv } from '../../src/stock/readStockCsv.ts';
import { type StockItem, stockItemSchema, stockRangeSchema } from '../../src/stock/stockSchema.ts';
import { writeStockCsv } from '../../src/stock/writeStockCsv.ts';
import { campaignSize } from '../campaign/campaignSize.ts';

const errorsOf = (text: string) => {
  const reading = readStockCsv(text, demoRange);
  if (reading.ok) throw new Error('the list was taken');
  return reading.errors;
};
const heading = 'row,id,name,kind,widthMm,support,price,services';

describe('a stock list as CSV', () => {
  it('comes back whole, as the next version of the range', () => {
    const reading = readStockCsv(writeStockCsv(demoRange), demoRange);
    expect(reading).toEqual({ ok: true, range: { ...demoRange, version: demoRange.version + 1 } });
  });

  it('comes back whole whatever a range holds', () => {
    const micrometres = fc.integer({ min: 1_000, max: 9_000_000 }).map((value) => value / 1_000);
    const optional = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined });
    const word = fc.string({
      unit: fc.constantFrom('a', 'Z', '9', ' ', '"', ',', ';', ':', "'", 'ä', '²'),
      minLength: 1,
      maxLength: 12,
    });
    const item = fc
      .record({
        id: fc.stringMatching(/^[a-z0-9][a-z0-9.-]{0,12}$/),
        name: word,
        kind: fc.constantFrom('module', 'station'),
        widthMm: micrometres,
        depthMm: optional(micrometres),
        support: fc.constantFrom('standing', 'carried', 'drop-in', 'countertop'),
        fill: optional(fc.boolean()),
        hand: optional(fc.constantFrom('left', 'right')),
        price: optional(fc.integer({ min: 0, max: 1_000_000 }).map((value) => value / 100)),
        massKg: optional(fc.integer({ min: 1, max: 900_000 }).map((value) => value / 1_000)),
        packed: optional(fc.record({ lengthMm: micrometres, widthMm: micrometres, heightMm: micrometres })),
        includes: optional(
          fc.array(fc.record({ name: word, count: fc.integer({ min: 1, max: 99 }) }), {
            minLength: 1,
            maxLength: 3,
          }),
        ),
        services: optional(
          fc.array(
            fc.record({
              kind: fc.constantFrom('cold-water', 'power'),
              offsetMm: fc.constant(0.5),
              heightMm: micrometres,
              connection: fc.constantFrom('G 1/2', 'DN 50', '230 V, 16 A'),
              loadKw: optional(fc.integer({ min: 1, max: 90 }).map((value) => value / 10)),
            }),
            { minLength: 1, maxLength: 3 },
          ),
        ),
      })
      .map((raw) => JSON.parse(JSON.stringify(raw)) as unknown)
      .filter((raw) => stockItemSchema.safeParse(raw).success)
      .map((raw) => raw as StockItem);
    fc.assert(
      fc.property(fc.uniqueArray(item, { maxLength: 6, selector: ({ id }) => id }), (items) => {
        const range = stockRangeSchema.parse({ ...demoRange, items, cornerUnits: [] });
        const reading = readStockCsv(writeStockCsv(range), range);
        expect(reading).toEqual({ ok: true, range: { ...range, version: range.version + 1 } });
      }),
      { seed: 5, numRuns: campaignSize({ sample: 100, full: 2_000 }) },
    );
  });

  it('takes semicolons, decimal commas and columns in any order, as a spreadsheet writes them', () => {
    const reading = readStockCsv(
      'name;widthMm;row;id;kind;support;price\r\nModul 812;812,8;item;m-812;module;standing;640,5\r\n',
      demoRange,
    );
    expect(reading.ok && reading.range.items).toEqual([
      { id: 'm-812', name: 'Modul 812', kind: 'module', widthMm: 812.8, support: 'standing', price: 640.5 },
    ]);
  });

  it('keeps the rules of the range', () => {
    const reading = readStockCsv(
      'row,id,name,kind,widthMm,support\nitem,m,M,module,600,standing\n',
      demoRange,
    );
    expect(reading.ok && reading.range.fillers).toEqual(demoRange.fillers);
  });

  it('says of every bad line what is wrong and where, and takes nothing', () => {
    const errors = errorsOf(
      [
        heading,
        'item,m-600,Module 600,module,600,standing,690,',
        'item,m-900,Module 900,module,nine hundred,standing,845,',
        'item,,Module 1200,module,1200,floating,990,',
        'item,m-1500,Module 1500,module,"1,500",standing,990,',
        'shelf,s,Shelf,module,600,standing,1,',
        'item,m-1800,Module 1800',
        'item,basin,Basin,station,380,drop-in,1,cold-water:110',
      ].join('\n'),
    );
    expect(errors.map(({ line, column, code }) => [line, column, code])).toEqual([
      [3, 'widthMm', 'not-a-number'],
      [4, 'id', 'empty-cell'],
      [4, 'support', 'bad-value'],
      [5, 'widthMm', 'ambiguous-number'],
      [6, 'row', 'unknown-row'],
      [7, undefined, 'wrong-cell-count'],
      [8, 'services', 'wrong-form'],
    ]);
    expect(errors[0]!.message).toBe(
      'Line 3, widthMm: found "nine hundred", expected a number such as 1200 or 812.8.',
    );
  });

  it('finds what only the whole list shows: an id used twice, a feature wider than its item', () => {
    const twice = errorsOf(`${heading}\nitem,a,A,module,600,standing,,\nitem,a,B,module,900,standing,,\n`);
    expect(twice).toMatchObject([{ line: 3, column: 'id', code: 'clashes-in-range' }]);
    expect(twice[0]!.message).toContain('already used at items.0.id');
    const outside = errorsOf(`${heading}\n\nitem,a,A,station,300,drop-in,,waste:301:450:DN 40\n`);
    expect(outside).toMatchObject([{ line: 3, column: 'services' }]);
  });

  it('refuses cells that a corner unit has no use for', () => {
    expect(errorsOf('row,id,name,widthMm,support\ncorner-unit,c,Corner,700,standing\n')).toMatchObject([
      { line: 2, column: 'support', code: 'not-for-corner-units' },
    ]);
  });

  it('says what is wrong with the heading', () => {
    expect(errorsOf('').map(({ code }) => code)).toEqual(['empty-list']);
    expect(errorsOf('row,id,colour,name,id\n').map(({ code }) => code)).toEqual([
      'unknown-column',
      'repeated-column',
      'missing-column',
    ]);
  });

  it('lets no name through that a spreadsheet would run as a formula', () => {
    for (const name of ['=1+1', '+1', '-1', '@SUM(A1)'])
      expect(errorsOf(`${heading}\nitem,a,${name},module,600,standing,,\n`)[0]).toMatchObject({
        column: 'name',
      });
  });

  it('gives up on a list that is too long, and stops counting faults at 200', () => {
    expect(errorsOf('x'.repeat(5_000_001))[0]!.code).toBe('list-too-long');
    expect(errorsOf(`${heading}\n${'item,,,,,,,\n'.repeat(500)}`)).toHaveLength(200);
  });
});

import { describe, expect, it } from 'vitest';
import { demoRange } from '../../src/stock/demoRange.ts';
import { readStockCsv } from '../../src/stock/readStockCsv.ts';
import { type DraftRow, draftOf, readDraft, type StockDraft } from '../../src/stock/stockDraft.ts';
import { stockRules } from '../../src/stock/stockRules.ts';
import { writeStockCsv } from '../../src/stock/writeStockCsv.ts';

const draft = draftOf(demoRange);

const withCell = (id: string, cells: DraftRow['cells'], from: StockDraft = draft): StockDraft => ({
  ...from,
  rows: from.rows.map((row) => (row.cells.id === id ? { ...row, cells: { ...row.cells, ...cells } } : row)),
});
const withRule = (path: string, text: string): StockDraft => ({
  ...draft,
  rules: { ...draft.rules, [path]: text },
});
const faultsOf = (edited: StockDraft) => {
  const reading = readDraft(edited, 2);
  if (reading.ok) throw new Error('the draft was taken');
  return reading.faults;
};

describe('a stock range being edited', () => {
  it('reads back as the range that it was drawn from, under its new version', () => {
    expect(readDraft(draft, 7)).toEqual({ ok: true, range: { ...demoRange, version: 7 } });
  });

  it('has a rule to type for every number of a range outside its pieces', () => {
    const leaves = (value: unknown, path: string): string[] =>
      typeof value === 'number'
        ? [path]
        : Array.isArray(value)
          ? [path]
          : Object.entries(value as object).flatMap(([key, child]) =>
              leaves(child, path === '' ? key : `${path}.${key}`),
            );
    const { id, name, version, currency, invented, note, items, cornerUnits, ...rules } = demoRange;
    expect([id, name, version, currency, invented, note, items, cornerUnits]).toHaveLength(8);
    expect(leaves(rules, '').sort()).toEqual(stockRules.map(({ path }) => path).sort());
  });

  it('takes figures with a decimal comma, and a rule that may be left empty', () => {
    const edited = withCell('module-900', { widthMm: '914,4', price: '845.5' });
    const reading = readDraft({ ...edited, rules: { ...edited.rules, 'fillers.price': '' } }, 2);
    expect(reading.ok && reading.range.items.find(({ id }) => id === 'module-900')).toMatchObject({
      widthMm: 914.4,
      price: 845.5,
    });
    expect(reading.ok && reading.range.fillers).not.toHaveProperty('price');
  });

  it('keeps what does not read, and says in which cell it is and why', () => {
    const edited = withCell('module-900', { price: 'on request', widthMm: '0' });
    expect(edited.rows.find(({ cells }) => cells.id === 'module-900')?.cells.price).toBe('on request');
    const faults = faultsOf(edited);
    expect(faults.map(({ place, code }) => [place, code])).toEqual([
      [{ in: 'row', key: 'item module-900', column: 'price' }, 'not-a-number'],
      [{ in: 'row', key: 'item module-900', column: 'widthMm' }, 'bad-value'],
    ]);
    expect(faults[0]?.message).toContain('"on request"');
  });

  it('finds the same faults in a row as the CSV list finds in the same line', () => {
    const edited = withCell('glass-rinser', { support: 'floating', services: 'waste:1:2' });
    const list = writeStockCsv(demoRange)
      .replace(/^(item,glass-rinser,[^\n]*),drop-in,/m, '$1,floating,')
      .replace(/cold-water:70:550:G 1\/2 \| waste:130:450:DN 40/, 'waste:1:2');
    const reading = readStockCsv(list, demoRange);
    if (reading.ok) throw new Error('the list was taken');
    const line = 2 + demoRange.items.findIndex(({ id }) => id === 'glass-rinser');
    expect(reading.errors.map((error) => error.line)).toEqual([line, line]);
    expect(faultsOf(edited).map(({ code, place }) => [code, place.in === 'row' && place.column])).toEqual(
      reading.errors.map(({ code, column }) => [code, column]),
    );
  });

  it('places a clash between pieces at the piece that brings it', () => {
    expect(faultsOf(withCell('module-900', { id: 'module-600' }))).toEqual([
      {
        place: { in: 'row', key: 'item module-900', column: 'id' },
        code: 'bad-value',
        message: 'id "module-600" is already used at items.0.id.',
      },
    ]);
    expect(faultsOf(withCell('basket-unit-650', { beside: 'no-such-piece' }))[0]?.place).toEqual({
      in: 'row',
      key: 'item basket-unit-650',
      column: 'beside',
    });
    expect(faultsOf(withCell('beer-station-400', { widthMm: '300' }))[0]?.place).toEqual({
      in: 'row',
      key: 'item beer-station-400',
      column: 'elevation',
    });
  });

  it.each([
    ['heights.topMm', '', 'empty-cell'],
    ['heights.topMm', '1,000', 'ambiguous-number'],
    ['madeToMeasure.maxMm', '100', 'bad-value'],
    ['frame.countByWidth', '1800:2 | 1200', 'wrong-form'],
    ['frame.countByWidth', '1800:2 | 1200:3', 'bad-value'],
    ['frame.countByWidth', '1800:2.5', 'bad-value'],
    ['extras.joint.price', '-1', 'not-a-number'],
  ])('refuses %s as "%s" at that rule', (path, text, code) => {
    expect(faultsOf(withRule(path, text)).map((fault) => [fault.place, fault.code])).toEqual([
      [{ in: 'rule', path }, code],
    ]);
  });

  it('places a name or a currency that does not do at the head', () => {
    const edited = { ...draft, head: { ...draft.head, currency: 'euro', id: 'of two words' } };
    expect(faultsOf(edited).map(({ place }) => place)).toEqual([
      { in: 'head', field: 'id' },
      { in: 'head', field: 'currency' },
    ]);
  });
});

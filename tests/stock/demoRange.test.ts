import { describe, expect, it } from 'vitest';
import { demoRange } from '../../src/stock/demoRange.ts';
import { fittingStock } from '../../src/stock/fittingStock.ts';
import { framesOf } from '../../src/stock/framesOf.ts';
import { stockRangeSchema } from '../../src/stock/stockSchema.ts';

const item = (id: string) => demoRange.items.find((entry) => entry.id === id)!;
const modules = demoRange.items.filter(({ kind }) => kind === 'module');

// "Common practice, no source" below: facts of the trade that no published text was found for.
describe('the demo range', () => {
  it('says that it is invented', () => {
    expect(demoRange.invented).toBe(true);
    expect(demoRange.note).toMatch(/invented/i);
  });

  it('has modules of 600 to 2400 in steps of 300 (common practice, no source)', () => {
    expect(modules.map(({ widthMm }) => widthMm)).toEqual([600, 900, 1200, 1500, 1800, 2100, 2400]);
  });

  it('reaches every multiple of 300 from 600 up, because 2 and 3 are coprime (Sylvester: g(2, 3) = 1)', () => {
    const reachable = new Set([0]);
    for (let length = 300; length <= 6_000; length += 300)
      if (modules.some(({ widthMm }) => reachable.has(length - widthMm))) reachable.add(length);
    expect([...reachable]).not.toContain(300);
    expect(reachable.size).toBe(20);
  });

  it('stands a 2100 on three frames, six legs (common practice, no source)', () => {
    expect(framesOf(demoRange, item('module-2100'))).toBe(3);
    expect(framesOf(demoRange, item('module-2100')) * demoRange.frame.legsPerFrame).toBe(6);
    expect(framesOf(demoRange, item('module-1800'))).toBe(2);
    expect(framesOf(demoRange, item('beer-station-600'))).toBe(0);
    expect(framesOf(demoRange, { widthMm: 9_000, support: 'standing' })).toBe(3);
  });

  it('carries its beer stations between neighbours (common practice, no source)', () => {
    const beer = item('beer-station-600');
    expect(beer.support).toBe('carried');
    expect(demoRange.extras.spacerBar.price).toBeGreaterThan(0);
  });

  it('takes a 500 square basket in a 650 wide unit (common practice, no source)', () => {
    const [rack] = item('basket-unit-650').elevation!;
    expect(rack!.toMm - rack!.fromMm).toBe(500);
    expect(item('basket-unit-650').widthMm).toBe(650);
  });

  it('feeds the rinser and the basin from G 1/2, a half-inch pipe thread (ISO 228-1)', () => {
    for (const id of ['glass-rinser', 'hand-basin-11l'])
      expect(item(id).services).toContainEqual(
        expect.objectContaining({ kind: 'cold-water', connection: 'G 1/2' }),
      );
  });

  it('weighs a 2100 module as its parts do', () => {
    // By hand from 9.48 kg/m2 (1.2 mm of 1.4301, 7900 kg/m3, EN 10088-1), 23.55 (3 mm of steel, 7850), 7.11 (0.9 mm)
    // and 1.305 kg/m (30 x 30 x 1.5 tube, EN 10219 radii): 18.714 + 34.619 + 10.452 + 16.756 = 80.54.
    expect(item('module-2100').massKg).toBeCloseTo(80.54, 1);
    expect(9.48).toBeCloseTo(1.2 * 7.9, 9);
  });

  it('stands clear of the floor by at least 152 mm (FDA Food Code 4-402.12, from memory)', () => {
    expect(demoRange.heights.feetMm).toBeGreaterThanOrEqual(152);
  });

  it('sets a low section no higher than 34 in = 863.6 mm, no lower than 28 in = 711.2 mm (ADA 902.3)', () => {
    expect(demoRange.heights.lowSectionTopMm).toBeLessThanOrEqual(34 * 25.4);
    expect(demoRange.heights.lowSectionTopMm).toBeGreaterThanOrEqual(28 * 25.4);
  });

  it('packs every piece in a box that it fits into', () => {
    for (const entry of demoRange.items)
      expect(entry.packed!.lengthMm, entry.id).toBeGreaterThan(entry.widthMm);
  });
});

describe('the part of a range that is fitted', () => {
  it('is what the fitting contract takes, and nothing else', () => {
    const { stock, cornerUnits } = fittingStock(demoRange);
    expect(stock).toHaveLength(demoRange.items.length);
    expect(stock[0]).toEqual({
      id: 'module-600',
      widthMm: 600,
      support: 'standing',
      price: 690,
      massKg: 27.3,
    });
    expect(stock.find(({ id }) => id === 'cocktail-station-1200')!.fill).toBe(false);
    expect(cornerUnits).toEqual([
      { id: 'corner-700', sizeMm: 700, price: 1_180 },
      { id: 'corner-900', sizeMm: 900, price: 1_390 },
    ]);
  });

  it('leaves out corner units smaller than the run is deep, and items deeper than it', () => {
    const { stock, cornerUnits } = fittingStock(demoRange, { depthMm: 750 });
    expect(cornerUnits.map(({ id }) => id)).toEqual(['corner-900']);
    expect(stock).toHaveLength(demoRange.items.length);
    const shallow = fittingStock(demoRange, { depthMm: 420 });
    expect(shallow.stock.map(({ id }) => id)).not.toContain('wash-sink-400');
    expect(shallow.stock.map(({ id }) => id)).toContain('ice-well-600');
  });
});

describe('a stock range that does not hold together', () => {
  const faultOf = (change: object): string => {
    const result = stockRangeSchema.safeParse({ ...demoRange, ...change });
    return result.success
      ? 'none'
      : `${result.error.issues[0]!.path.join('.')}: ${result.error.issues[0]!.message}`;
  };
  const first = demoRange.items[0]!;

  it('is refused with the place and the reason', () => {
    expect(faultOf({ items: [first, first] })).toBe(
      'items.1.id: id "module-600" is already used at items.0.id',
    );
    expect(faultOf({ items: [{ ...first, beside: ['nothing'] }] })).toBe(
      'items.0.beside: no item "nothing" in this range',
    );
    expect(faultOf({ items: [{ ...first, widthMm: 0 }] })).toMatch(/^items\.0\.widthMm: /);
    expect(faultOf({ items: [{ ...first, widthMm: Number.NaN }] })).toMatch(/^items\.0\.widthMm: /);
    expect(faultOf({ items: [{ ...first, widthMm: 600.0001 }] })).toBe(
      'items.0.widthMm: finer than a micrometre',
    );
    expect(faultOf({ items: [{ ...first, price: 1.005 }] })).toBe('items.0.price: more than two decimals');
    expect(faultOf({ items: [{ ...first, colour: 'red' }] })).toMatch(/^items\.0: /);
    expect(faultOf({ currency: 'Euro' })).toMatch(/^currency: /);
    expect(faultOf({})).toBe('none');
  });
});

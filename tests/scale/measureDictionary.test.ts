import { describe, expect, it } from 'vitest';
import {
  formatMeasured,
  isPaperViewport,
  measuredDistance,
  measureMmPerUnit,
  viewportAt,
} from '../../src/scale/measureDictionary.ts';
import { readMeasureEvidence } from '../../src/scale/measureEvidence.ts';
import type { EmbeddedViewport, NumberFormat, RectilinearMeasure } from '../../src/sheet/embeddedViewport.ts';

const format = (unit: string, factor: number, more: Partial<NumberFormat> = {}): NumberFormat => ({
  unit,
  factor,
  fraction: 'D',
  precision: 100,
  keepsForm: false,
  thousands: ',',
  decimal: '.',
  labelPrefix: ' ',
  labelSuffix: ' ',
  labelPosition: 'S',
  ...more,
});

const measure = (x: readonly NumberFormat[], more: Partial<RectilinearMeasure> = {}): RectilinearMeasure => ({
  ratioText: '',
  x,
  distance: [],
  area: [],
  ...more,
});

const viewport = (
  box: readonly [number, number, number, number],
  of?: RectilinearMeasure,
): EmbeddedViewport => ({
  box: { minX: box[0], minY: box[1], maxX: box[2], maxY: box[3] },
  ...(of ? { measure: of } : {}),
});

describe('measure dictionary', () => {
  // ISO 32000-1, 12.9.2 with the example of PDF Reference 1.7, 8.8 (Example 8.22, Algorithm 8.2), read in a copy:
  // 1.4505 miles prints "1 mi 2,378 ft 7 5/8 in".
  it("prints the standard's worked example", () => {
    const chain = [format('mi', 1), format('ft', 5280), format('in', 12, { fraction: 'F', precision: 8 })];
    expect(formatMeasured(1.4505, chain)).toBe('1 mi 2,378 ft 7 5/8 in');
  });

  // The same example's X array: .00139 mi per point; 1.4505 / .00139 = 1043.525 pt.
  it('measures the worked example on the page', () => {
    const of = measure([format('mi', 0.00139, { precision: 100000 })]);
    expect(measuredDistance(of, { x: 0, y: 0 }, { x: 1043.525, y: 0 })).toBeCloseTo(1.4505, 4);
  });

  it('writes fractions, decimals, rounded and truncated numbers, and labels in front', () => {
    expect(formatMeasured(2.5, [format('m', 1)])).toBe('2.5 m');
    expect(formatMeasured(2.5, [format('m', 1, { keepsForm: true })])).toBe('2.50 m');
    expect(formatMeasured(2.5, [format('in', 1, { fraction: 'F', precision: 16 })])).toBe('2 1/2 in');
    expect(formatMeasured(2.5, [format('in', 1, { fraction: 'F', precision: 16, keepsForm: true })])).toBe(
      '2 8/16 in',
    );
    expect(formatMeasured(1234.7, [format('m', 1, { fraction: 'R' })])).toBe('1,235 m');
    expect(formatMeasured(1234.7, [format('m', 1, { fraction: 'T', thousands: '' })])).toBe('1234 m');
    expect(
      formatMeasured(12, [format('EUR', 1, { labelPosition: 'P', labelPrefix: '', labelSuffix: ' ' })]),
    ).toBe('EUR 12');
  });

  it('converts y by CYX into the unit of x', () => {
    const of = measure([format('m', 0.1)], { y: [format('ft', 0.5)], yToX: 0.3048 });
    expect(measuredDistance(of, { x: 0, y: 0 }, { x: 30, y: 0 })).toBeCloseTo(3, 12);
    expect(measuredDistance(of, { x: 0, y: 0 }, { x: 0, y: 20 })).toBeCloseTo(3.048, 12);
    expect(measureMmPerUnit(of)!.y).toBeCloseTo(152.4, 9);
  });

  // ISO 32000-1, 12.9.1: the viewports are searched from the last to the first.
  it('lets the last viewport that contains a point win', () => {
    const list = [viewport([0, 0, 100, 100]), viewport([50, 50, 100, 100]), viewport([200, 0, 300, 100])];
    expect(viewportAt(list, { x: 60, y: 60 })).toBe(list[1]);
    expect(viewportAt(list, { x: 10, y: 60 })).toBe(list[0]);
    expect(viewportAt([...list].reverse(), { x: 60, y: 60 })).toBe(list[0]);
    expect(viewportAt(list, { x: 150, y: 60 })).toBeUndefined();
  });

  it('knows the whole-page viewport in mm of paper', () => {
    expect(isPaperViewport(viewport([0, 0, 9, 9], measure([format(' ', 0.35278)])), 1)).toBe(true);
    expect(isPaperViewport(viewport([0, 0, 9, 9], measure([format('', 3.52778)])), 10)).toBe(true);
    expect(isPaperViewport(viewport([0, 0, 9, 9], measure([format(' ', 0.70556)])), 1)).toBe(false);
    expect(isPaperViewport(viewport([0, 0, 9, 9], measure([format('in', 0.0138889)])), 1)).toBe(true);
  });
});

describe('measure evidence', () => {
  const blank = [viewport([0, 0, 9, 9], measure([format(' ', 0.70556)]))];

  it('infers a blank unit from a ratio that is known otherwise, and gives none where nothing is', () => {
    const { found } = readMeasureEvidence(blank, [20], 1);
    expect(found[0]!.evidence).toMatchObject({ unit: 'cm', unitAssumed: true });
    expect(found[0]!.evidence.ratio).toBeCloseTo(20, 2);
    expect(readMeasureEvidence(blank, [], 1)).toEqual({ found: [], unresolved: 1 });
    expect(readMeasureEvidence(blank, [37], 1).unresolved).toBe(1);
  });

  it('takes a unit that is written', () => {
    const { found } = readMeasureEvidence([viewport([0, 0, 9, 9], measure([format('m', 0.0176389)]))], [], 1);
    expect(found[0]!.evidence.ratio).toBeCloseTo(50, 3);
  });
});

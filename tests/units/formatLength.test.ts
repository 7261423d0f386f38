import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatLength, formatPlusMinus } from '../../src/units/formatLength.ts';
import { parseLength } from '../../src/units/length.ts';
import { campaignSize } from '../campaign/campaignSize.ts';

describe('a length shown in millimetres', () => {
  it('has thin spaces between thousands and a no-break space before its unit', () => {
    expect(formatLength(6248, { unit: 'mm' })).toBe('6\u202f248\u00a0mm');
    expect(formatLength(1_234_567.4, { unit: 'mm' })).toBe('1\u202f234\u202f567\u00a0mm');
    expect(formatLength(0, { unit: 'mm' })).toBe('0\u00a0mm');
  });

  it('keeps the decimals asked for', () => {
    expect(formatLength(3600.45, { unit: 'mm', precision: 1 })).toBe('3\u202f600.5\u00a0mm');
    expect(formatLength(0.05, { unit: 'mm', precision: 2 })).toBe('0.05\u00a0mm');
    expect(() => formatLength(1, { unit: 'mm', precision: 4 })).toThrow(RangeError);
    expect(() => formatLength(Number.NaN, { unit: 'mm' })).toThrow(RangeError);
  });

  it('shows a position before the start with a minus sign, but never minus nothing', () => {
    expect(formatLength(-120, { unit: 'mm' })).toBe('\u2212120\u00a0mm');
    expect(formatLength(-0.2, { unit: 'mm' })).toBe('0\u00a0mm');
  });

  // SI Brochure, 9th edition, 5.4.4, prints its example as 43 279.168 29 (from memory); whole part checked here.
  it('groups digits as the SI Brochure does', () => {
    expect(formatLength(43_279, { unit: 'mm' })).toBe('43\u202f279\u00a0mm');
  });
});

describe('a length shown in feet and inches', () => {
  // California Building Code and ADA pairs (corada 403.5.1): 36 in is 914.4 mm and 32 in is 812.8 mm exactly.
  it.each([
    [914.4, `3'-0"`],
    [812.8, `2'-8"`],
    [3600.45, `11'-9 3/4"`],
    [247.65, `9 3/4"`],
    [19.05, `3/4"`],
    [304.8, `1'-0"`],
    [304.7, `1'-0"`],
    [0, `0"`],
    [317.5, `1'-0 1/2"`],
    [-25.4, `\u22121"`],
  ])('shows %d mm as %s', (lengthMm, shown) => {
    expect(formatLength(lengthMm, { unit: 'ft-in' })).toBe(shown);
  });

  it('rounds to the denominator asked for and carries over whole inches and feet', () => {
    expect(formatLength(25.4 * 11.97, { unit: 'ft-in', precision: 8 })).toBe(`1'-0"`);
    expect(formatLength(25.4 * 11.94, { unit: 'ft-in', precision: 16 })).toBe(`11 15/16"`);
    expect(() => formatLength(1, { unit: 'ft-in', precision: 10 })).toThrow(RangeError);
  });

  it('reads back as what was shown, within half of a sixteenth', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 30_000_000 }), (micrometres) => {
        const shown = formatLength(micrometres / 1000, { unit: 'ft-in' });
        const read = parseLength(shown, { defaultUnit: 'mm' });
        expect(read.ok && Math.abs(read.micrometres - micrometres) <= 25_400 / 32 + 1).toBe(true);
      }),
      { seed: 11, numRuns: campaignSize({ sample: 200, full: 50_000 }) },
    );
  });

  it('reads back in millimetres exactly', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 900_000_000 }), (micrometres) => {
        // Three decimals and no thousands would look ambiguous, and are refused: show one more than is needed.
        const shown = formatLength(micrometres / 1000, { unit: 'mm', precision: 2 });
        const read = parseLength(shown, { defaultUnit: 'mm' });
        expect(read.ok && Math.abs(read.micrometres - micrometres) <= 5).toBe(true);
      }),
      { seed: 12, numRuns: campaignSize({ sample: 200, full: 50_000 }) },
    );
  });
});

describe('a +/- shown', () => {
  it('is rounded up, so that it never looks surer than it is', () => {
    expect(formatPlusMinus(11.2, { unit: 'mm' })).toBe('±\u00a012\u00a0mm');
    expect(formatPlusMinus(0.01, { unit: 'mm' })).toBe('±\u00a01\u00a0mm');
    expect(formatPlusMinus(13, { unit: 'ft-in' })).toBe(`±\u00a09/16"`);
  });

  it('keeps a whole number in spite of float dust', () => {
    expect(formatPlusMinus(12.000_000_000_1, { unit: 'mm' })).toBe('±\u00a012\u00a0mm');
    expect(formatPlusMinus((0.1 + 0.2) * 10, { unit: 'mm' })).toBe('±\u00a03\u00a0mm');
    expect(formatPlusMinus(12.7, { unit: 'ft-in' })).toBe(`±\u00a01/2"`);
  });
});

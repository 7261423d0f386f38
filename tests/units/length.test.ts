import fc from 'fast-check';
import Qty from 'js-quantities';
import { describe, expect, it } from 'vitest';
import {
  type LengthUnit,
  MICROMETRES_PER,
  micrometresOf,
  millimetresOf,
  parseLength,
} from '../../src/units/length.ts';
import { campaignSize } from '../campaign/campaignSize.ts';

const mm = (text: string, defaultUnit: LengthUnit = 'mm'): number | string => {
  const parsed = parseLength(text, { defaultUnit });
  return parsed.ok ? parsed.lengthMm : parsed.code;
};

describe('a typed length', () => {
  it('takes the default unit where none is written', () => {
    expect(mm('3600')).toBe(3600);
    expect(mm('360', 'cm')).toBe(3600);
    expect(mm('3.6', 'm')).toBe(3600);
    expect(mm('12', 'in')).toBe(304.8);
    expect(mm('9 3/4', 'in')).toBe(247.65);
  });

  it.each([
    ['3600 mm', 3600],
    ['3600mm', 3600],
    ['360 cm', 3600],
    ['3.6 m', 3600],
    ['3,60 m', 3600],
    ['3.600 m', 3600],
    ['0,600 m', 600],
    ['.6 m', 600],
    ['3 600', 3600],
    ['3\u202f600', 3600],
    ['3\u202f600,5', 3600.5],
    ['11,000', 11_000],
    ['11,000.5', 11_000.5],
    ['11.000,5 mm', 11_000.5],
    ['  1 234 567 mm ', 'length-too-long'],
    ['0', 0],
  ])('reads %s in metric', (text, expected) => {
    expect(mm(text)).toBe(expected);
  });

  // Worked by hand from 1 in = 25.4 mm exactly (NIST SP 811, Appendix B; from memory): 141.75 in = 3600.45 mm.
  it.each([
    [`11'-9 3/4"`, 3600.45],
    [`11' 9.75"`, 3600.45],
    [`11'9-3/4"`, 3600.45],
    [`11′-9¾″`, 3600.45],
    [`11’ 9 3⁄4”`, 3600.45],
    [`11' 9 3/4`, 3600.45],
    [`9 3/4"`, 247.65],
    [`9¾"`, 247.65],
    [`9 3/4''`, 247.65],
    [`3/4"`, 19.05],
    ['12 ft 6 in', 3810],
    ['12ft. 6in.', 3810],
    ['12 feet 6 inches', 3810],
    [`12'`, 3657.6],
    ['12.5 ft', 3810],
    [`12'-0"`, 3657.6],
    [`0'-6"`, 152.4],
    ['1/8 in', 3.175],
  ])('reads %s in feet and inches', (text, expected) => {
    expect(mm(text)).toBe(expected);
  });

  it('is a whole number of micrometres, so that 1/8 in is 3175 exactly', () => {
    expect(parseLength('1/8 in', { defaultUnit: 'mm' })).toEqual({
      ok: true,
      micrometres: 3175,
      lengthMm: 3.175,
    });
    expect(parseLength('0.1 in', { defaultUnit: 'mm' })).toMatchObject({ micrometres: 2540 });
    expect(parseLength('1/3 in', { defaultUnit: 'mm' })).toMatchObject({ micrometres: 8467 });
  });

  it.each([
    ['', 'empty-length'],
    ['   ', 'empty-length'],
    ['-5', 'negative-length'],
    ['−5 mm', 'negative-length'],
    [`-11'-9"`, 'negative-length'],
    ['abc', 'not-a-length'],
    ['3 60', 'not-a-length'],
    ['3..6 m', 'not-a-length'],
    ['1,2,3', 'not-a-length'],
    ['12-6', 'not-a-length'],
    ['1e3', 'not-a-length'],
    ['12 parsec', 'unknown-unit'],
    ['5 km', 'unknown-unit'],
    ['3,600 m', 'ambiguous-separator'],
    ['3.600', 'ambiguous-separator'],
    ['3.600 mm', 'ambiguous-separator'],
    [`11'-12"`, 'inches-out-of-range'],
    [`11.5' 6"`, 'not-a-length'],
    ['1/0 in', 'bad-fraction'],
    [`5/4"`, 'bad-fraction'],
    ['Infinity', 'not-a-length'],
    ['1001 m', 'length-too-long'],
    ['9'.repeat(70), 'not-a-length'],
  ])('refuses %j as %s, and says what to do', (text, code) => {
    const parsed = parseLength(text, { defaultUnit: 'mm' });
    expect(parsed).toMatchObject({ ok: false, code });
    if (!parsed.ok) expect(parsed.message.length).toBeGreaterThan(15);
  });

  // NIST SP 811 (2008), Appendix B.8, factors marked exact there; from memory.
  it('uses the exact factors of NIST SP 811', () => {
    expect(MICROMETRES_PER.in / 1e6).toBe(0.0254);
    expect(MICROMETRES_PER.ft / 1e6).toBe(0.3048);
  });

  it('agrees with a general unit library to the micrometre', () => {
    const runs = campaignSize({ sample: 200, full: 20_000 });
    const unit = fc.constantFrom<LengthUnit>('mm', 'cm', 'm', 'in', 'ft');
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 99_999 }), unit, (hundredths, of) => {
        const written = `${Math.floor(hundredths / 100)}.${String(hundredths % 100).padStart(2, '0')}`;
        const oracleMm = Qty(Number(written), of).to('mm').scalar;
        const ours = parseLength(`${written} ${of}`, { defaultUnit: 'mm' });
        expect(ours.ok && Math.abs(ours.lengthMm - oracleMm) <= 0.000_51).toBe(true);
      }),
      { seed: 20_261_125, numRuns: runs },
    );
  });

  it('never throws, whatever is typed', () => {
    const characters = fc.constantFrom(...`0123456789 .,'"/-−½¾′″ftinmc`);
    fc.assert(
      fc.property(fc.array(characters, { maxLength: 14 }), (typed) => {
        const parsed = parseLength(typed.join(''), { defaultUnit: 'mm' });
        if (parsed.ok) {
          expect(Number.isSafeInteger(parsed.micrometres) && parsed.micrometres >= 0).toBe(true);
        } else {
          expect(parsed.code).toMatch(/^[a-z-]+$/);
        }
      }),
      { seed: 7, numRuns: campaignSize({ sample: 500, full: 200_000 }) },
    );
  });
});

describe('micrometres', () => {
  it('round a length in millimetres to the nearest whole one, and come back the same', () => {
    expect(micrometresOf(3.175)).toBe(3175);
    expect(micrometresOf(0.1 + 0.2)).toBe(300);
    expect(Object.is(micrometresOf(-0.0001), 0)).toBe(true);
    expect(millimetresOf(micrometresOf(2099.999))).toBe(2099.999);
    expect(() => micrometresOf(Number.NaN)).toThrow(RangeError);
    expect(() => micrometresOf(1e16)).toThrow(RangeError);
  });
});

import { describe, expect, it } from 'vitest';
import { readDimensionText } from '../../src/scale/dimensionText.ts';

const read = (text: string): string => {
  const result = readDimensionText(text);
  if (result.kind !== 'dimension') return result.kind;
  return `${Math.round(result.value * 1e6) / 1e6} ${result.unit ?? '?'}`;
};

describe('dimension text', () => {
  it.each([
    ['3600', '3600 ?'],
    ['360', '360 ?'],
    ['11,000', '11000 mm'],
    ['3.600', '3.6 m'],
    ['3,60', '3.6 m'],
    ['3.60', '3.6 m'],
    ['3600 mm', '3600 mm'],
    ['360 cm', '360 cm'],
    ['3.6 m', '3.6 m'],
    ['3,6m', '3.6 m'],
    ['1 234', '1234 mm'],
    ["11'000", '11000 mm'],
    ['36⁵', '36.5 cm'],
    ['3,60⁵', '3.605 m'],
    ['(2400)', '2400 ?'],
    ['3 x 600 = 1800', '1800 ?'],
    ['1200 TYP', '1200 ?'],
    ['1200 TYP.', '1200 ?'],
  ])('reads %s as %s', (text, expected) => expect(read(text)).toBe(expected));

  // 12 inches make a foot (international yard and pound agreement, 1959): 12 ft 6 1/2 in = 150.5 in.
  it.each([
    [`12'-6 1/2"`, '150.5 in'],
    [`12' 6"`, '150 in'],
    [`12'-6"`, '150 in'],
    [`12'`, '144 in'],
    [`6 1/2"`, '6.5 in'],
    ['9"', '9 in'],
    [`45'-10"`, '550 in'],
    [`11'-9¾"`, '141.75 in'],
    ['12′ – 6½″', '150.5 in'],
    [`3/4"`, '0.75 in'],
    [`12'-61/2"`, '150.5 in'],
    ['12 ft 6 in', '150 in'],
    [`0'-6"`, '6 in'],
  ])('reads %s as %s', (text, expected) => expect(read(text)).toBe(expected));

  it.each([
    ['12.50 m²', 'area'],
    ['A = 18,40 m²', 'area'],
    ['24 sqm', 'area'],
    ['120 SF', 'area'],
    ['12,5 mq', 'area'],
    ['+3.20', 'level'],
    ['±0.00', 'level'],
    ['-0.15', 'level'],
    ['FFL 12.30', 'level'],
    ['0', 'level'],
    ['▽ 2.80', 'level'],
    ['7', 'number'],
    ['01', 'number'],
    ['101A', 'words'],
    ['A-301', 'words'],
    ['KITCHEN', 'words'],
    ['12.03.2021', 'date'],
    ['2026-03-14', 'date'],
    ['14/07/2017', 'date'],
    ['03/2021', 'date'],
    ['2%', 'slope'],
    ['1:12', 'slope'],
    ['i = 2 %', 'slope'],
    ['45°', 'angle'],
    ['Ø120', 'diameter'],
    ['DN 50', 'diameter'],
    ['h=2,70', 'height'],
    ['CH 2400', 'height'],
    ['900 x 2100', 'size'],
    [`9'-0"X4'-7"`, 'size'],
    ['', 'words'],
    [`12'-13"`, 'words'],
  ])('knows that %s is a %s and no dimension', (text, kind) => expect(read(text)).toBe(kind));

  it('says the step in which a number is written', () => {
    const step = (text: string): number => {
      const result = readDimensionText(text);
      return result.kind === 'dimension' ? result.step : Number.NaN;
    };
    expect(step('3600')).toBe(1);
    expect(step('3.60')).toBeCloseTo(0.01, 12);
    expect(step(`12'-6 1/2"`)).toBe(0.5);
    expect(step(`12'-6"`)).toBe(1);
  });
});

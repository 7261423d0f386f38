import { describe, expect, it } from 'vitest';
import { sheetName, standardSheet } from '../../src/sheet/sheetSize.ts';

const mmOfPoints = (points: number): number => (points * 25.4) / 72;

describe('sheet size', () => {
  // ISO 216:2007, A and B series, in mm.
  it.each([
    ['A0', 841, 1189],
    ['A1', 594, 841],
    ['A2', 420, 594],
    ['A3', 297, 420],
    ['A4', 210, 297],
    ['B0', 1000, 1414],
    ['B1', 707, 1000],
    ['B2', 500, 707],
    ['B3', 353, 500],
    ['B4', 250, 353],
  ])('names ISO 216 %s in both orientations', (name, shortMm, longMm) => {
    expect(sheetName(shortMm, longMm)).toBe(name);
    expect(sheetName(longMm, shortMm)).toBe(name);
  });

  // ASME Y14.1 sizes A to E and the ARCH sizes of US practice, in inches.
  it.each([
    ['ANSI A', 8.5, 11],
    ['ANSI B', 11, 17],
    ['ANSI C', 17, 22],
    ['ANSI D', 22, 34],
    ['ANSI E', 34, 44],
    ['ARCH A', 9, 12],
    ['ARCH B', 12, 18],
    ['ARCH C', 18, 24],
    ['ARCH D', 24, 36],
    ['ARCH E', 36, 48],
    ['ARCH E1', 30, 42],
    ['ARCH E2', 26, 38],
    ['ARCH E3', 27, 39],
  ])('names %s', (name, short, long) => {
    expect(sheetName(long * 25.4, short * 25.4)).toBe(name);
  });

  // pdf-lib's PageSizes give A1 as 1683.78 x 2383.94 pt and A3 as 841.89 x 1190.55 pt.
  it('reads the points of another library as the same sheets', () => {
    expect(sheetName(mmOfPoints(1683.78), mmOfPoints(2383.94))).toBe('A1');
    expect(sheetName(mmOfPoints(841.89), mmOfPoints(1190.55))).toBe('A3');
    expect(mmOfPoints(1683.78)).toBeCloseTo(594, 2);
  });

  it('names elongated sheets by ISO 5457 and leaves others unnamed', () => {
    expect(sheetName(841, 5 * 594)).toBe('A1 x 5');
    expect(sheetName(1185, 974)).toBe('custom');
    expect(sheetName(17_000, 17_000)).toBe('custom');
    expect(sheetName(0, 0)).toBe('custom');
  });

  it('takes names as they are written on drawings', () => {
    expect(standardSheet('a1')?.longMm).toBe(841);
    expect(standardSheet('ARCH-D')?.longMm).toBeCloseTo(914.4, 9);
    expect(standardSheet('A9')).toBeUndefined();
  });
});

import Qty from 'js-quantities';
import { describe, expect, it } from 'vitest';
import {
  degreesOf,
  formatAngle,
  normaliseDeg,
  normaliseRad,
  parseAngle,
  radiansOf,
} from '../../src/units/angle.ts';

const deg = (text: string): number | string => {
  const parsed = parseAngle(text);
  return parsed.ok ? parsed.angleDeg : parsed.code;
};

describe('a typed angle', () => {
  it.each([
    ['90', 90],
    ['90°', 90],
    ['-45.5 deg', -45.5],
    ['−45,5', -45.5],
    ['22.125', 22.125],
    [`12°30'`, 12.5],
    [`12° 30′ 36″`, 12.51],
    ['0', 0],
    ['-0', 0],
  ])('reads %s', (text, expected) => {
    expect(deg(text)).toBeCloseTo(expected, 12);
  });

  it.each([
    ['', 'empty-angle'],
    ['ninety', 'not-an-angle'],
    ['9.5.1', 'not-an-angle'],
    [`12.5°30'`, 'not-an-angle'],
    ['361', 'angle-out-of-range'],
    [`12°60'`, 'angle-out-of-range'],
  ])('refuses %j as %s', (text, code) => {
    expect(deg(text)).toBe(code);
  });

  it('gives the radians that a general unit library gives', () => {
    for (const angle of [1, 30, 45.5, 90, 359]) {
      const parsed = parseAngle(String(angle));
      expect(parsed.ok && parsed.angleRad).toBeCloseTo(Qty(angle, 'deg').to('rad').scalar, 12);
      expect(degreesOf(radiansOf(angle))).toBeCloseTo(angle, 12);
    }
  });
});

describe('a direction', () => {
  it('is brought to more than -180 up to and including 180 degrees', () => {
    expect([270, -270, 180, -180, 540, 720, -360].map(normaliseDeg)).toEqual([-90, 90, 180, 180, 180, 0, 0]);
  });

  it('is brought to the same turn in radians: its sine and cosine stay', () => {
    for (const angleRad of [-9, -Math.PI, -1, 0, 2, 4, 7, 100]) {
      const turned = normaliseRad(angleRad);
      expect(turned).toBeGreaterThan(-Math.PI);
      expect(turned).toBeLessThanOrEqual(Math.PI);
      expect(Math.sin(turned)).toBeCloseTo(Math.sin(angleRad), 12);
      expect(Math.cos(turned)).toBeCloseTo(Math.cos(angleRad), 12);
    }
  });
});

describe('an angle shown', () => {
  // NIST SP 811 (2008), 7.2: no space between the number and the degree sign (from memory).
  it('has its sign of degrees right behind it, and no needless zeros', () => {
    expect(formatAngle(90)).toBe('90°');
    expect(formatAngle(45.26)).toBe('45.3°');
    expect(formatAngle(-45.25)).toBe('\u221245.3°');
    expect(formatAngle(-0.01)).toBe('0°');
    expect(formatAngle(22.125, { decimals: 3 })).toBe('22.125°');
  });
});

import { describe, expect, it } from 'vitest';
import { shortLegLimit, turnSlide, turnSwing } from '../../src/access/turnSwing.ts';

const RIGHT = Math.PI / 2;
const swingMm = (from: number, to: number, width: number, turnRad = RIGHT): number =>
  turnSwing({ fromMm: from, toMm: to, turnRad }, width).longestMm;

describe('the textbook ladder round a right-angle corner', () => {
  // L = (a^(2/3) + b^(2/3))^(3/2). Worked values: 9.87 ft for 3 & 4 ft and "about 8 1/3" (8.32) for 2 & 4 (read on
  // pages of worked problems); 21.07 ft for 9 & 6 ft (the pipe problem of Stewart, Calculus, read in a copy); exactly
  // 125 for 27 & 64 (perfect cubes).
  it.each([
    [3, 4, 9.87],
    [9, 6, 21.07],
    [2, 4, 8.32],
    [8, 4, 16.65],
  ])('lets %f by %f take a ladder of %f', (from, to, expected) => {
    expect(swingMm(from, to, 0)).toBeCloseTo(expected, 2);
  });

  it('lets 27 by 64 take exactly 125', () => {
    expect(swingMm(27, 64, 0)).toBeCloseTo(125, 9);
  });

  it('does not repeat the wrong answers in circulation: the hypotenuse, or 20.97 for 5.8 and 8.73', () => {
    expect(swingMm(9, 6, 0)).not.toBeCloseTo(Math.hypot(9, 6), 1);
    expect(swingMm(5.8, 8.73, 0)).toBeCloseTo(20.41, 2);
  });
});

describe('a rectangle round a right-angle corner', () => {
  it('agrees with the couch of width 1 in halls of 8 and 3', () => {
    // C. Moretti, "Moving a couch around a corner", College Math. J. 33(3) (2002) 196-200: 12.8927 at 31 degrees,
    // which is a point of the curve; its least value is 12.8564 at 33.53 degrees (recomputed from the formula).
    const couch = turnSwing({ fromMm: 8, toMm: 3, turnRad: RIGHT }, 1);
    expect(couch.longestMm).toBeCloseTo(12.856318, 5);
    expect(90 - (couch.atRad * 180) / Math.PI).toBeCloseTo(33.528, 2);
    const t = ((90 - 31) * Math.PI) / 180;
    const atThirtyOne = (8 * Math.cos(t) + 3 * Math.sin(t) - 1) / (Math.sin(t) * Math.cos(t));
    expect(atThirtyOne).toBeCloseTo(12.8927, 4);
  });

  it('gives 2 sqrt 2 a - 2 w in equal halls: 2194.11 for 1200 and 600', () => {
    expect(swingMm(1200, 1200, 600)).toBeCloseTo(2194.1125, 3);
  });

  it('does not simply move the corner in by the width', () => {
    // The shortcut L(a - w, b - w) ignores that the shift depends on the angle.
    const shortcut = ((1200 - 600) ** (2 / 3) + (1200 - 600) ** (2 / 3)) ** 1.5;
    expect(Math.abs(swingMm(1200, 1200, 600) - shortcut)).toBeGreaterThan(100);
  });

  it('slides a unit square that could not be swung', () => {
    expect(swingMm(1, 1, 1)).toBeCloseTo(2 * Math.SQRT2 - 2, 9);
    expect(turnSlide({ fromMm: 1, toMm: 1, turnRad: RIGHT }, 1).longestMm).toBeCloseTo(1, 6);
  });

  it('never lets a rectangle by that is larger than the largest known sofa', () => {
    // J. Gerver (1992): 2.2195316688... in halls of width 1 (OEIS A128463).
    for (let step = 1; step <= 1000; step += 1) {
      const width = step / 1000;
      const longest = Math.max(
        swingMm(1, 1, width),
        turnSlide({ fromMm: 1, toMm: 1, turnRad: RIGHT }, width).longestMm,
      );
      expect(longest * width).toBeLessThanOrEqual(2.2195316688719);
    }
  });

  it('lets nothing by that is wider than the narrower passage', () => {
    expect(swingMm(1200, 900, 901)).toBe(0);
    expect(turnSlide({ fromMm: 1200, toMm: 900, turnRad: RIGHT }, 901).longestMm).toBe(0);
  });
});

describe('a turn of any angle', () => {
  it('has the closed form 2 (a - w cos(f/2))/sin(f/2) in equal passages', () => {
    // By symmetry the tightest angle is half the turn. Derived from the picture, not from the code under test.
    for (const degrees of [10, 30, 45, 60, 89, 90, 91, 120, 150]) {
      const half = (degrees * Math.PI) / 360;
      expect(swingMm(1200, 1200, 500, 2 * half)).toBeCloseTo(
        (2 * (1200 - 500 * Math.cos(half))) / Math.sin(half),
        6,
      );
    }
  });

  it('gives the same whichever way the turn is walked', () => {
    for (const degrees of [25, 70, 110, 145]) {
      const turnRad = (degrees * Math.PI) / 180;
      expect(swingMm(900, 1500, 700, turnRad)).toBeCloseTo(swingMm(1500, 900, 700, turnRad), 6);
    }
  });
});

describe('a leg that soon ends', () => {
  it('must hold the diagonal of the piece while it swings round a right angle', () => {
    expect(shortLegLimit(2000, 600, RIGHT)).toBeCloseTo(Math.sqrt(2000 ** 2 - 600 ** 2), 6);
  });

  it('holds nothing that is wider than it is long', () => {
    expect(shortLegLimit(500, 600, RIGHT)).toBe(0);
  });
});

import { describe, expect, it } from 'vitest';
import { type Cubic, cubicAt, cubicLineCrossings, subCubic } from '../../src/sheet/cubic.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { seededRandom } from '../oracles/seededRandom.ts';

const seed = 8_803;

/**
 * The graph of a polynomial of degree three over 0..1 as a curve: x(t) = t has control points at thirds, and y's are its
 * Bernstein coefficients (Farin, Curves and Surfaces for CAGD, "The Bernstein form of a Bezier curve"; from memory).
 */
const graphOf = (c0: number, c1: number, c2: number, c3: number): Cubic => [
  0,
  c0,
  1 / 3,
  c0 + c1 / 3,
  2 / 3,
  c0 + (2 * c1) / 3 + c2 / 3,
  1,
  c0 + c1 + c2 + c3,
];

describe('a cubic curve of a plan', () => {
  it('is at every t where its polynomial is, written in powers', () => {
    const curve = graphOf(2, -3, 5, 7);
    for (let t = 0; t <= 1; t += 0.05) {
      const [x, y] = cubicAt(curve, t);
      expect(x).toBeCloseTo(t, 12);
      expect(y).toBeCloseTo(2 - 3 * t + 5 * t ** 2 + 7 * t ** 3, 12);
    }
  });

  it('crosses the axis at the roots that its polynomial was made of (Vieta)', () => {
    const random = seededRandom(seed);
    for (let round = 0; round < campaignSize({ sample: 200, full: 20_000 }); round += 1) {
      // Roots at least 0.02 apart and from the ends; some lie outside of 0..1 and are no crossings.
      const roots = [0.02, 0.35, 0.68].map((from) => from + 0.28 * random.next());
      if (random.chance(0.3)) roots[2] = 1.1 + random.next();
      const [p, q, r] = roots as [number, number, number];
      const curve = graphOf(-p * q * r, p * q + p * r + q * r, -(p + q + r), 1);
      const found = cubicLineCrossings(curve, -1, 0, 2, 0);
      const expected = roots.filter((root) => root < 1);
      expect(found.length, `seed ${seed} round ${round}`).toBe(expected.length);
      for (const [index, root] of expected.entries()) expect(found[index]).toBeCloseTo(root, 8);
    }
  });

  it('crosses a segment only where it is, not where its line goes on', () => {
    const straight = graphOf(-0.5, 1, 0, 0);
    expect(cubicLineCrossings(straight, 0.4, 0, 0.6, 0)).toEqual([expect.closeTo(0.5, 9)]);
    expect(cubicLineCrossings(straight, 0.6, 0, 0.9, 0)).toEqual([]);
    expect(cubicLineCrossings(straight, 0.5, 0, 0.5, 0)).toEqual([]);
  });

  it('in part is the same curve over a part of t, since a polynomial is one by any four of its points', () => {
    const random = seededRandom(seed);
    for (let round = 0; round < 50; round += 1) {
      const curve = Array.from({ length: 8 }, () => random.next() * 100) as unknown as Cubic;
      const [from, to] = [random.next() * 0.5, 0.5 + random.next() * 0.5];
      const part = subCubic(curve, from, to);
      for (const share of [0, 0.25, 0.6, 1]) {
        const [x, y] = cubicAt(part, share);
        const [wholeX, wholeY] = cubicAt(curve, from + share * (to - from));
        expect(Math.hypot(x - wholeX, y - wholeY)).toBeLessThan(1e-9);
      }
    }
  });
});

import { describe, expect, it } from 'vitest';
import { longestTilted, tiltedFit } from '../../src/access/rectangleInRectangle.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { seededRandom } from '../oracles/seededRandom.ts';

const SEED = 9_311;

/** Best clearance over small steps of tilt: what is left of both sides of the opening around the turned rectangle. */
const clearanceBySteps = (a: number, b: number, p: number, q: number, steps: number): number => {
  let best = Number.NEGATIVE_INFINITY;
  for (let step = 0; step <= steps; step += 1) {
    const t = (Math.PI / 2) * (step / steps);
    const across = p * Math.cos(t) + q * Math.sin(t);
    const up = p * Math.sin(t) + q * Math.cos(t);
    best = Math.max(best, Math.min(a - across, b - up));
  }
  return best;
};

describe('a rectangle in a rectangle', () => {
  it('does not get 9 x 4 into 8 x 6, though area, diagonal, perimeter and thickness all would', () => {
    // J. E. Wetzel, "Rectangles in rectangles", Math. Mag. 73(3) (2000) 204-211.
    expect(tiltedFit(8, 6, 9, 4).marginMm).toBeLessThan(0);
    expect(longestTilted(8, 6, 4)).toBeLessThan(9);
  });

  it('stands a 500-deep item of 1637.9 in a lift car of 1400 x 1600, and of 2005.7 in one of 2000 x 1400', () => {
    // Car sizes of ISO 8100-30 (1000 kg) and EN 81-70 type 5; lengths recomputed from the criterion and by rotation.
    expect(longestTilted(1400, 1600, 500)).toBeCloseTo(1637.9, 1);
    expect(longestTilted(2000, 1400, 500)).toBeCloseTo(2005.7, 1);
  });

  it('gains nothing for a 600-deep item there', () => {
    expect(longestTilted(1400, 1600, 600)).toBeCloseTo(1600, 6);
  });

  it('gives the diagonal to an item without depth', () => {
    expect(longestTilted(300, 400, 0)).toBeCloseTo(500, 6);
  });

  it('measures the margin squarely where the rectangle stands square', () => {
    expect(tiltedFit(800, 2000, 600, 900)).toEqual({ marginMm: 200, tiltRad: 0 });
    expect(tiltedFit(800, 2000, 900, 600).marginMm).toBe(200);
    expect(tiltedFit(800, 2000, 900, 1000).marginMm).toBe(-100);
  });

  it('has the margin, the tilt and the longest side that a search of every angle finds', () => {
    const random = seededRandom(SEED);
    const between = (low: number, high: number): number => low + random.next() * (high - low);
    const count = campaignSize({ sample: 60, full: 10_000 });
    const steps = 4000;
    const failures: string[] = [];
    let tilted = 0;
    for (let index = 0; index < count; index += 1) {
      const a = between(500, 2500);
      const b = between(500, 2500);
      const p = between(0.3, 1.4) * Math.max(a, b);
      const q = between(0.02, 1) * Math.min(a, b);
      const what = `seed ${SEED} case ${index}: ${p} x ${q} in ${a} x ${b}`;
      const fit = tiltedFit(a, b, p, q);
      const brute = clearanceBySteps(a, b, p, q, steps);
      // Half a step turns the longest side by this much.
      const slack = (p + q) * (Math.PI / 4 / steps);
      if (Math.abs(fit.marginMm - brute) > slack)
        failures.push(`${what}: margin ${fit.marginMm}, by steps ${brute}`);
      const { tiltRad } = fit;
      const atTilt = Math.min(
        a - p * Math.cos(tiltRad) - q * Math.sin(tiltRad),
        b - p * Math.sin(tiltRad) - q * Math.cos(tiltRad),
      );
      if (Math.abs(atTilt - fit.marginMm) > 1e-6)
        failures.push(`${what}: ${fit.marginMm} but ${atTilt} at its tilt`);
      const longest = longestTilted(a, b, q);
      if (clearanceBySteps(a, b, longest - 1, q, steps) < -slack)
        failures.push(`${what}: ${longest} - 1 does not fit`);
      if (clearanceBySteps(a, b, longest + 1 + slack, q, steps) > 0)
        failures.push(`${what}: more than ${longest} fits`);
      if (tiltRad > 0 && tiltRad < Math.PI / 2) tilted += 1;
    }
    expect(failures).toEqual([]);
    expect(tilted).toBeGreaterThan(count / 20);
  }, 900_000);
});

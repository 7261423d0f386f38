import { describe, expect, it } from 'vitest';
import { liftPresets } from '../../src/access/liftPresets.ts';

/**
 * Largest car area for a rated load, m2: EN 81-20's table of rated load by available car area. From memory, not read in
 * the standard.
 */
const largestAreaM2: Readonly<Record<number, number>> = { 450: 1.3, 630: 1.66, 1000: 2.4, 1275: 2.95 };

describe('lifts of usual size', () => {
  it('are rated for their car area, and their doors are no wider than their cars', () => {
    for (const { carWidthMm, carDepthMm, doorWidthMm, ratedKg, doorHeightMm, carHeightMm } of liftPresets) {
      expect((carWidthMm * carDepthMm) / 1e6).toBeLessThanOrEqual(largestAreaM2[ratedKg] ?? 0);
      expect(doorWidthMm).toBeLessThanOrEqual(carWidthMm);
      expect(doorHeightMm).toBeLessThanOrEqual(carHeightMm);
    }
  });
});

import { describe, expect, it } from 'vitest';
import { longestBoxInBox, type Triple } from '../../src/access/boxInBox.ts';
import { longestTilted } from '../../src/access/rectangleInRectangle.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { longestByRotation } from '../oracles/boxRotation.ts';
import { seededRandom } from '../oracles/seededRandom.ts';

const SEED = 77_003;

describe('a box in a box', () => {
  it('comes up to the space diagonal, and no further, as the box grows thin', () => {
    // 1100 x 1400 x 2200: diagonal 2830.2 (Pythagoras).
    const car: Triple = [1100, 1400, 2200];
    expect(longestBoxInBox(car, 0.01, 0.01).longestMm).toBeGreaterThan(2830.1);
    expect(longestBoxInBox(car, 0.01, 0.01).longestMm).toBeLessThanOrEqual(2830.2);
    expect(longestBoxInBox(car, 20, 20).longestMm).toBeLessThan(2830.1);
  });

  it('comes down to a rectangle in a rectangle where one side fills the room', () => {
    // Carver's criterion in the plane: 1637.9 for a 500-deep item in 1400 x 1600.
    expect(longestBoxInBox([1400, 1600, 900], 500, 900).longestMm).toBeCloseTo(
      longestTilted(1400, 1600, 500),
      0,
    );
  });

  it('agrees with a search of random rotations, and shows a rotation that proves its answer', () => {
    const random = seededRandom(SEED);
    const between = (low: number, high: number): number => low + random.next() * (high - low);
    const count = campaignSize({ sample: 20, full: 2000 });
    const failures: string[] = [];
    let tiltedGains = 0;
    for (let index = 0; index < count; index += 1) {
      const room: Triple = [between(800, 2200), between(800, 2400), between(1900, 2700)];
      const width = between(20, 1000);
      const height = between(20, 1000);
      const what = `seed ${SEED} case ${index}: ${room.join(' ')} for ${width} ${height}`;
      const found = longestBoxInBox(room, width, height);
      const brute = longestByRotation(room, width, height, random.next, 12, 1200);
      // Never below what some rotation achieves (the tolerance of the search is 0.02 mm) ...
      if (brute > found.boundMm + 1e-6)
        failures.push(`${what}: bound ${found.boundMm}, a rotation takes ${brute}`);
      if (brute > found.longestMm + 0.021)
        failures.push(`${what}: ${found.longestMm}, a rotation takes ${brute}`);
      // ... and never above what its own rotation achieves.
      if (found.longestMm === 0) continue;
      const rows = found.rows!;
      for (const [axis, row] of rows.entries()) {
        const reach =
          Math.abs(row[0]) * found.longestMm + Math.abs(row[1]) * width + Math.abs(row[2]) * height;
        if (reach > room[axis]! + 1e-6) failures.push(`${what}: sticks out along axis ${axis}: ${reach}`);
        for (const other of rows) {
          const product = row[0] * other[0] + row[1] * other[1] + row[2] * other[2];
          if (Math.abs(product - (other === row ? 1 : 0)) > 1e-9)
            failures.push(`${what}: rows are no rotation`);
        }
      }
      if (brute > Math.max(...room) + 1) tiltedGains += 1;
    }
    expect(failures).toEqual([]);
    expect(tiltedGains).toBeGreaterThan(count / 10);
  }, 900_000);

  it('keeps a length that is already known where it finds no longer one', () => {
    const known = longestBoxInBox([1100, 1400, 2200], 1000, 1300, { knownMm: 2200 });
    expect(known.longestMm).toBe(2200);
    expect(known.rows).toBeNull();
  });
});

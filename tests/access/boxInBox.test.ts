import { describe, expect, it } from 'vitest';
import { axisFrame, bestRoll } from '../../src/access/bestRoll.ts';
import { longestBoxInBox } from '../../src/access/boxInBox.ts';
import type { Triple } from '../../src/access/boxRotation.ts';
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

describe('the best roll about a length axis', () => {
  it('is found where a search of every roll finds it', () => {
    const random = seededRandom(SEED + 1);
    const between = (low: number, high: number): number => low + random.next() * (high - low);
    const count = campaignSize({ sample: 200, full: 10_000 });
    const failures: string[] = [];
    for (let index = 0; index < count; index += 1) {
      const room: Triple = [between(800, 2200), between(800, 2400), between(1900, 2700)];
      const raw = [random.next(), random.next(), random.next()] as const;
      const size = Math.hypot(...raw);
      const frame = axisFrame([raw[0] / size, raw[1] / size, raw[2] / size]);
      const width = between(20, 1200);
      const height = between(20, 1200);
      const found = bestRoll(room, frame, width, height, 0).longestMm;
      let brute = 0;
      const steps = 3000;
      for (let step = 0; step < steps; step += 1) {
        const roll = (Math.PI * step) / steps;
        const reach = ([0, 1, 2] as const).map((axis) => {
          const second = Math.abs(frame.across[axis] * Math.cos(roll) + frame.beyond[axis] * Math.sin(roll));
          const third = Math.abs(frame.beyond[axis] * Math.cos(roll) - frame.across[axis] * Math.sin(roll));
          return (room[axis] - width * second - height * third) / frame.axis[axis];
        });
        brute = Math.max(brute, Math.min(...reach));
      }
      // Half a step of roll moves the sides by this much, and the length by that over the smallest component.
      const slack = ((width + height) * Math.PI) / 2 / steps / Math.min(...frame.axis);
      const what = `seed ${SEED + 1} case ${index}: ${room.join(' ')} ${frame.axis.join(' ')} ${width} ${height}`;
      if (brute > found + 1e-6) failures.push(`${what}: ${found}, a roll takes ${brute}`);
      if (found > brute + slack + 1e-6) failures.push(`${what}: ${found}, no roll takes more than ${brute}`);
    }
    expect(failures).toEqual([]);
  }, 900_000);

  it('tilts a cross-section that fits beside the length only so', () => {
    // (1200 + 190)/sqrt 2 = 982.9 fits in 1000 x 1000 at 45 degrees; squarely 1200 does not.
    expect(bestRoll([2000, 1000, 1000], axisFrame([1, 0, 0]), 1200, 190, 0).longestMm).toBeCloseTo(2000, 9);
    expect(bestRoll([2000, 980, 980], axisFrame([1, 0, 0]), 1200, 190, 0).longestMm).toBe(0);
  });
});

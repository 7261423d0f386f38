import { describe, expect, it } from 'vitest';
import { sideDoorwayPlan } from '../../src/access/turnPlan.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { seededRandom } from '../oracles/seededRandom.ts';
import { slidesThrough, swingsThrough } from '../oracles/sideDoorwaySweep.ts';

const SEED = 61_409;

describe('doorways in the side of a passage against a polygon sweep', () => {
  it('let by exactly what a polygon swept in small steps gets past both jambs', () => {
    const random = seededRandom(SEED);
    const between = (low: number, high: number): number => low + random.next() * (high - low);
    const count = campaignSize({ sample: 60, full: 10_000 });
    const failures: string[] = [];
    let swung = 0;
    for (let index = 0; index < count; index += 1) {
      const passage = between(700, 2200);
      const door = between(600, 1600);
      const wall = random.chance(0.2) ? 0 : between(0, 700);
      const short = between(0.1, 0.97) * Math.min(passage, door);
      const limit = sideDoorwayPlan({ passageMm: passage, doorMm: door, wallMm: wall }, 2000).limit(short);
      const doorway = { passage, door, wall };
      const what = `seed ${SEED} case ${index}: ${passage} ${door} ${wall} width ${short} -> ${limit.longestMm} ${limit.manner}`;
      const byOracle = (long: number, slack: number, steps: number): boolean =>
        swingsThrough(doorway, long, short, steps, slack) ||
        slidesThrough(doorway, long, short, steps, slack);
      if (!byOracle(limit.longestMm - 1, 0.05, 3000)) failures.push(`${what}: a shorter one is stopped`);
      if (byOracle(limit.longestMm * 1.005 + 2, 0, 3000)) failures.push(`${what}: a longer one passes`);
      if (limit.manner === 'swung') swung += 1;
    }
    expect(failures).toEqual([]);
    expect(swung).toBeGreaterThan(count / 3);
  }, 900_000);
});

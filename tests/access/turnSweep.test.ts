import { describe, expect, it } from 'vitest';
import { turnPlan } from '../../src/access/turnPlan.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { seededRandom } from '../oracles/seededRandom.ts';
import { deepestCut, slideExcess } from '../oracles/turnSweep.ts';

const SEED = 20_260_601;

describe('turns against a brute-force sweep', () => {
  it('lets by exactly what a polygon swept in small steps, or slid across, gets past the corner', () => {
    const random = seededRandom(SEED);
    const between = (low: number, high: number): number => low + random.next() * (high - low);
    const count = campaignSize({ sample: 60, full: 10_000 });
    const failures: string[] = [];
    let swung = 0;
    for (let index = 0; index < count; index += 1) {
      const from = between(700, 2500);
      const to = between(700, 2500);
      const turnRad = (between(10, 165) * Math.PI) / 180;
      const short = between(0.02, 0.98) * Math.min(from, to);
      const limit = turnPlan({ fromMm: from, toMm: to, heightMm: 2400, turnRad }).limit(short);
      const turn = { from, to, turnRad };
      const what = `seed ${SEED} case ${index}: ${from} ${to} ${(turnRad * 180) / Math.PI} width ${short} -> ${limit.longestMm} ${limit.manner}`;
      const byOracle = (long: number, slack: number): boolean =>
        deepestCut(turn, long, short, 900) <= slack || slideExcess(turn, long, short, 720) <= slack;
      // A millimetre shorter passes; a millimetre and a per mille longer is stopped. The slack covers the steps.
      if (limit.longestMm > 2 && !byOracle(limit.longestMm - 1, 0.05))
        failures.push(`${what}: a shorter one is stopped`);
      if (byOracle(limit.longestMm * 1.001 + 1, 0)) failures.push(`${what}: a longer one passes`);
      if (limit.manner === 'swung') swung += 1;
    }
    expect(failures).toEqual([]);
    expect(swung).toBeGreaterThan(count / 3);
  }, 900_000);
});

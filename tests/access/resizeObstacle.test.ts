import { expect, it } from 'vitest';
import { resizeObstacle } from '../../src/access/resizeObstacle.ts';
import { seededRandom } from '../oracles/seededRandom.ts';
import { HELPFUL, randomObstacle } from './randomWayIn.ts';

it('moves every clear dimension of an obstacle by the uncertainty, and nothing else', () => {
  const random = seededRandom(17);
  for (let index = 0; index < 500; index += 1) {
    const obstacle = randomObstacle(random);
    const before = Object.entries(obstacle);
    const after = resizeObstacle(obstacle, -12) as unknown as Record<string, unknown>;
    expect(Object.keys(after).filter((name) => !(name in obstacle))).toEqual([]);
    for (const [name, value] of before) {
      const isClear =
        value !== undefined && name !== 'ratedKg' && HELPFUL.some((helpful) => helpful === name);
      expect(after[name], name).toBe(isClear ? Math.max(0.001, (value as number) - 12) : value);
    }
  }
});

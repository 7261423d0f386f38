import { expect, it } from 'vitest';
import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import { parseProblem } from '../../src/fitting/problemSchema.ts';
import { costOfFit, sumOfCosts } from '../../src/quote/costOfFit.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { fitOf } from '../services/fittedRun.ts';

const parsed = parseProblem({
  depthMm: 700,
  straights: [{ lengthMm: 6_300 }],
  ends: [{ kind: 'wall' }, { kind: 'wall' }],
  stock: [{ id: 'module-2100', widthMm: 2_100, support: 'standing' }],
  fillerMaxMm: 150,
});
if (!parsed.ok) throw new Error(parsed.error.message);
const run = { name: 'Back bar', number: 1, problem: parsed.problem };

const standing = (...widths: readonly number[]): FitAlternative => {
  let fromMm = 0;
  return fitOf(
    widths.map((width) => {
      const piece = { straight: 0, item: `module-${width}`, fromMm, toMm: fromMm + width };
      fromMm += width;
      return piece;
    }),
  );
};

it('holds two fits of one run beside each other: pieces, joints, money', () => {
  const free = costOfFit(run, standing(2_400, 2_100, 1_800), demoRange);
  const limited = costOfFit(run, standing(2_100, 2_100, 2_100), demoRange);
  expect([free.pieces, free.joints]).toEqual([3, 2]);
  // The demo range's prices: 3 x 1 480 - (1 620 + 1 480 + 1 265) = 75; the extras of both are the same.
  expect(limited.goods.minor - free.goods.minor).toBe(75_00);
  const narrow = costOfFit(run, standing(1_500, 1_200, 1_800, 1_800), demoRange);
  expect([narrow.pieces, narrow.joints]).toEqual([4, 3]);
  expect(sumOfCosts([free, narrow], 'EUR')).toEqual({
    pieces: 7,
    joints: 5,
    madeToMeasure: 0,
    goods: { minor: free.goods.minor + narrow.goods.minor, currency: 'EUR' },
    withoutPrice: 0,
  });
});

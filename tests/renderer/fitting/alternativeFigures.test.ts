import { describe, expect, it } from 'vitest';
import { differenceFrom, figuresOf } from '../../../renderer/fitting/alternativeFigures.ts';
import { shortNameOf, withNames } from '../../../renderer/fitting/pieceNames.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { documentOf, fitOf } from './cornerRun.ts';

describe('alternatives side by side', () => {
  const { problem, answer } = fitOf(documentOf());
  const figures = answer.alternatives.map((alternative) => figuresOf(problem, alternative, demoRange));

  it('count what the fits hold', () => {
    for (const [index, alternative] of answer.alternatives.entries()) {
      expect(figures[index]).toMatchObject({
        pieces: alternative.score.pieces,
        leftoverMm: alternative.score.leftoverMm,
        widestMm: Math.max(...alternative.pieces.map(({ fromMm, toMm }) => toMm - fromMm)),
      });
      // Extras and leftovers come on top of the stock pieces that the solver prices.
      expect(figures[index]?.price).toBeGreaterThan(alternative.score.price);
    }
  });

  it('say nothing of a fit that comes to the same, and the same thing the other way round', () => {
    const [one] = figures;
    if (!one) throw new Error('no fit');
    const given = { unit: 'mm', currency: 'EUR' } as const;
    expect(differenceFrom(one, one, given)).toEqual([]);
    const other = {
      ...one,
      pieces: one.pieces + 1,
      joints: one.joints + 2,
      leftoverMm: one.leftoverMm + 52,
      price: one.price - 340,
    };
    expect(differenceFrom(one, other, given)).toEqual([
      '52\u00a0mm more left over',
      '1 more piece',
      '2 more joints',
      'EUR\u00a0340 cheaper',
    ]);
    expect(differenceFrom(other, one, given)).toEqual([
      '52\u00a0mm less left over',
      '1 fewer piece',
      '2 fewer joints',
      'EUR\u00a0340 dearer',
    ]);
  });

  it('name pieces as people do', () => {
    expect(shortNameOf(demoRange, 'module-1200')).toBe('Module 1200');
    expect(shortNameOf(demoRange, 'no-such-piece')).toBe('no-such-piece');
    const document = documentOf();
    expect(
      withNames(
        '"station-1" is left out; 2 x module-1200 and module-1200s, corner-700.',
        demoRange,
        document,
      ),
    ).toBe('Beer station 600 is left out; 2 x Module 1200 and module-1200s, Corner unit 700 x 700.');
  });
});

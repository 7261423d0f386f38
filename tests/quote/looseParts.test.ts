import { describe, expect, it } from 'vitest';
import type { Obstacle } from '../../src/access/wayInSchema.ts';
import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import type { FitProblem } from '../../src/fitting/problemSchema.ts';
import { looseParts, loosePartVerdicts } from '../../src/quote/looseParts.ts';
import { loosePartWords } from '../../src/quote/loosePartWords.ts';
import { demoRange } from '../../src/stock/demoRange.ts';

const problem: FitProblem = {
  depthMm: 700,
  straights: [{ lengthMm: 4_120 }],
  ends: [{ kind: 'wall' }, { kind: 'exposed' }],
  stock: [],
  allowances: { jointMm: 0, scribeMm: 0, endPanelMm: 20, claddingMm: 0 },
  fillerMaxMm: 150,
  hostMarginMm: 30,
};

const alternative: FitAlternative = {
  reason: 'best',
  corners: [],
  pieces: [
    { straight: 0, item: 'module-2400', fromMm: 100, toMm: 2_500 },
    { straight: 0, item: 'module-1600', fromMm: 2_500, toMm: 4_100 },
  ],
  leftovers: [{ straight: 0, fromMm: 0, toMm: 100, widthMm: 100, verdict: 'filler', confirmed: true }],
  score: {
    unplaced: 0,
    madeToMeasure: 0,
    leftoverMm: 100,
    fillers: 1,
    pieces: 2,
    displacementMm: 0,
    price: 0,
  },
};

const parts = looseParts({ number: 1, name: 'Main bar' }, problem, alternative, demoRange);
const { heights } = demoRange;

describe('the loose parts of a fit', () => {
  it('are its fillers, the end panel of an exposed end, and the shelf along the whole front', () => {
    expect(parts.map(({ kind, what }) => [kind, what])).toEqual([
      ['filler', '1.L1 Filler 100'],
      ['end-panel', 'End panel of Main bar'],
      ['shelf', 'Serving shelf 4120 of Main bar, straight 1'],
    ]);
    expect(parts[1]?.piece).toMatchObject({ lengthMm: heights.topMm + 60, widthMm: 760, heightMm: 80 });
    expect(parts[2]?.piece).toMatchObject({ lengthMm: 4_180, widthMm: heights.shelfDepthMm + 60 });
  });

  it('come in or not like pieces: a shelf is longer than a turn lets by, and says which lengths come in', () => {
    const turn: Obstacle = { kind: 'turn', fromMm: 900, toMm: 900, heightMm: 1_500, name: 'Cellar turn' };
    const [filler, panel, shelf] = loosePartVerdicts([turn], parts);
    expect([filler?.passes, panel?.passes, shelf?.passes]).toEqual([true, true, false]);
    // On edge it is the thin side that turns: 2 x 900 x sqrt 2 - 2 w = 2545.6 less twice the packed thickness.
    expect(shelf?.longestMm).toBeCloseTo(1_800 * Math.SQRT2 - 2 * (heights.shelfThicknessMm + 60), 2);
    expect(loosePartWords(shelf!, String)).toMatch(
      /^stopped by Cellar turn: comes in in lengths of up to 2\d+ packed$/,
    );
    expect(loosePartWords(panel!, String)).toBe('comes in');
  });

  it('leave to the site what the uncertainty of the way leaves open', () => {
    // The end panel lies flat at 20 and 60 of packing, under 82 +/- 10.
    const hatch: Obstacle = { kind: 'height-limit', heightMm: 82, uncertaintyMm: 10 };
    const panel = loosePartVerdicts([hatch], parts)[1]!;
    expect(panel).toMatchObject({ kind: 'end-panel', passes: true, sure: false });
    expect(loosePartWords(panel, String)).toMatch(/only the site can tell/);
  });
});

import { describe, expect, it } from 'vitest';
import type { Obstacle } from '../../src/access/wayInSchema.ts';
import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import { deliveredPieces } from '../../src/quote/deliveredPieces.ts';
import { wayInVerdicts } from '../../src/quote/wayInVerdicts.ts';
import { demoRange } from '../../src/stock/demoRange.ts';

const alternative: FitAlternative = {
  reason: 'best',
  corners: [{ treatment: 'corner-unit', item: 'corner-700' }, { treatment: 'mitre' }],
  pieces: [
    { straight: 0, item: 'module-2400', fromMm: 0, toMm: 2400 },
    { straight: 0, item: 'hand-basin-11l', fromMm: 500, toMm: 880, host: 0 },
    { straight: 1, item: 'module-900', fromMm: 0, toMm: 900 },
    { straight: 1, item: 'module-900', fromMm: 900, toMm: 1800 },
  ],
  leftovers: [
    { straight: 1, fromMm: 1800, toMm: 2300, widthMm: 500, verdict: 'made-to-measure', confirmed: true },
    { straight: 1, fromMm: 2300, toMm: 2400, widthMm: 100, verdict: 'filler', confirmed: true },
  ],
  score: {
    unplaced: 0,
    madeToMeasure: 2,
    leftoverMm: 600,
    fillers: 1,
    pieces: 4,
    displacementMm: 0,
    price: 0,
  },
};

const delivered = deliveredPieces({ number: 2, depthMm: 700 }, alternative, demoRange);

const verdicts = (...obstacles: readonly Obstacle[]) =>
  wayInVerdicts(obstacles, delivered.pieces).map(({ marks, verdict, parts }) => [
    marks.join(' '),
    verdict,
    parts,
  ]);

describe('the pieces of a fit on a way in', () => {
  it('travel by their marks along the front; a wedge waits for the site measure', () => {
    expect(delivered.pieces.map(({ mark, kind }) => [mark, kind])).toEqual([
      ['2.01', 'stock'],
      ['2.01a', 'stock'],
      ['2.C1', 'corner-unit'],
      ['2.02', 'stock'],
      ['2.03', 'stock'],
      ['2.L1', 'made-to-measure'],
    ]);
    expect(delivered.notJudged).toEqual(['2.C2']);
  });

  it('count a mitred wedge by its angle as drawn: a kite, boxed along its axis', () => {
    const withTurns = deliveredPieces(
      { number: 2, depthMm: 700, turnsDeg: [90, 60] },
      alternative,
      demoRange,
    );
    const wedge = withTurns.pieces.find(({ mark }) => mark === '2.C2')!;
    // 700 / cos 30 = 808.3 and 2 x 700 x sin 30 = 700, each with 60 of packing.
    expect(wedge.piece.lengthMm).toBeCloseTo(868.29, 2);
    expect(wedge.piece.widthMm).toBeCloseTo(760, 6);
    expect(wedge).toMatchObject({ kind: 'made-to-measure', sizeFrom: 'geometry', massFrom: 'geometry' });
    expect(withTurns.notJudged).toEqual([]);
  });

  it('that travel alike are judged together', () => {
    expect(verdicts().map(([marks]) => marks)).toEqual(['2.01', '2.01a', '2.C1', '2.02 2.03', '2.L1']);
  });

  it('are assembled on site where they pass with frames off, else made in parts, else measured first', () => {
    // A lift car 1 400 deep, 1 100 wide and 1 100 high: 900 + 60 goes in flat; 2 400 + 60 in no way, whole or not.
    const low: Obstacle = { kind: 'set-down', widthMm: 1_100, depthMm: 1_400, heightMm: 1_100 };
    expect(verdicts(low)[0]).toEqual(['2.01', 'in-parts', 2]);
    // A flat under 700 mm: nothing on frames passes but the basin, yet every top does.
    const hatch: Obstacle = { kind: 'doorway', widthMm: 2_000, heightMm: 700 };
    expect(verdicts(hatch).map(([, verdict]) => verdict)).toEqual([
      'assemble-on-site',
      'passes',
      'assemble-on-site',
      'assemble-on-site',
      'passes',
    ]);
    // 760 wide in 765 +/- 10: only the site can tell.
    const narrow: Obstacle = { kind: 'doorway', widthMm: 765, heightMm: 2_000, uncertaintyMm: 10 };
    expect(verdicts(narrow)[0]?.[1]).toBe('measure-on-site');
  });
});

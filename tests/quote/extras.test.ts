import { describe, expect, it } from 'vitest';
import { checkFit } from '../../src/fitting/checkFit.ts';
import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import { fitRun } from '../../src/fitting/fitRun.ts';
import { type FitProblem, parseProblem } from '../../src/fitting/problemSchema.ts';
import { scheduleCsv } from '../../src/issue/scheduleCsv.ts';
import { type Extra, type ExtraKind, extrasOfRun } from '../../src/quote/extras.ts';
import { frontStretches } from '../../src/quote/frontStretches.ts';
import { leftoverPrice } from '../../src/quote/leftoverPrice.ts';
import { pieceMarks } from '../../src/quote/pieceMarks.ts';
import { extraRows, scheduleOfRun } from '../../src/quote/schedule.ts';
import { topJoints } from '../../src/quote/topJoints.ts';
import { wideningFor } from '../../src/quote/widening.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { fittingStock } from '../../src/stock/fittingStock.ts';

const depthMm = 700;
const posed = (problem: object): FitProblem => {
  const parsed = parseProblem({
    depthMm,
    ...fittingStock(demoRange, { depthMm }),
    fillerMaxMm: 150,
    ends: [{ kind: 'wall' }, { kind: 'wall' }],
    ...problem,
  });
  if (!parsed.ok) throw new Error(parsed.error.message);
  return parsed.problem;
};
const fitted = (problem: FitProblem): FitAlternative => {
  const answer = fitRun(problem, { alternatives: 1 });
  const [best] = answer.alternatives;
  if (!best) throw new Error('no fit');
  expect(checkFit(problem, answer)).toEqual([]);
  return best;
};
const extrasOf = (problem: FitProblem, alternative = fitted(problem)) =>
  extrasOfRun(problem, alternative, demoRange, pieceMarks(1, alternative));
const one = (extras: readonly Extra[], kind: ExtraKind) => extras.find((extra) => extra.kind === kind);

/** A bar of two 2100 modules and a carried beer station between them, free at its right-hand end. */
const beerBar = posed({
  straights: [{ lengthMm: 10 + 2100 + 600 + 2100 + 20 }],
  ends: [{ kind: 'wall' }, { kind: 'exposed' }],
  allowances: { scribeMm: 10, endPanelMm: 20 },
  wanted: [{ id: 'beer', item: 'beer-station-600', straight: 0, nearMm: 2410, withinMm: 0 }],
});

describe('what a run needs beside its pieces (common practice, no source)', () => {
  it('stands two 2100 modules on six frames and twelve legs, and the carried station on none', () => {
    const frames = one(extrasOf(beerBar), 'frame');
    expect(frames).toMatchObject({ count: 6, price: null });
    expect(frames?.note).toContain('12 legs');
  });

  it('closes an exposed end with an end panel, and a wall with none', () => {
    expect(one(extrasOf(beerBar), 'end-panel')).toMatchObject({ count: 1, price: 240, massKg: 14 });
    const betweenWalls = posed({ straights: [{ lengthMm: 4800 }] });
    expect(one(extrasOf(betweenWalls), 'end-panel')).toBeUndefined();
  });

  it('sets a carried station’s distance with one spacer bar, and joins its top to both neighbours', () => {
    const extras = extrasOf(beerBar);
    expect(one(extras, 'spacer-bar')).toMatchObject({ count: 1, price: 28 });
    expect(one(extras, 'top-joint')).toMatchObject({ count: 2, price: 70 });
  });

  it('runs upstand and shelf along the whole front', () => {
    const extras = extrasOf(beerBar);
    expect(one(extras, 'upstand')).toMatchObject({ lengthMm: 4830, price: 289.8 });
    expect(one(extras, 'shelf')).toMatchObject({ lengthMm: 4830, price: 917.7 });
  });

  it('holds the shelf at its ends and no further apart than 600, but not where the end panel carries it', () => {
    // 4830 in bays of at most 600: nine bays, ten places, one of them the end panel.
    expect(one(extrasOf(beerBar), 'shelf-bracket')?.count).toBe(9);
    const exact = posed({ straights: [{ lengthMm: 2400 }] });
    expect(one(extrasOf(exact), 'shelf-bracket')?.count).toBe(5);
  });

  it('lists wastes and connectors with the pieces that bring them, in their price', () => {
    const extras = extrasOf(beerBar).filter(({ kind }) => kind === 'included');
    expect(extras).toMatchObject([
      { name: 'Drip tray waste DN 32', count: 1, price: null, note: 'Comes with 1.02' },
    ]);
  });

  it('interrupts upstand and shelf at openings and blocked zones', () => {
    const problem = posed({
      straights: [{ lengthMm: 6000, openings: [[2400, 3300]], blocked: [[5700, 6000]] }],
    });
    const stretches = frontStretches(problem, fitted(problem));
    expect(stretches.map(({ fromMm, toMm }) => [fromMm, toMm])).toEqual([
      [0, 2400],
      [3300, 5700],
    ]);
    expect(one(extrasOf(problem), 'shelf')).toMatchObject({ count: 2, lengthMm: 4800 });
  });

  it('follows an exposed end that gives', () => {
    const problem = posed({
      straights: [{ lengthMm: 2390 }],
      ends: [{ kind: 'wall' }, { kind: 'exposed', giveMm: [0, 50] }],
      allowances: { endPanelMm: 20 },
    });
    const alternative = fitted(problem);
    expect(alternative.score.leftoverMm).toBe(0);
    expect(frontStretches(problem, alternative)).toMatchObject([{ fromMm: 0, toMm: 2420, exposedEnds: 1 }]);
  });

  it.each([
    ['corner-unit', 2],
    ['first-through', 1],
    ['mitre', 2],
  ] as const)('counts the joints at a corner made %s', (treatment, atCorner) => {
    const problem = posed({
      straights: [{ lengthMm: 2400 + 700 }, { lengthMm: 2400 + 700 }],
      corners: [{ turnDeg: 90, treatment }],
    });
    const pieces = [
      { straight: 0, item: 'module-2400', fromMm: 0, toMm: 2400 },
      { straight: 1, item: 'module-2400', fromMm: 700, toMm: 3100 },
    ];
    const alternative: FitAlternative = {
      reason: 'drawn by hand',
      corners: [treatment === 'corner-unit' ? { treatment, item: 'corner-700' } : { treatment }],
      pieces,
      leftovers: [],
      score: fitted(posed({ straights: [{ lengthMm: 2400 }] })).score,
    };
    expect(topJoints(problem, alternative)).toBe(atCorner);
  });

  it('runs on over a bay, whose top meets both neighbours, and in front of a column that is passed', () => {
    const problem = posed({
      straights: [
        {
          lengthMm: 5500,
          bays: [{ fromMm: 2400, toMm: 3100 }],
          columns: [{ fromMm: 4000, toMm: 4200, depthMm: 200 }],
        },
      ],
    });
    const alternative: FitAlternative = {
      ...fitted(posed({ straights: [{ lengthMm: 2400 }] })),
      pieces: [
        { straight: 0, item: 'module-2400', fromMm: 0, toMm: 2400 },
        { straight: 0, item: 'module-2400', fromMm: 3100, toMm: 5500 },
      ],
      passedColumns: [{ straight: 0, column: 0 }],
    };
    expect(topJoints(problem, alternative)).toBe(2);
    expect(one(extrasOf(problem, alternative), 'shelf')).toMatchObject({ count: 1, lengthMm: 5500 });
    const { passedColumns: _, ...stopped } = alternative;
    expect(one(extrasOf(problem, stopped), 'shelf')).toMatchObject({ count: 2, lengthMm: 5300 });
  });

  it('makes no joint at a filler, and one at a made-to-measure piece', () => {
    const base = fitted(posed({ straights: [{ lengthMm: 2400 }] }));
    const problem = posed({ straights: [{ lengthMm: 5000 }] });
    const withLeftover = (verdict: 'filler' | 'made-to-measure'): FitAlternative => ({
      ...base,
      pieces: [
        { straight: 0, item: 'module-2400', fromMm: 0, toMm: 2400 },
        { straight: 0, item: 'module-2400', fromMm: 2400, toMm: 4800 },
      ],
      leftovers: [{ straight: 0, fromMm: 4800, toMm: 5000, widthMm: 200, verdict, confirmed: true }],
    });
    expect(topJoints(problem, withLeftover('filler'))).toBe(1);
    expect(topJoints(problem, withLeftover('made-to-measure'))).toBe(2);
    // The made-to-measure module stands on the frames of its width: 3 + 3 + 2.
    expect(one(extrasOf(problem, withLeftover('made-to-measure')), 'frame')?.count).toBe(8);
  });
});

describe('what a leftover costs after the range’s rules', () => {
  it('is a base price and a price per millimetre', () => {
    expect(leftoverPrice(demoRange, 'filler', 124)).toBe(134.6);
    expect(leftoverPrice(demoRange, 'made-to-measure', 248.4)).toBe(620 + 249 * 0.75);
    expect(leftoverPrice(demoRange, 'closes', 8)).toBe(0);
  });

  it('is not known where the range does not make that width', () => {
    expect(leftoverPrice(demoRange, 'filler', 200)).toBeNull();
    expect(leftoverPrice(demoRange, 'made-to-measure', 90)).toBeNull();
    expect(leftoverPrice(demoRange, 'made-to-measure', 2_800)).toBeNull();
  });

  it('can be saved by making the module beside it wider, within the range’s limit', () => {
    const base = fitted(posed({ straights: [{ lengthMm: 2400 }] }));
    const alternative = (widthMm: number): FitAlternative => ({
      ...base,
      pieces: [
        { straight: 0, item: 'module-1200', fromMm: 0, toMm: 1200 },
        { straight: 0, item: 'module-1800', fromMm: 1200 + widthMm, toMm: 3000 + widthMm },
      ],
      leftovers: [
        {
          straight: 0,
          fromMm: 1200,
          toMm: 1200 + widthMm,
          widthMm,
          verdict: 'made-to-measure',
          confirmed: true,
        },
      ],
    });
    expect(wideningFor(demoRange, alternative(248), 0, 0)).toEqual({
      piece: 1,
      widthMm: 2048,
      morePrice: 390,
    });
    expect(wideningFor(demoRange, alternative(301), 0, 0)).toBeNull();
  });
});

describe('extras in the schedule', () => {
  it('follow the pieces with marks of their own, and count into the price', () => {
    const alternative = fitted(beerBar);
    const run = { name: 'Front bar', number: 1 };
    const rows = [...scheduleOfRun(run, alternative, demoRange), ...extraRows(run, extrasOf(beerBar))];
    // 2 x 1480 + 1240 for the pieces; 240 + 28 + 70 + 289.8 + 917.7 + 9 x 22 for the extras.
    const total = rows.reduce((sum, { price }) => sum + (price ?? 0), 0);
    expect(total).toBeCloseTo(4200 + 1743.5, 6);
    const lines = scheduleCsv(rows, 'EUR').split('\r\n');
    expect(lines.find((line) => line.startsWith('1.E2,'))).toBe(
      '1.E2,Front bar,,extra,,End panel,1,,,,14,240,',
    );
    expect(lines.find((line) => line.includes('Serving shelf'))).toContain(',4830,');
  });
});

import { describe, expect, it } from 'vitest';
import { fitRun } from '../../src/fitting/fitRun.ts';
import { type FitProblem, parseProblem } from '../../src/fitting/problemSchema.ts';
import { deliveredPieces } from '../../src/quote/deliveredPieces.ts';
import { fitLines } from '../../src/quote/fitLines.ts';
import { priceLine } from '../../src/quote/quoteLine.ts';
import { scheduleOfRun } from '../../src/quote/schedule.ts';
import { wideningFor } from '../../src/quote/widening.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { fittingStock } from '../../src/stock/fittingStock.ts';

/** 1 850 mm between a wall and an exposed end with no allowances: 1 500 or 1 800 and a rest, 200 of it made to measure. */
const problemOf = (lengthMm: number): FitProblem => {
  const { price, pricePerMm, wideningMaxMm, wideningPrice } = demoRange.madeToMeasure;
  const parsed = parseProblem({
    depthMm: 700,
    straights: [{ lengthMm }],
    ends: [{ kind: 'wall' }, { kind: 'exposed' }],
    stock: fittingStock(demoRange, { depthMm: 700 }).stock,
    fillerMaxMm: 40,
    madeToMeasure: { price, pricePerMm, wideningMaxMm, wideningPrice },
  });
  if (!parsed.ok) throw new Error(parsed.error.message);
  return parsed.problem;
};

const problem = problemOf(2000);
const widened = fitRun(problem).alternatives.find(({ pieces }) => pieces.some((one) => one.widenedMm));
if (!widened) throw new Error('the range allows widening by 300: an alternative was expected');
const run = { name: 'Bar', number: 1, problem, alternative: widened, others: [], questions: [] };
const [piece] = widened.pieces.filter((one) => one.widenedMm);
const item = demoRange.items.find(({ id }) => id === piece?.item);
if (!item || !piece?.widenedMm) throw new Error('a module of the range');
const by = piece.widenedMm;

// Expected prices and sizes follow from the range's own rules: the module's price and the one for widening.
describe('a module made wider', () => {
  it('is named with its width, and costs the module and the widening', () => {
    const row = scheduleOfRun(run, widened, demoRange).find(({ name }) => name.includes('made'));
    expect(row?.name).toBe(`${item.name}, made ${item.widthMm + by} mm wide`);
    expect(row?.price).toBe((item.price ?? 0) + demoRange.madeToMeasure.wideningPrice);
    expect(row?.widthMm).toBeCloseTo(item.widthMm + by, 6);
  });

  it('is a line of its own in the quote, with that price', () => {
    const line = fitLines(run, demoRange).find(({ name }) => name.includes('made'));
    expect(line?.quantity).toBe(1);
    expect(line && priceLine(line, demoRange.currency).amount?.minor).toBe(
      ((item.price ?? 0) + demoRange.madeToMeasure.wideningPrice) * 100,
    );
  });

  it('comes to site longer and heavier by as much as it is wider', () => {
    const delivered = deliveredPieces({ number: 1, depthMm: 700 }, widened, demoRange);
    const box = delivered.pieces.find(({ name }) => name.includes('made'))?.piece;
    expect(box?.lengthMm).toBe((item.packed?.lengthMm ?? 0) + by);
    expect(box?.massKg).toBeGreaterThan(item.massKg ?? 0);
  });

  it('is not offered to be made wider again', () => {
    const again = {
      ...widened,
      leftovers: [
        {
          straight: 0,
          fromMm: piece.fromMm - 100,
          toMm: piece.fromMm,
          widthMm: 100,
          verdict: 'made-to-measure' as const,
          confirmed: true,
        },
      ],
      pieces: [piece],
    };
    expect(wideningFor(demoRange, again, 0, 0)).toBeNull();
    const { widenedMm: _, ...stock } = piece;
    expect(wideningFor(demoRange, { ...again, pieces: [stock] }, 0, 0)?.piece).toBe(0);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitRun } from '../../src/fitting/fitRun.ts';
import { canonicalProblem } from '../../src/fitting/problemHash.ts';
import type { FitProblem } from '../../src/fitting/problemSchema.ts';
import { fitOrders } from '../../src/fitting/problemSchema.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { mirroredProblem } from '../oracles/mirroredProblem.ts';
import { randomFitProblem } from '../oracles/randomFitProblem.ts';
import { seededRandom } from '../oracles/seededRandom.ts';

const size = {
  stepMm: 10,
  straights: 3,
  lengthMm: [400, 3_000],
  widthMm: [240, 900],
  stock: 4,
  wanted: 4,
  oddAngles: true,
} as const;

const problems = fc
  .integer({ min: 1, max: 2 ** 30 })
  .map((seed) => randomFitProblem(seededRandom(seed), size));
const runs = { seed: 20_260, numRuns: campaignSize({ sample: 60, full: 1_000 }) };

const shuffled = <Value>(values: readonly Value[], seed: number): Value[] => {
  const random = seededRandom(seed);
  return values
    .map((value) => ({ value, at: random.next() }))
    .sort((a, b) => a.at - b.at)
    .map(({ value }) => value);
};

const permuted = (problem: FitProblem, seed: number): FitProblem => ({
  ...problem,
  stock: shuffled(problem.stock, seed),
  ...(problem.cornerUnits ? { cornerUnits: shuffled(problem.cornerUnits, seed) } : {}),
  ...(problem.wanted ? { wanted: shuffled(problem.wanted, seed) } : {}),
});

describe('properties of a fit', () => {
  it('permuting stock, corner units and wishes changes nothing', () => {
    fc.assert(
      fc.property(problems, fc.integer(), (problem, seed) => {
        const options = { alternatives: 2, order: fitOrders[Math.abs(seed) % fitOrders.length]! };
        const answer = fitRun(problem, options);
        const other = fitRun(permuted(problem, seed), options);
        // The stations left out are listed as they were wanted; everything else is equal to the letter.
        const sorted = (lines: readonly string[]) => [...lines].sort();
        expect(other.alternatives.map(({ leftOut: _, ...rest }) => rest)).toEqual(
          answer.alternatives.map(({ leftOut: _, ...rest }) => rest),
        );
        expect(other.explanation).toBe(answer.explanation);
        expect(sorted(other.questions)).toEqual(sorted(answer.questions));
      }),
      runs,
    );
  });

  it('mirroring the run keeps the score', () => {
    fc.assert(
      fc.property(problems, (problem) => {
        const answer = fitRun(problem, { alternatives: 1 });
        const mirrored = fitRun(mirroredProblem(problem), { alternatives: 1 });
        expect(mirrored.status).toBe(answer.status);
        const score = answer.alternatives[0]?.score;
        const other = mirrored.alternatives[0]?.score;
        if (score === undefined || other === undefined) expect(other).toBe(score);
        else {
          for (const [name, value] of Object.entries(score)) {
            // Odd angles round to micrometres on both sides of a corner.
            expect(Math.abs(other[name as keyof typeof other] - value), name).toBeLessThanOrEqual(0.01);
          }
        }
      }),
      runs,
    );
  });

  it('a wider filler, a longer give or one more stock line never makes the score worse', () => {
    const better = (a: FitProblem, b: FitProblem) => {
      const [first, second] = [a, b].map(
        (problem) => fitRun(problem, { alternatives: 1 }).alternatives[0]?.score,
      );
      if (first === undefined) return;
      const [x, y] = [Object.values(first), Object.values(second!)];
      const at = x.findIndex((value, place) => Math.abs(value - y[place]!) > 1e-9);
      expect(at < 0 || y[at]! < x[at]!).toBe(true);
    };
    fc.assert(
      fc.property(problems, fc.integer({ min: 24, max: 90 }), (problem, step) => {
        const extra = { id: 'extra', widthMm: step * 10, support: 'standing' as const };
        better(problem, { ...problem, stock: [...problem.stock, extra] });
        better(problem, {
          ...problem,
          ends: [
            { ...problem.ends[0], giveMm: [100, 100] },
            { ...problem.ends[1], giveMm: [100, 100] },
          ],
        });
      }),
      runs,
    );
  });
});

describe('canonicalProblem', () => {
  it('is the same for problems that differ only in the sequence of stock, units and wishes, or of fields', () => {
    fc.assert(
      fc.property(problems, fc.integer(), (problem, seed) => {
        const reversed = Object.fromEntries(Object.entries(permuted(problem, seed)).reverse());
        expect(canonicalProblem(reversed as FitProblem)).toBe(canonicalProblem(problem));
      }),
      { ...runs, numRuns: 40 },
    );
  });

  it('differs where a length differs, and reads back as the same problem', () => {
    const problem = randomFitProblem(seededRandom(5), size);
    expect(canonicalProblem({ ...problem, depthMm: problem.depthMm + 1 })).not.toBe(
      canonicalProblem(problem),
    );
    expect(fitRun(JSON.parse(canonicalProblem(problem)), { alternatives: 1 }).alternatives).toEqual(
      fitRun(problem, { alternatives: 1 }).alternatives,
    );
  });
});

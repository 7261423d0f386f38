import { describe, expect, it } from 'vitest';
import type { LeftOutStation } from '../../src/fitting/fitAnswer.ts';
import { fitRun } from '../../src/fitting/fitRun.ts';
import { type FitProblem, parseProblem } from '../../src/fitting/problemSchema.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { exhaustiveFit } from '../oracles/exhaustiveFit.ts';
import { extendedFitProblem, type FitExtension } from '../oracles/extendedFitProblem.ts';
import { seededRandom } from '../oracles/seededRandom.ts';

const gridMm = 20;
const small = {
  stepMm: 40,
  straights: 2,
  lengthMm: [400, 1_400],
  widthMm: [240, 720],
  stock: 3,
  wanted: 4,
  oddAngles: false,
} as const;

/** Whether some fit places these stations, all of them, with one of them anywhere within a distance of its wish. */
const isPossible = (
  problem: FitProblem,
  placed: ReadonlySet<string>,
  { wanted }: LeftOutStation,
  withinMm: number,
): boolean => {
  const asked: FitProblem = {
    ...problem,
    wanted: problem
      .wanted!.filter(({ id }) => placed.has(id) || id === wanted)
      .map((one) => (one.id === wanted ? { ...one, withinMm } : one)),
  };
  return exhaustiveFit(asked, gridMm)?.[0] === 0;
};

describe('the nearest place of a station that is left out', () => {
  it('is where an exhaustive search finds it: all others stay placed, and no place is nearer', () => {
    const kinds: readonly (readonly FitExtension[])[] = [[], ['bays', 'meets'], ['handed'], ['beside']];
    const count = campaignSize({ sample: 120, full: 2_000 });
    const seen = { nearest: 0, nowhere: 0 };
    for (let seed = 1_100_001; seed < 1_100_001 + count; seed += 1) {
      const made = extendedFitProblem(seededRandom(seed), small, kinds[seed % kinds.length]!);
      const parsed = parseProblem(made);
      if (!parsed.ok) throw new Error(parsed.error.message);
      const { problem } = parsed;
      const [first] = fitRun(problem, { alternatives: 1 }).alternatives;
      const placed = new Set(first?.pieces.flatMap((piece) => piece.wanted ?? []));
      for (const out of first?.leftOut ?? []) {
        const wish = problem.wanted!.find(({ id }) => id === out.wanted)!;
        const named = `seed ${seed}, ${out.wanted}`;
        if (out.nearest === undefined) {
          seen.nowhere += 1;
          expect(isPossible(problem, placed, out, 20_000), named).toBe(false);
          continue;
        }
        seen.nearest += 1;
        expect(out.nearest.straight, named).toBe(wish.straight);
        const awayMm = Math.abs(out.nearest.atMm - wish.nearMm);
        expect(awayMm, named).toBeGreaterThan(wish.withinMm);
        expect(isPossible(problem, placed, out, awayMm), named).toBe(true);
        expect(isPossible(problem, placed, out, awayMm - gridMm / 2), named).toBe(false);
      }
    }
    expect(seen.nearest).toBeGreaterThan(count / 10);
    expect(seen.nowhere).toBeGreaterThan(0);
  });

  it('is asked for of every station that is left out, and minds only its own distance', () => {
    const parsed = parseProblem({
      depthMm: 700,
      straights: [{ lengthMm: 3_000 }],
      ends: [{ kind: 'wall' }, { kind: 'wall' }],
      stock: [600, 900, 1_200].map((widthMm) => ({ id: `M${widthMm}`, widthMm, support: 'standing' })),
      fillerMaxMm: 150,
      wanted: [
        { id: 'kept', item: 'M600', straight: 0, nearMm: 300, withinMm: 600 },
        { id: 'out', item: 'M600', straight: 0, nearMm: 200, withinMm: 10 },
        { id: 'too', item: 'M900', straight: 0, nearMm: 100, withinMm: 10 },
      ],
    });
    if (!parsed.ok) throw new Error(parsed.error.message);
    const [first] = fitRun(parsed.problem).alternatives;
    // The one that stands may move up to 900 to let a 600 into its place at the wall, but not a 900: that stands after it.
    expect(first!.leftOut?.map(({ wanted, nearest }) => [wanted, nearest?.atMm])).toEqual([
      ['out', 300],
      ['too', 1_050],
    ]);
  });
});

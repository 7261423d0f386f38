import { describe, expect, it } from 'vitest';
import { checkFit } from '../../src/fitting/checkFit.ts';
import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import { fitRun } from '../../src/fitting/fitRun.ts';
import { type FitProblem, parseProblem } from '../../src/fitting/problemSchema.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { randomFitProblem } from '../oracles/randomFitProblem.ts';
import { seededRandom } from '../oracles/seededRandom.ts';

const modules = [600, 900, 1200, 1500, 1800, 2100, 2400].map((widthMm) => ({
  id: `M${widthMm}`,
  widthMm,
  support: 'standing' as const,
  price: widthMm,
}));
const wall = { kind: 'wall' as const };
const rule = { price: 200, pricePerMm: 0.5, wideningMaxMm: 400, wideningPrice: 150 };

const problemOf = (fields: Partial<FitProblem>): FitProblem => {
  const parsed = parseProblem({
    depthMm: 700,
    straights: [{ lengthMm: 6_248 }],
    ends: [wall, wall],
    stock: modules,
    fillerMaxMm: 100,
    ...fields,
  });
  if (!parsed.ok) throw new Error(parsed.error.message);
  return parsed.problem;
};

const accepted = (problem: FitProblem, alternatives = 6): readonly FitAlternative[] => {
  const answer = fitRun(problem, { alternatives });
  expect(checkFit(problem, answer)).toEqual([]);
  return answer.alternatives;
};

describe('a module made wider in place of a made-to-measure piece', () => {
  it('takes up the leftover, counts as made to measure itself, and says what both cost', () => {
    const problem = problemOf({ madeToMeasure: rule, ends: [wall, { kind: 'exposed' }] });
    const [first, widened] = accepted(problem);
    expect(first!.leftovers.map(({ widthMm, verdict }) => [widthMm, verdict])).toEqual([
      [248, 'made-to-measure'],
    ]);
    // 200 + 0.5 x 248 = 324 against 150.
    expect(widened!.reason).toBe(
      'No made-to-measure piece beside a module: M2400 on straight 1 made 2 648 wide for 150, instead of a made-to-measure piece of 248 for 324: 174 less.',
    );
    expect(widened!.leftovers).toEqual([]);
    expect(widened!.pieces[0]).toEqual({
      straight: 0,
      item: 'M2400',
      fromMm: 0,
      toMm: 2_648,
      widenedMm: 248,
    });
    expect(widened!.score.madeToMeasure).toBe(1);
    expect(widened!.score.price).toBe(first!.score.price + 150);
  });

  it('is not offered beyond what a module may be widened, over the widest that comes in, or without its prices', () => {
    const isWidened = (fields: Partial<FitProblem>) =>
      accepted(problemOf({ ends: [wall, { kind: 'exposed' }], ...fields })).some(({ pieces }) =>
        pieces.some(({ widenedMm }) => widenedMm !== undefined),
      );
    expect(isWidened({ madeToMeasure: rule })).toBe(true);
    expect(isWidened({})).toBe(false);
    expect(isWidened({ madeToMeasure: { ...rule, wideningMaxMm: 247 } })).toBe(false);
    expect(isWidened({ madeToMeasure: rule, maxWidthMm: 2_500 })).toBe(false);
  });

  it('keeps every rule on random runs, and changes nothing but adds to what is offered', () => {
    let offered = 0;
    const count = campaignSize({ sample: 60, full: 1_000 });
    for (let seed = 1; seed <= count; seed += 1) {
      const size = { stepMm: 10, straights: 2, lengthMm: [400, 3_000], widthMm: [240, 900] } as const;
      const plain = randomFitProblem(seededRandom(seed), { ...size, stock: 4, wanted: 2, oddAngles: true });
      const problem: FitProblem = { ...plain, madeToMeasure: rule };
      const alternatives = accepted(problem);
      const without = fitRun(plain, { alternatives: 6 }).alternatives;
      const widened = alternatives.filter(({ pieces }) =>
        pieces.some((piece) => piece.widenedMm !== undefined),
      );
      offered += widened.length;
      expect(alternatives.filter((one) => !widened.includes(one)).slice(0, 5)).toEqual(without.slice(0, 5));
    }
    expect(offered).toBeGreaterThan(count / 20);
  });
});

describe('a symmetrical alternative', () => {
  const lengthPieces = ({ pieces }: FitAlternative) => pieces.filter(({ host }) => host === undefined);
  const symmetrical = (problem: FitProblem) =>
    accepted(problem).find(({ reason }) => reason.includes('symmetrical'));

  it('mirrors its pieces about the middle of the straight', () => {
    const found = symmetrical(
      problemOf({ straights: [{ lengthMm: 6_300 }], symmetrical: [{ straight: 0 }] }),
    )!;
    expect(found.reason).toBe('Straight 1 symmetrical about its middle.');
    for (const { item, fromMm, toMm } of lengthPieces(found)) {
      expect(lengthPieces(found)).toContainEqual({
        straight: 0,
        item,
        fromMm: 6_300 - toMm,
        toMm: 6_300 - fromMm,
      });
    }
    // 6 300 = 2 x 2 400 + 1 500 is the symmetrical one without a leftover and with the fewest pieces.
    expect(found.pieces.map(({ item }) => item)).toEqual(['M2400', 'M1500', 'M2400']);
    expect(found.score.leftoverMm).toBe(0);
  });

  it('mirrors them about a station', () => {
    const tap = { id: 'tap', widthMm: 450, support: 'carried' as const, price: 9 };
    const problem = problemOf({
      stock: [...modules, tap],
      wanted: [{ id: 'taps', item: 'tap', straight: 0, nearMm: 3_000, withinMm: 300 }],
      symmetrical: [{ straight: 0, about: 'taps' }],
    });
    const found = symmetrical(problem)!;
    expect(found.reason).toBe('Straight 1 symmetrical about station taps.');
    const items = lengthPieces(found).map(({ item }) => item);
    expect(items).toEqual(items.toReversed());
    expect(items[(items.length - 1) / 2]).toBe('tap');
    expect(found.score.unplaced).toBe(0);
  });

  it('is as good as any symmetrical layout found by trying all of them', () => {
    // All palindromes of modules up to 6 m, centred: what is left over is the same on either side.
    let judged = 0;
    for (const lengthMm of [3_000, 3_150, 4_400, 5_250]) {
      const found = symmetrical(problemOf({ straights: [{ lengthMm }], symmetrical: [{ straight: 0 }] }));
      let least = Number.POSITIVE_INFINITY;
      const grow = (halfMm: number): void => {
        for (const middleMm of [0, ...modules.map(({ widthMm }) => widthMm)]) {
          const usedMm = 2 * halfMm + middleMm;
          if (usedMm > 0 && usedMm <= lengthMm) {
            const partMm = (lengthMm - usedMm) / 2;
            const made = partMm > 100 ? 2 : 0;
            least = Math.min(least, made * 1e6 + lengthMm - usedMm);
          }
        }
        for (const { widthMm } of modules) if (2 * (halfMm + widthMm) <= lengthMm) grow(halfMm + widthMm);
      };
      grow(0);
      // Where the best fit is symmetrical already it is not shown twice.
      if (found === undefined) continue;
      judged += 1;
      expect(found.score.madeToMeasure * 1e6 + found.score.leftoverMm, `${lengthMm}`).toBe(least);
    }
    expect(judged).toBeGreaterThanOrEqual(2);
  });

  it('is refused by name for a straight or a station that is not there', () => {
    const codeOf = (symmetry: { straight: number; about?: string }) => {
      const parsed = parseProblem({ ...problemOf({}), symmetrical: [symmetry] });
      return parsed.ok ? 'ok' : `${parsed.error.code} ${parsed.error.path}`;
    };
    expect(codeOf({ straight: 1 })).toBe('unknown-straight symmetrical[0].straight');
    expect(codeOf({ straight: 0, about: 'taps' })).toBe('unknown-station symmetrical[0].about');
    expect(codeOf({ straight: 0 })).toBe('ok');
  });
});

import { describe, expect, it } from 'vitest';
import { transformPoint } from '../../../src/geometry/affine.ts';
import { paperPoint } from '../../../src/geometry/point.ts';
import { fitSimilarity } from '../../../src/sheet/registration/fitSimilarity.ts';
import { type PickedPair, registerByPicks } from '../../../src/sheet/registration/registerByPicks.ts';
import { positionUncertaintyPt } from '../../../src/sheet/registration/registrationUncertainty.ts';
import {
  applySimilarity,
  inverseSimilarity,
  similarityAngleRad,
  similarityMatrix,
  similarityOf,
  similarityScale,
} from '../../../src/sheet/registration/similarity.ts';
import { seededRandom } from '../../fixtures/drawPlan/seededRandom.ts';

const pair = (oldX: number, oldY: number, newX: number, newY: number): PickedPair => ({
  old: paperPoint(oldX, oldY),
  new: paperPoint(newX, newY),
});

const registered = (pairs: readonly PickedPair[]) => {
  const answer = registerByPicks(pairs);
  if ('error' in answer) throw new Error(answer.error.message);
  return answer;
};

/** A normal deviate (Box and Muller, Annals of Mathematical Statistics 29, 1958, 610-611). */
const normal = (unit: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - unit())) * Math.cos(2 * Math.PI * unit());

describe('registering by picks', () => {
  // The worked example of Umeyama, IEEE PAMI 13(4), 1991, 376-380; the result as that paper is commonly quoted, from
  // memory: R = [.83205 .55470; -.55470 .83205], c = .721110, t = (-.8, .4), mean square error .533333. The new
  // points are the old ones mirrored, and the answer must not mirror.
  it('gives the worked example of Umeyama 1991, and never a mirror', () => {
    const { transform, residuals } = registered(
      [pair(0, 0, 0, 0), pair(1, 0, -1, 0), pair(0, 2, 0, 2)].map((each) => ({
        ...each,
        oldUncertaintyPt: 0.01,
        newUncertaintyPt: 0.01,
      })),
    );
    expect(similarityScale(transform)).toBeCloseTo(0.72111, 5);
    expect(Math.cos(similarityAngleRad(transform))).toBeCloseTo(0.83205, 5);
    expect(Math.sin(similarityAngleRad(transform))).toBeCloseTo(-0.5547, 5);
    expect([transform.x0, transform.y0]).toEqual([expect.closeTo(-0.8, 6), expect.closeTo(0.4, 6)]);
    const meanSquare = residuals.reduce((sum, { distancePt }) => sum + distancePt ** 2, 0) / 3;
    expect(meanSquare).toBeCloseTo(0.533333, 5);
  });

  it('takes two pairs exactly', () => {
    const truth = similarityOf(0.5, 2.1, 300, -40);
    const [p, q] = [paperPoint(100, 200), paperPoint(900, 700)];
    const [p2, q2] = [applySimilarity(truth, p), applySimilarity(truth, q)];
    const { transform, residuals, warning } = registered([
      pair(p.x, p.y, p2.x, p2.y),
      pair(q.x, q.y, q2.x, q2.y),
    ]);
    for (const key of ['a', 'b', 'x0', 'y0'] as const) expect(transform[key]).toBeCloseTo(truth[key], 9);
    expect(Math.max(...residuals.map(({ distancePt }) => distancePt))).toBeLessThan(1e-9);
    expect(warning).toBeNull();
    const byMatrix = transformPoint(similarityMatrix(transform), p);
    expect([byMatrix.x, byMatrix.y]).toEqual([expect.closeTo(p2.x, 9), expect.closeTo(p2.y, 9)]);
    const there = applySimilarity(inverseSimilarity(truth), p2);
    expect([there.x, there.y]).toEqual([expect.closeTo(100, 9), expect.closeTo(200, 9)]);
  });

  // The oracle is the definition of least squares: no similarity near the answer has a smaller sum.
  it('has the least weighted sum of squares', () => {
    const { unit } = seededRandom(5);
    for (let round = 0; round < 50; round++) {
      const pairs = Array.from({ length: 4 }, () => ({
        old: { x: unit() * 900, y: unit() * 900 },
        new: { x: unit() * 900, y: unit() * 900 },
        weight: 0.1 + unit(),
      }));
      const sumAt = (similarity: Parameters<typeof applySimilarity>[0]): number =>
        pairs.reduce((sum, each) => {
          const at = applySimilarity(similarity, each.old);
          return sum + each.weight * ((at.x - each.new.x) ** 2 + (at.y - each.new.y) ** 2);
        }, 0);
      const { transform } = fitSimilarity(pairs)!;
      const least = sumAt(transform);
      for (const key of ['a', 'b', 'x0', 'y0'] as const)
        for (const step of [-1e-3, 1e-3])
          expect(sumAt({ ...transform, [key]: transform[key] + step })).toBeGreaterThan(least);
    }
  });

  // The oracle is a Monte Carlo trial (JCGM 101:2008): picks drawn with their uncertainty, errors counted.
  it('states an uncertainty that holds about 95 of 100 errors, near the picks and far from them', () => {
    const { unit } = seededRandom(11);
    const truth = similarityOf(0.7, 0.4, 20, 90);
    const picks = [paperPoint(100, 100), paperPoint(700, 180), paperPoint(420, 600)];
    const places = [paperPoint(400, 300), paperPoint(1500, 1200)];
    const inside = [0, 0];
    const trials = 4000;
    for (let trial = 0; trial < trials; trial++) {
      const noisy = (place: { x: number; y: number }, spread: number) =>
        paperPoint(place.x + spread * normal(unit), place.y + spread * normal(unit));
      const { transform, uncertainty } = registered(
        picks.map((pick) => ({
          old: noisy(pick, 0.5),
          new: noisy(applySimilarity(truth, pick), 0.3),
          oldUncertaintyPt: 0.5,
          newUncertaintyPt: 0.3,
        })),
      );
      places.forEach((place, index) => {
        const [found, true_] = [applySimilarity(transform, place), applySimilarity(truth, place)];
        const error = Math.hypot(found.x - true_.x, found.y - true_.y);
        if (error <= positionUncertaintyPt(uncertainty, place)) inside[index]!++;
      });
    }
    // For equal variances the distance lies within twice the root of their sum in 1 - exp(-4) = 98.2 % (Rayleigh).
    for (const count of inside) expect(count / trials).toBeGreaterThan(0.95);
    for (const count of inside) expect(count / trials).toBeLessThan(0.998);
  });

  it('warns where the pairs disagree', () => {
    const { warning, residuals } = registered([
      pair(0, 0, 0, 0),
      pair(500, 0, 500, 0),
      pair(500, 400, 500, 400),
      pair(0, 400, 0, 430),
    ]);
    expect(warning?.code).toBe('picks-disagree');
    expect(Math.max(...residuals.map(({ distancePt }) => distancePt))).toBe(residuals[3]!.distancePt);
  });

  it.each([
    ['too-few-picks', [pair(0, 0, 1, 1)]],
    ['picks-too-near', [pair(10, 10, 20, 20), pair(10, 10, 90, 90)]],
    ['picks-too-near', [pair(10, 10, 20, 20), pair(12, 10, 22, 20)]],
    ['pick-not-finite', [pair(0, 0, 1, 1), pair(Number.NaN, 0, 1, 1)]],
    ['pick-uncertainty', [pair(0, 0, 1, 1), { ...pair(500, 0, 1, 1), oldUncertaintyPt: 0 }]],
  ])('refuses %s', (code, pairs) => {
    expect(registerByPicks(pairs)).toMatchObject({ error: { code } });
  });
});

import { Polygon, point } from '@flatten-js/core';
import { describe, expect, it } from 'vitest';
import { curvedModule } from '../../src/fitting/curvedModule.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import type { CurvedFit } from '../oracles/curvedFit.ts';
import { type CurvedProblem, parseCurvedProblem } from '../oracles/curvedProblem.ts';
import { curvedRun } from '../oracles/curvedRun.ts';
import { seededRandom } from '../oracles/seededRandom.ts';

const modules = [600, 900, 1200, 1500].map((widthMm) => ({ id: `M${widthMm}`, widthMm, price: widthMm / 2 }));
const problemOf = (fields: Partial<CurvedProblem>): CurvedProblem => {
  const parsed = parseCurvedProblem({
    radiusMm: 4_000,
    sweepDeg: 90,
    front: 'outside',
    depthMm: 700,
    ends: ['wall', 'wall'],
    stock: modules,
    fillerMaxMm: 150,
    ...fields,
  });
  if (!parsed.ok) throw new Error(parsed.error.message);
  return parsed.problem;
};

/** Four corners of each module, drawn from the middle of its sector: front left and right, back right and left. */
const drawn = (problem: CurvedProblem, fit: CurvedFit, narrowerMm = 0) =>
  fit.pieces.map(({ widthMm, fromDeg, toDeg }) => {
    const middle = (((fromDeg + toDeg) / 2) * Math.PI) / 180;
    const half = (widthMm - narrowerMm) / 2;
    const outside = problem.front === 'outside';
    const face = outside ? Math.sqrt(problem.radiusMm ** 2 - (widthMm / 2) ** 2) : problem.radiusMm;
    const back = outside ? face - problem.depthMm : face + problem.depthMm;
    const at = (out: number, along: number) =>
      [
        out * Math.cos(middle) - along * Math.sin(middle),
        out * Math.sin(middle) + along * Math.cos(middle),
      ] as const;
    return [at(face, -half), at(face, half), at(back, half), at(back, -half)] as const;
  });

const distance = (a: readonly [number, number], b: readonly [number, number]) =>
  Math.hypot(a[0] - b[0], a[1] - b[1]);

describe('a module on a curve', () => {
  // Chord C = 2R sin(a), middle ordinate M = R (1 - cos a), tangent T = R tan(a), external E = R (1 / cos a - 1), with
  // a half the central angle: the parts of a simple circular curve in surveying handbooks (from memory).
  for (const radiusMm of [1_500, 4_000, 12_000]) {
    for (const halfDeg of [2, 5, 11]) {
      const half = (halfDeg * Math.PI) / 180;
      it(`has the middle ordinate or the external as overhang at R ${radiusMm} and ${2 * halfDeg} degrees`, () => {
        const chord = curvedModule(2 * radiusMm * Math.sin(half), radiusMm, 600, 'outside')!;
        expect(chord.narrowHalfAngleRad).toBeCloseTo(half, 12);
        expect(chord.overhangMm).toBeCloseTo(radiusMm * (1 - Math.cos(half)), 6);
        const tangent = curvedModule(2 * radiusMm * Math.tan(half), radiusMm, 600, 'inside')!;
        expect(tangent.halfAngleRad).toBeCloseTo(half, 12);
        expect(tangent.overhangMm).toBeCloseTo(radiusMm * (1 / Math.cos(half) - 1), 6);
      });
    }
  }

  it('overhangs by the sagitta c^2 / 8R where the chord is short against the radius', () => {
    // 600^2 / (8 x 10 000) = 4.5, the usual approximation (from memory).
    expect(curvedModule(600, 10_000, 700, 'outside')!.overhangMm).toBeCloseTo(4.5, 1);
  });

  it('is not possible where it is wider than the circle or its back reaches the centre', () => {
    expect(curvedModule(2_000, 1_000, 300, 'outside')).toBeUndefined();
    expect(curvedModule(1_600, 1_000, 700, 'outside')).toBeUndefined();
  });
});

describe('a curved run', () => {
  const random = (seed: number): CurvedProblem => {
    const source = seededRandom(seed);
    const end = () => source.pick(['wall', 'meets', 'exposed'] as const);
    return problemOf({
      radiusMm: source.integer(1_500, 9_000),
      sweepDeg: source.integer(20, 200),
      front: source.pick(['outside', 'inside'] as const),
      depthMm: source.integer(500, 800),
      ends: [end(), 'wall'],
      stock: [600, 700, 900, 1_250, 1_500]
        .filter(() => source.chance(0.6))
        .map((widthMm) => ({ id: `M${widthMm}`, widthMm, price: source.integer(1, 9) })),
      jointMm: source.integer(0, 5),
      fillerMaxMm: source.integer(0, 300),
      ...(source.chance(0.3) ? { overhangMaxMm: source.integer(10, 60) } : {}),
    });
  };

  it('never has modules overlap or cross the front line, stands them a joint apart, and measures each wedge', () => {
    for (let seed = 1; seed <= campaignSize({ sample: 60, full: 1_000 }); seed += 1) {
      const problem = random(seed);
      const fit = curvedRun(problem);
      const corners = drawn(problem, fit);
      // A hair narrower, so that neighbours that touch come apart and those that overlap do not.
      const polygons = drawn(problem, fit, 0.02).map(
        (four) => new Polygon(four.map(([x, y]) => point(x, y))),
      );
      for (const [index, polygon] of polygons.entries()) {
        for (const other of polygons.slice(index + 1)) {
          const [gapMm] = polygon.distanceTo(other);
          expect(gapMm, `seed ${seed}`).toBeGreaterThanOrEqual((problem.jointMm ?? 0) + 0.005);
        }
      }
      for (const [frontLeft, frontRight] of corners) {
        const [left, right] = [Math.hypot(...frontLeft), Math.hypot(...frontRight)];
        const middle = Math.hypot((frontLeft[0] + frontRight[0]) / 2, (frontLeft[1] + frontRight[1]) / 2);
        if (problem.front === 'outside') expect(Math.max(left, right)).toBeCloseTo(problem.radiusMm, 3);
        else expect(middle).toBeCloseTo(problem.radiusMm, 3);
      }
      for (const { after, frontMm, backMm } of fit.wedges) {
        expect(frontMm).toBeCloseTo(distance(corners[after]![1], corners[after + 1]![0]), 2);
        expect(backMm).toBeCloseTo(distance(corners[after]![2], corners[after + 1]![3]), 2);
      }
      const turned =
        (problem.jointMm ?? 0) === 0
          ? fit.pieces.reduce((sum, { fromDeg, toDeg }) => sum + toDeg - fromDeg, 0) +
            fit.leftovers.reduce((sum, { fromDeg, toDeg }) => sum + toDeg - fromDeg, 0)
          : problem.sweepDeg;
      expect(turned).toBeCloseTo(problem.sweepDeg, 5);
    }
  });

  it('leaves as little over as any selection found by trying all of them', () => {
    let judged = 0;
    for (let seed = 1; seed <= campaignSize({ sample: 60, full: 1_000 }); seed += 1) {
      const problem: CurvedProblem = { ...random(seed), jointMm: 0, fillerMaxMm: 0 };
      const fit = curvedRun(problem);
      const angles = problem.stock.flatMap(({ widthMm }) => {
        const half = widthMm / 2;
        const { radiusMm, depthMm } = problem;
        const face = Math.sqrt(radiusMm ** 2 - half ** 2);
        const overhang =
          problem.front === 'outside' ? radiusMm - face : Math.hypot(radiusMm, half) - radiusMm;
        if (overhang > (problem.overhangMaxMm ?? Number.POSITIVE_INFINITY)) return [];
        const near = problem.front === 'outside' ? face - depthMm : radiusMm;
        return near > 0 ? [2 * Math.atan(half / near)] : [];
      });
      const sweep = (problem.sweepDeg * Math.PI) / 180;
      let most = 0;
      const grow = (from: number, used: number): void => {
        most = Math.max(most, used);
        for (let at = from; at < angles.length; at += 1) {
          if (used + angles[at]! <= sweep + 1e-12) grow(at, used + angles[at]!);
        }
      };
      grow(0, 0);
      expect(fit.status).toBe('optimal');
      expect(fit.score.leftoverMm, `seed ${seed}`).toBeCloseTo((sweep - most) * problem.radiusMm, 2);
      judged += 1;
    }
    expect(judged).toBeGreaterThan(0);
  });

  it('is the same from either end, apart from where a single leftover lies', () => {
    for (let seed = 1; seed <= 40; seed += 1) {
      const problem = random(seed);
      const turned: CurvedProblem = { ...problem, ends: [problem.ends[1], problem.ends[0]] };
      expect(curvedRun(turned).score).toEqual(curvedRun(problem).score);
    }
  });

  it('opens its wedges to the front where the front is outside, to the back where it is inside', () => {
    const outside = curvedRun(problemOf({})).wedges;
    expect(outside.length).toBeGreaterThan(0);
    for (const { frontMm, backMm } of outside) expect(frontMm).toBeGreaterThan(backMm + 50);
    for (const { frontMm, backMm } of curvedRun(problemOf({ front: 'inside' })).wedges) {
      expect(backMm).toBeGreaterThan(frontMm + 50);
    }
  });

  it('takes no module whose top would overhang more than is allowed', () => {
    // M1500 at R 4 000: 4 000 - sqrt(4 000^2 - 750^2) = 70.9; M1200: 45.3; M900: 25.4.
    const fit = curvedRun(problemOf({ overhangMaxMm: 46 }));
    expect(fit.pieces.every(({ widthMm }) => widthMm <= 1_200)).toBe(true);
    expect(fit.pieces.some(({ overhangMm }) => Math.abs(overhangMm - 45.256) < 0.002)).toBe(true);
  });

  it('fills a whole circle between two exposed ends only with modules that close it exactly', () => {
    // Eight tangent modules round a circle: w = 2 R tan(180 / 8 degrees).
    const widthMm = 2 * 2_000 * Math.tan(Math.PI / 8);
    const ring = problemOf({
      radiusMm: 2_000,
      sweepDeg: 360,
      front: 'inside',
      ends: ['exposed', 'exposed'],
      stock: [{ id: 'M', widthMm }],
    });
    expect(curvedRun(ring).score).toMatchObject({ pieces: 8, wedges: 7, leftoverMm: 0 });
    expect(curvedRun({ ...ring, sweepDeg: 350 }).status).toBe('infeasible');
  });

  it('refuses bad input by name', () => {
    const codeOf = (fields: object) => {
      const parsed = parseCurvedProblem({ ...problemOf({}), ...fields });
      return parsed.ok ? 'ok' : `${parsed.error.code} ${parsed.error.path}`;
    };
    expect(codeOf({})).toBe('ok');
    expect(codeOf({ radiusMm: Number.NaN })).toBe('not-finite radiusMm');
    expect(codeOf({ sweepDeg: -5 })).toBe('negative sweepDeg');
    expect(codeOf({ sweepDeg: 400 })).toBe('too-large sweepDeg');
    expect(codeOf({ depthMm: 4_000 })).toBe('radius-too-small depthMm');
    expect(codeOf({ stock: [...modules, modules[0]] })).toBe('duplicate-id stock[4].id');
    expect(codeOf({ ends: ['wall', 'door'] })).toBe('unknown-value ends[1]');
  });
});

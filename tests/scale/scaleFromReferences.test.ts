import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { paperPoint } from '../../src/geometry/point.ts';
import { isBadInput } from '../../src/scale/badInput.ts';
import { lengthUncertaintyMm } from '../../src/scale/lengthUncertainty.ts';
import { MM_PER_POINT } from '../../src/scale/paperLength.ts';
import {
  type ReferenceScale,
  type ScaleReference,
  scaleFromReferences,
} from '../../src/scale/scaleFromReferences.ts';

const solved = (references: readonly ScaleReference[], userUnit = 1): ReferenceScale => {
  const result = scaleFromReferences(references, userUnit);
  if (isBadInput(result)) throw new Error(result.error.message);
  return result;
};

const along = (
  distancePt: number,
  angleDeg: number,
  lengthMm: number,
  pickUncertaintyPt?: number,
): ScaleReference => {
  const angle = (angleDeg * Math.PI) / 180;
  return {
    a: paperPoint(100, 200),
    b: paperPoint(100 + distancePt * Math.cos(angle), 200 + distancePt * Math.sin(angle)),
    lengthMm,
    ...(pickUncertaintyPt === undefined ? {} : { pickUncertaintyPt }),
  };
};

describe('scale from picked references', () => {
  // The inch is 25.4 mm and the point 1/72 in (ISO 32000-1, 8.3.2.3): 1:50 is 17.638889 mm per point.
  it('reads 1:50 and 1:100 from their millimetres per point', () => {
    expect(solved([along(100, 0, 1763.8888888888889)]).ratio / 50).toBeCloseTo(1, 12);
    expect(solved([along(100, 90, 3527.777777777778)]).ratio / 100).toBeCloseTo(1, 12);
  });

  // JCGM 100:2008, 5.1.2 eq. (10): two picks of 0.5 pt over 283.46 pt are 0.249 % (k = 1), so 0.499 % at k = 2.
  it('states the uncertainty of a two-pick scale by the GUM', () => {
    const { relativeUncertainty } = solved([along(283.46, 0, 5000, 0.5)]);
    expect(relativeUncertainty / 2).toBeCloseTo(0.00249, 5);
  });

  it('agrees with a Monte-Carlo propagation of the picks', () => {
    let state = 20240601;
    const random = (): number => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return (state + 0.5) / 2 ** 32;
    };
    const normal = (): number => Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random());
    const true1 = { distance: 283.46, length: 5000 };
    const true2 = { distance: 141.73, length: 2500 };
    const ratios: number[] = [];
    for (let round = 0; round < 20000; round++) {
      const noisy = ({ distance, length }: typeof true1): ScaleReference =>
        along(distance + 0.5 * Math.SQRT2 * normal(), 0, length, 0.5);
      ratios.push(solved([noisy(true1), noisy(true2)]).ratio);
    }
    const mean = ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length;
    const deviation = Math.sqrt(ratios.reduce((sum, ratio) => sum + (ratio - mean) ** 2, 0) / ratios.length);
    const exact = solved([along(283.46, 0, 5000, 0.5), along(141.73, 0, 2500, 0.5)]);
    expect(mean / exact.ratio).toBeCloseTo(1, 4);
    expect((2 * deviation) / mean / exact.relativeUncertainty).toBeCloseTo(1, 1);
  });

  it('lets the longer reference weigh more and shows each residual', () => {
    const { ratio, residuals } = solved([
      along(1000, 0, 1000 * MM_PER_POINT * 50),
      along(100, 0, 100 * MM_PER_POINT * 51),
    ]);
    expect(ratio).toBeGreaterThan(50);
    expect(ratio).toBeLessThan(50.02);
    expect(residuals).toHaveLength(2);
    for (const { lengthMm, predictedMm, residualMm } of residuals) {
      expect(residualMm).toBeCloseTo(predictedMm - lengthMm, 9);
    }
    expect(residuals[1]!.residualMm).toBeLessThan(0);
  });

  it('measures the same drawing alike with UserUnit 1, 2 and 10', () => {
    for (const userUnit of [1, 2, 10]) {
      expect(solved([along(720 / userUnit, 30, 254 * 20)], userUnit).ratio).toBeCloseTo(20, 9);
    }
  });

  it('finds the x and y ratios of a stretched drawing exactly and warns', () => {
    const mm = MM_PER_POINT * 50;
    const skew: ScaleReference = {
      a: paperPoint(0, 0),
      b: paperPoint(300, 400),
      lengthMm: Math.hypot(300 * mm * 1.02, 400 * mm),
    };
    const result = solved([along(500, 0, 500 * mm * 1.02), along(400, 90, 400 * mm), skew]);
    expect(result.ratioX).toBeCloseTo(51, 9);
    expect(result.ratioY).toBeCloseTo(50, 9);
    expect(result.warnings.map(({ code }) => code)).toContain('x-and-y-ratios-differ');
  });

  it('does not warn of a stretch below 0.5 %, nor split the axes for parallel references', () => {
    const mm = MM_PER_POINT * 50;
    const square = solved([along(500, 0, 500 * mm * 1.004), along(400, 90, 400 * mm)]);
    expect(square.ratioX! / square.ratioY!).toBeCloseTo(1.004, 9);
    expect(square.warnings).toEqual([]);
    expect(solved([along(500, 30, 500 * mm), along(400, 30, 400 * mm)]).ratioX).toBeUndefined();
    // Two diagonals see the same mix of x and y: they cannot tell the axes apart.
    expect(solved([along(500, 45, 500 * mm), along(400, 135, 400 * mm)]).ratioX).toBeUndefined();
  });

  it('widens the uncertainty where references disagree', () => {
    const mm = MM_PER_POINT * 50;
    const agreeing = solved([along(500, 0, 500 * mm), along(500, 0, 500 * mm)]);
    const clashing = solved([along(500, 0, 500 * mm), along(500, 0, 500 * mm * 1.05)]);
    expect(clashing.relativeUncertainty).toBeGreaterThan(5 * agreeing.relativeUncertainty);
    expect(clashing.warnings.map(({ code }) => code)).toContain('references-disagree');
  });

  it('refuses what is no reference, saying which', () => {
    const codeOf = (references: readonly ScaleReference[], userUnit = 1): string => {
      const result = scaleFromReferences(references, userUnit);
      return isBadInput(result) ? `${result.error.code} ${result.error.path}` : 'accepted';
    };
    expect(codeOf([])).toBe('no-references references');
    expect(codeOf([along(10, 0, 100), along(10, 0, -5)])).toBe('reference-length references[1].lengthMm');
    expect(codeOf([along(0, 0, 100)])).toBe('reference-distance references[0]');
    expect(codeOf([along(10, 0, 100, 0)])).toBe('pick-uncertainty references[0].pickUncertaintyPt');
    expect(codeOf([along(10, 0, 100)], 0)).toBe('user-unit userUnit');
  });

  it('turns and moves with the drawing without change', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -180, max: 180, noNaN: true }),
        fc.double({ min: 1, max: 500, noNaN: true }),
        (turn, ratio) => {
          const result = solved([
            along(300, turn, 300 * MM_PER_POINT * ratio),
            along(200, turn + 70, 200 * MM_PER_POINT * ratio),
          ]);
          expect(result.ratio / ratio).toBeCloseTo(1, 9);
        },
      ),
      { seed: 7, numRuns: 100 },
    );
  });
});

describe('uncertainty of a measured length', () => {
  // JCGM 100:2008, 5.1.2 eq. (10), worked by hand: u = sqrt((0.001*6000)^2 + 2*(0.5*0.352778*50)^2) = 13.8399 mm.
  it('adds the scale and both picks in squares', () => {
    const scale = { ratio: 50, relativeUncertainty: 0.002 };
    expect(lengthUncertaintyMm(6000, scale)).toBeCloseTo(2 * Math.sqrt(36 + 2 * 8.819444 ** 2), 4);
    expect(lengthUncertaintyMm(6000, scale, { pickUncertaintyPt: 0 })).toBeCloseTo(12, 9);
  });
});

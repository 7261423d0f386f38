import { areaPathsD, differenceD, FillRule, type PathD, type PathsD, unionD } from 'clipper2-ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { polygonArea } from '../../src/geometry/polygon.ts';
import { backLineOf } from '../../src/measure/backLine.ts';
import { cornersOf } from '../../src/measure/corners.ts';
import { cornerFootprint, type Footprint, pieceFootprint } from '../../src/measure/footprint.ts';
import { straightsOf } from '../../src/measure/straights.ts';
import type { SheetScale, TracedRun } from '../../src/measure/tracedRun.ts';
import { campaignSize } from '../campaign/campaignSize.ts';

/** 1 user unit is 10 mm of room. */
const tenToOne: SheetScale = { ratio: 720 / 25.4, relativeUncertainty: 0, userUnit: 1 };
const line = (...xy: readonly (readonly [number, number])[]): readonly PaperPoint[] =>
  xy.map(([x, y]) => paperPoint(x, y));
const rounded = (footprint: Footprint) =>
  footprint.map(({ x, y }) => [Math.round(x * 1e6) / 1e6 + 0, Math.round(y * 1e6) / 1e6 + 0]);

/** Walking east for 6 m, then north for 3 m, y up. Back on the left: front outside. Back on the right: front inside. */
const outside: TracedRun = { frontLine: line([0, 0], [600, 0], [600, 300]), backSide: 'left', depthMm: 600 };
const inside: TracedRun = { ...outside, backSide: 'right' };

const counterOf = (run: TracedRun, scale: SheetScale): PathD =>
  [...run.frontLine, ...backLineOf(run, scale).toReversed()].map(({ x, y }) => ({ x, y }));

/** Clipper2's area of what is in one shape and not in the other, relative to the second. */
function mismatch(
  pieces: readonly Footprint[],
  counter: PathD,
): { readonly gaps: number; readonly overlap: number } {
  const paths: PathsD = pieces.map((piece) => piece.map(({ x, y }) => ({ x, y })));
  const whole = Math.abs(areaPathsD(unionD([counter], [], FillRule.NonZero, 6)));
  const union = unionD(paths, [], FillRule.NonZero, 6);
  const missing = Math.abs(areaPathsD(differenceD([counter], union, FillRule.NonZero, 6)));
  const tooMuch = Math.abs(areaPathsD(differenceD(union, [counter], FillRule.NonZero, 6)));
  const sum = pieces.reduce((total, piece) => total + polygonArea(piece), 0);
  return { gaps: (missing + tooMuch) / whole, overlap: Math.abs(sum - Math.abs(areaPathsD(union))) / whole };
}

describe('the footprint of a piece', () => {
  it('reaches from front to back over its length', () => {
    expect(rounded(pieceFootprint(outside, 0, { fromMm: 1200, toMm: 3000 }, tenToOne))).toEqual([
      [120, 0],
      [300, 0],
      [300, 60],
      [120, 60],
    ]);
    expect(rounded(pieceFootprint(inside, 1, { fromMm: 0, toMm: 900 }, tenToOne))).toEqual([
      [600, 0],
      [600, 90],
      [660, 90],
      [660, 0],
    ]);
  });

  it('stands behind the cladding', () => {
    const [front, , back] = rounded(
      pieceFootprint(outside, 0, { fromMm: 0, toMm: 600 }, tenToOne, { claddingMm: 20 }),
    );
    expect(front).toEqual([0, 2]);
    expect(back).toEqual([60, 62]);
  });
});

describe('a corner unit', () => {
  it('is a square on the corner of the fronts where the front is outside', () => {
    expect(rounded(cornerFootprint(outside, 0, { kind: 'corner-unit', sizeMm: 900 }, tenToOne))).toEqual([
      [600, 0],
      [600, 90],
      [510, 90],
      [510, 0],
    ]);
  });

  it('is a square on the corner of the backs where the front is inside', () => {
    expect(rounded(cornerFootprint(inside, 0, { kind: 'corner-unit', sizeMm: 900 }, tenToOne))).toEqual([
      [660, -60],
      [660, 30],
      [570, 30],
      [570, -60],
    ]);
  });

  it('moves back with the cladding', () => {
    const clad = cornerFootprint(outside, 0, { kind: 'corner-unit', sizeMm: 900 }, tenToOne, {
      claddingMm: 20,
    });
    expect(rounded(clad)[0]).toEqual([598, 2]);
  });
});

describe('the pieces of a corner, with the deductions of its treatment', () => {
  const depth = 600;
  const tilings: readonly (readonly [string, readonly Footprint[], TracedRun])[] = [
    [
      'first-through, front outside: the depth comes off the second straight',
      [
        pieceFootprint(outside, 0, { fromMm: 0, toMm: 6000 }, tenToOne),
        pieceFootprint(outside, 1, { fromMm: depth, toMm: 3000 }, tenToOne),
      ],
      outside,
    ],
    [
      'second-through, front outside: the depth comes off the first straight',
      [
        pieceFootprint(outside, 0, { fromMm: 0, toMm: 6000 - depth }, tenToOne),
        pieceFootprint(outside, 1, { fromMm: 0, toMm: 3000 }, tenToOne),
      ],
      outside,
    ],
    [
      'first-through, front inside: the first straight gains the depth',
      [
        pieceFootprint(inside, 0, { fromMm: 0, toMm: 6000 + depth }, tenToOne),
        pieceFootprint(inside, 1, { fromMm: 0, toMm: 3000 }, tenToOne),
      ],
      inside,
    ],
    [
      'second-through, front inside: the second straight gains the depth',
      [
        pieceFootprint(inside, 0, { fromMm: 0, toMm: 6000 }, tenToOne),
        pieceFootprint(inside, 1, { fromMm: -depth, toMm: 3000 }, tenToOne),
      ],
      inside,
    ],
    [
      'a corner unit of the depth, front outside: it takes its size off both',
      [
        pieceFootprint(outside, 0, { fromMm: 0, toMm: 6000 - depth }, tenToOne),
        cornerFootprint(outside, 0, { kind: 'corner-unit', sizeMm: depth }, tenToOne),
        pieceFootprint(outside, 1, { fromMm: depth, toMm: 3000 }, tenToOne),
      ],
      outside,
    ],
    [
      'a corner unit of the depth, front inside: it takes nothing off',
      [
        pieceFootprint(inside, 0, { fromMm: 0, toMm: 6000 }, tenToOne),
        cornerFootprint(inside, 0, { kind: 'corner-unit', sizeMm: depth }, tenToOne),
        pieceFootprint(inside, 1, { fromMm: 0, toMm: 3000 }, tenToOne),
      ],
      inside,
    ],
  ];

  it.each(tilings)('fill the counter without gap or overlap: %s', (_, pieces, run) => {
    const { gaps, overlap } = mismatch(pieces, counterOf(run, tenToOne));
    expect(gaps).toBeLessThan(1e-9);
    expect(overlap).toBeLessThan(1e-9);
  });

  it('meet a larger corner unit edge to edge: it takes its size less the depth off both where the front is inside', () => {
    const unit = cornerFootprint(inside, 0, { kind: 'corner-unit', sizeMm: 900 }, tenToOne);
    const neighbours = [
      pieceFootprint(inside, 0, { fromMm: 0, toMm: 6000 - 300 }, tenToOne),
      pieceFootprint(inside, 1, { fromMm: 300, toMm: 3000 }, tenToOne),
    ];
    const paths = [unit, ...neighbours].map((piece) => piece.map(({ x, y }) => ({ x, y })));
    const union = Math.abs(areaPathsD(unionD(paths, [], FillRule.NonZero, 6)));
    const sum = 90 * 90 + 570 * 60 + 270 * 60;
    expect(union).toBeCloseTo(sum, 3);
  });

  it('fill the counter with a wedge at any turn: depth x tan(|turn|/2) off each straight, outside only', () => {
    const turns = fc.integer({ min: 5, max: 120 }).chain((deg) => fc.constantFrom(deg, -deg));
    const heading = fc.integer({ min: 0, max: 359 });
    fc.assert(
      fc.property(turns, heading, fc.constantFrom('left', 'right'), (turnDeg, headingDeg, backSide) => {
        const rad = (deg: number): number => (deg * Math.PI) / 180;
        const sign = backSide === 'left' ? 1 : -1;
        const [d1, d2] = [rad(headingDeg), rad(headingDeg + sign * turnDeg)];
        const corner = [300 + 400 * Math.cos(d1), 300 + 400 * Math.sin(d1)] as const;
        const end = [corner[0] + 350 * Math.cos(d2), corner[1] + 350 * Math.sin(d2)] as const;
        const run: TracedRun = { frontLine: line([300, 300], corner, end), backSide, depthMm: depth };
        expect(cornersOf(run)[0]!.turnDeg).toBeCloseTo(turnDeg, 9);
        const [first, second] = straightsOf(run, tenToOne);
        const givenUpMm = turnDeg > 0 ? depth * Math.tan(rad(turnDeg) / 2) : 0;
        const wedge = cornerFootprint(run, 0, { kind: 'mitre' }, tenToOne);
        const pieces = [
          pieceFootprint(run, 0, { fromMm: 0, toMm: first!.lengthMm - givenUpMm }, tenToOne),
          wedge,
          pieceFootprint(run, 1, { fromMm: givenUpMm, toMm: second!.lengthMm }, tenToOne),
        ];
        const { gaps, overlap } = mismatch(pieces, counterOf(run, tenToOne));
        expect(gaps).toBeLessThan(1e-7);
        expect(overlap).toBeLessThan(1e-7);
        // A kite of two right triangles with legs depth and depth x tan(|turn|/2); 100 square mm are one square unit.
        expect(polygonArea(wedge)).toBeCloseTo((depth ** 2 * Math.tan(rad(Math.abs(turnDeg)) / 2)) / 100, 6);
      }),
      { seed: 33, numRuns: campaignSize({ sample: 60, full: 3_000 }) },
    );
  });

  it('exist only at corners that the run has', () => {
    expect(() => cornerFootprint(outside, 1, { kind: 'mitre' }, tenToOne)).toThrow(RangeError);
  });
});

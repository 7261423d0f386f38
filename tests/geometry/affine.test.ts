import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type AffineMatrix,
  composeMatrices,
  IDENTITY_MATRIX,
  invertMatrix,
  meanScaleOf,
  rotationBy,
  scalingBy,
  transformBox,
  transformPoint,
  transformVector,
  translationBy,
} from '../../src/geometry/affine.ts';
import { campaignSize } from '../campaign/campaignSize.ts';

const entry = fc.integer({ min: -50_000, max: 50_000 }).map((thousandths) => thousandths / 1000);
const anyMatrix = fc.tuple(entry, entry, entry, entry, entry, entry) as fc.Arbitrary<AffineMatrix>;
const anyPoint = fc.record({ x: entry, y: entry });
const runs = campaignSize({ sample: 200, full: 20_000 });

const transformedByOracle = (
  [a, b, c, d, e, f]: AffineMatrix,
  x: number,
  y: number,
): readonly [number, number] => new Flatten.Matrix(a, b, c, d, e, f).transform([x, y]);

describe('an affine matrix', () => {
  it('takes a point where a general geometry library takes it', () => {
    fc.assert(
      fc.property(anyMatrix, anyPoint, (matrix, point) => {
        const [x, y] = transformedByOracle(matrix, point.x, point.y);
        const ours = transformPoint(matrix, point);
        expect(ours.x).toBeCloseTo(x, 9);
        expect(ours.y).toBeCloseTo(y, 9);
      }),
      { seed: 1, numRuns: runs },
    );
  });

  it('composed does the first and then the second', () => {
    fc.assert(
      fc.property(anyMatrix, anyMatrix, anyPoint, (first, second, point) => {
        const [x1, y1] = transformedByOracle(first, point.x, point.y);
        const [x, y] = transformedByOracle(second, x1, y1);
        const ours = transformPoint(composeMatrices(first, second), point);
        expect(ours.x).toBeCloseTo(x, 6);
        expect(ours.y).toBeCloseTo(y, 6);
      }),
      { seed: 2, numRuns: runs },
    );
  });

  // ISO 32000-1, 8.3.4 (from memory): "translate, rotate, scale" is the order in which to concatenate, so that a scaled
  // picture is turned and then moved as a whole. The numbers are worked by hand.
  it('scales first, then turns, then moves, when composed in that order', () => {
    const turnedAndMoved = composeMatrices(
      composeMatrices(scalingBy(2, 3), rotationBy(Math.PI / 2)),
      translationBy(10, 20),
    );
    const moved = transformPoint(turnedAndMoved, { x: 1, y: 1 });
    expect(moved.x).toBeCloseTo(7, 12);
    expect(moved.y).toBeCloseTo(22, 12);
    const direction = transformVector(turnedAndMoved, { x: 1, y: 0 });
    expect(direction.x).toBeCloseTo(0, 12);
    expect(direction.y).toBeCloseTo(2, 12);
  });

  it('inverted undoes itself', () => {
    fc.assert(
      fc.property(anyMatrix, anyPoint, (matrix, point) => {
        const determinant = matrix[0] * matrix[3] - matrix[1] * matrix[2];
        fc.pre(Math.abs(determinant) > 0.01);
        const back = transformPoint(composeMatrices(matrix, invertMatrix(matrix)!), point);
        expect(back.x).toBeCloseTo(point.x, 4);
        expect(back.y).toBeCloseTo(point.y, 4);
      }),
      { seed: 3, numRuns: runs },
    );
    expect(invertMatrix(IDENTITY_MATRIX)!.map((value) => value + 0)).toEqual([...IDENTITY_MATRIX]);
  });

  it('that flattens the plane has no inverse', () => {
    expect(invertMatrix([1, 2, 2, 4, 0, 0])).toBeUndefined();
    expect(invertMatrix([0, 0, 0, 0, 5, 5])).toBeUndefined();
    expect(invertMatrix([Number.NaN, 0, 0, 1, 0, 0])).toBeUndefined();
  });

  it('boxes a turned box, and knows how much it enlarges', () => {
    const box = transformBox(rotationBy(Math.PI / 4), { minX: 0, minY: 0, maxX: 1, maxY: 1 });
    expect(box.maxX - box.minX).toBeCloseTo(Math.SQRT2, 12);
    expect(meanScaleOf(composeMatrices(scalingBy(2, 8), rotationBy(1)))).toBeCloseTo(4, 12);
  });
});

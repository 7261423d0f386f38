import { type Box, boxAround, boxCorners } from './box.ts';
import type { Point } from './point.ts';
import type { Vector } from './vector.ts';

/**
 * A PDF transformation matrix [a b c d e f]: x' = a x + c y + e and y' = b x + d y + f (ISO 32000-1, 8.3.3; clause
 * number from memory).
 */
export type AffineMatrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

/** The matrix that changes nothing. */
export const IDENTITY_MATRIX: AffineMatrix = [1, 0, 0, 1, 0, 0];

/** The matrix that moves by (x, y). */
export const translationBy = (x: number, y: number): AffineMatrix => [1, 0, 0, 1, x, y];

/** The matrix that scales about the origin. */
export const scalingBy = (x: number, y = x): AffineMatrix => [x, 0, 0, y, 0, 0];

/** The matrix that turns anticlockwise (y up) about the origin. */
export function rotationBy(angleRad: number): AffineMatrix {
  const cosine = Math.cos(angleRad);
  const sine = Math.sin(angleRad);
  return [cosine, sine, -sine, cosine, 0, 0];
}

/**
 * One matrix that does `first` and then `second`. (In the PDF standard's row-vector notation that is first x second, so
 * the operator `cm` makes composeMatrices(operand, currentMatrix).)
 */
export function composeMatrices(first: AffineMatrix, second: AffineMatrix): AffineMatrix {
  const [a1, b1, c1, d1, e1, f1] = first;
  const [a2, b2, c2, d2, e2, f2] = second;
  return [
    a2 * a1 + c2 * b1,
    b2 * a1 + d2 * b1,
    a2 * c1 + c2 * d1,
    b2 * c1 + d2 * d1,
    a2 * e1 + c2 * f1 + e2,
    b2 * e1 + d2 * f1 + f2,
  ];
}

/** The matrix that undoes `matrix`, or undefined where it flattens the plane (or is not finite). */
export function invertMatrix(matrix: AffineMatrix): AffineMatrix | undefined {
  const [a, b, c, d, e, f] = matrix;
  const determinant = a * d - b * c;
  if (determinant === 0 || !Number.isFinite(1 / determinant) || !Number.isFinite(determinant))
    return undefined;
  return [
    d / determinant,
    -b / determinant,
    -c / determinant,
    a / determinant,
    (c * f - d * e) / determinant,
    (b * e - a * f) / determinant,
  ];
}

/** Where a matrix takes a point. */
export const transformPoint = ([a, b, c, d, e, f]: AffineMatrix, { x, y }: Point): Point => ({
  x: a * x + c * y + e,
  y: b * x + d * y + f,
});

/** Where a matrix takes a displacement: as a point, but without the move. */
export const transformVector = ([a, b, c, d]: AffineMatrix, { x, y }: Vector): Vector => ({
  x: a * x + c * y,
  y: b * x + d * y,
});

/** The smallest upright box around a transformed box. */
export const transformBox = (matrix: AffineMatrix, box: Box): Box =>
  boxAround(boxCorners(box).map((corner) => transformPoint(matrix, corner))) ?? box;

/** The mean factor by which a matrix enlarges lengths: the square root of its factor on areas. */
export const meanScaleOf = ([a, b, c, d]: AffineMatrix): number => Math.sqrt(Math.abs(a * d - b * c));

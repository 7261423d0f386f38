import type { AffineMatrix } from '../../geometry/affine.ts';
import type { Point } from '../../geometry/point.ts';

/**
 * A turn, one scale and a move, never a mirror: x' = a x - b y + x0, y' = b x + a y + y0. In this form it is linear in
 * its four numbers, so least squares over it has a closed form; a = scale cos(angle), b = scale sin(angle).
 */
export interface Similarity {
  readonly a: number;
  readonly b: number;
  readonly x0: number;
  readonly y0: number;
}

/** The similarity that changes nothing. */
export const IDENTITY_SIMILARITY: Similarity = { a: 1, b: 0, x0: 0, y0: 0 };

/** The similarity that turns anticlockwise (y up) and scales about the origin, then moves by (x0, y0). */
export const similarityOf = (scale: number, angleRad: number, x0: number, y0: number): Similarity => ({
  a: scale * Math.cos(angleRad),
  b: scale * Math.sin(angleRad),
  x0,
  y0,
});

/** The factor by which it enlarges lengths. */
export const similarityScale = ({ a, b }: Similarity): number => Math.sqrt(a * a + b * b);

/** The anticlockwise turn, above -pi and up to pi. */
export const similarityAngleRad = ({ a, b }: Similarity): number => Math.atan2(b, a);

/** The same as a PDF matrix. */
export const similarityMatrix = ({ a, b, x0, y0 }: Similarity): AffineMatrix => [a, b, -b, a, x0, y0];

/** Where it takes a point. */
export const applySimilarity = ({ a, b, x0, y0 }: Similarity, { x, y }: Point): Point => ({
  x: a * x - b * y + x0,
  y: b * x + a * y + y0,
});

/** The similarity that undoes it. Throws where the scale is 0: no registration has that. */
export const inverseSimilarity = ({ a, b, x0, y0 }: Similarity): Similarity => {
  const square = a * a + b * b;
  if (!(square > 0)) throw new Error(`A similarity of scale ${Math.sqrt(square)} has no inverse.`);
  const [ia, ib] = [a / square, -b / square];
  return { a: ia, b: ib, x0: -(ia * x0 - ib * y0), y0: -(ib * x0 + ia * y0) };
};

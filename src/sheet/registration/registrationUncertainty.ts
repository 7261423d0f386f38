import type { Point } from '../../geometry/point.ts';

/**
 * How sure the four numbers of a similarity are. `covariance` (k = 1, row by row) is that of (a, b, mx, my) in
 * p' = [a -b; b a] (p - centre) + m, about a `centre` on the old sheet near which the numbers hardly depend on each other.
 */
export interface RegistrationUncertainty {
  readonly centre: Point;
  readonly covariance: readonly number[];
}

/**
 * How far from its true place on the new sheet an old point may be taken: k = 2, in new paper points.
 *
 * The law of propagation, JCGM 100:2008 5.2.2 eq. (13), carries the covariance to the point; the answer is twice the
 * square root of the sum of both axes' variances, so that it bounds the distance and not one coordinate.
 *
 * @example positionUncertaintyPt(registration.uncertainty, { x: 300, y: 500 }) // 0.08
 */
export const positionUncertaintyPt = (
  { centre, covariance }: RegistrationUncertainty,
  oldPoint: Point,
): number => {
  const dx = oldPoint.x - centre.x;
  const dy = oldPoint.y - centre.y;
  const variance = (row: readonly number[]): number => {
    let sum = 0;
    for (let i = 0; i < 4; i++) for (let j = 0; j < 4; j++) sum += row[i]! * row[j]! * covariance[i * 4 + j]!;
    return sum;
  };
  return 2 * Math.sqrt(Math.max(0, variance([dx, -dy, 1, 0]) + variance([dy, dx, 0, 1])));
};

import { cross, dot, type Vector } from './vector.ts';

/**
 * The signed angle by which a walker going along `from` turns to go along `to`, in radians, from -pi to pi: positive to
 * the left (anticlockwise with y up, as in PDF user space). A reversal is pi. 0 where either has no length.
 *
 * @example signedTurnRad({ x: 1, y: 0 }, { x: 0, y: 1 }) // pi / 2
 */
export function signedTurnRad(from: Vector, to: Vector): number {
  const turn = Math.atan2(cross(from, to), dot(from, to));
  return turn === -Math.PI ? Math.PI : turn === 0 ? 0 : turn;
}

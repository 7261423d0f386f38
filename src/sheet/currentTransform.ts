import { type AffineMatrix, composeMatrices } from '../geometry/affine.ts';

/** The current transform after a `cm` operator: the operand is applied first, then what was there. */
export const concat = (current: AffineMatrix, operand: ArrayLike<number>): AffineMatrix =>
  composeMatrices([operand[0]!, operand[1]!, operand[2]!, operand[3]!, operand[4]!, operand[5]!], current);

/** By how much a transform scales lengths on average: the square root of its area scale. */
export const meanScale = ([a, b, c, d]: AffineMatrix): number => Math.sqrt(Math.abs(a * d - b * c));

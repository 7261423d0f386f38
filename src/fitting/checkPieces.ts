import { checkedJointMm } from './checkedArcs.ts';
import type { FitPiece } from './fitAnswer.ts';
import type { FitViolation } from './fitViolation.ts';
import type { FitProblem } from './problemSchema.ts';

/**
 * Checks the pieces of one stretch that take length, in sequence: exactly one joint apart, a carried piece between two
 * standing ones, and stock that is not fill only where it is wanted.
 */
export const checkPieces = (
  problem: FitProblem,
  pieces: readonly FitPiece[],
  path: string,
  violations: FitViolation[],
): void => {
  const stock = new Map(problem.stock.map((item) => [item.id, item]));
  const supportOf = (piece: FitPiece | undefined) => (piece ? stock.get(piece.item)?.support : undefined);
  for (const [rank, piece] of pieces.entries()) {
    const refuse = (code: string, message: string) =>
      violations.push({ code, message: `Straight ${piece.straight}: ${message}`, path: `${path}.pieces` });
    const before = pieces[rank - 1];
    const jointMm = checkedJointMm(problem, piece.straight);
    if (before && Math.abs(piece.fromMm - before.toMm - jointMm) > 0.002) {
      refuse('wrong-joint', `${piece.item} starts ${piece.fromMm - before.toMm} after the piece before it.`);
    }
    const item = stock.get(piece.item);
    if (item === undefined) continue;
    if (
      item.support === 'carried' &&
      (supportOf(before) !== 'standing' || supportOf(pieces[rank + 1]) !== 'standing')
    ) {
      refuse('not-carried', `${piece.item} needs a standing piece on both sides.`);
    }
    if (piece.wanted === undefined && !(item.fill ?? item.support === 'standing')) {
      refuse('not-fill', `${piece.item} is not fill, and nobody wanted it here.`);
    }
  }
};

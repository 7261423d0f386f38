import { checkedJointMm } from './checkedArcs.ts';
import type { CheckedSpan } from './checkedSpans.ts';
import type { FitAlternative, FitPiece } from './fitAnswer.ts';
import type { FitViolation } from './fitViolation.ts';
import type { FitProblem } from './problemSchema.ts';

const toleranceMm = 0.002;

/** The gap between two pieces along the front; 0 where they touch or overlap. */
const gapMm = (a: FitPiece, b: FitPiece): number => Math.max(a.fromMm - b.toMm, b.fromMm - a.toMm, 0);

/**
 * Checks the rules between pieces and at columns: no piece deeper than the run, none too deep in front of a column that
 * is passed, each beside what it must stand next to, each clear of what it keeps a distance from.
 */
export const checkRules = (
  problem: FitProblem,
  alternative: FitAlternative,
  spans: readonly CheckedSpan[],
  path: string,
  violations: FitViolation[],
): void => {
  const { depthMm: runDepthMm } = problem;
  const stock = new Map(problem.stock.map((item) => [item.id, item]));
  const { pieces } = alternative;
  for (const { straight, column } of alternative.passedColumns ?? []) {
    if (problem.straights[straight]?.columns?.[column] === undefined) {
      violations.push({
        code: 'unknown-column',
        message: `Straight ${straight} has no column ${column}.`,
        path: `${path}.passedColumns`,
      });
    }
  }
  const spanOf = (piece: FitPiece): number =>
    spans.findIndex(
      ({ straight, lowMm, highMm }) =>
        straight === piece.straight &&
        piece.fromMm >= lowMm[0] - toleranceMm &&
        piece.toMm <= highMm[1] + toleranceMm,
    );
  /** The pieces that take length: the piece itself, or its host. */
  const standsAs = (piece: FitPiece): FitPiece =>
    piece.host === undefined ? piece : (pieces[piece.host] ?? piece);
  const areNext = (a: FitPiece, b: FitPiece): boolean => {
    const [one, other] = [standsAs(a), standsAs(b)];
    if (one === other) return true;
    if (one.straight !== other.straight || spanOf(one) !== spanOf(other)) return false;
    return Math.abs(gapMm(one, other) - checkedJointMm(problem, one.straight)) <= toleranceMm;
  };
  for (const [index, piece] of pieces.entries()) {
    const item = stock.get(piece.item);
    if (item === undefined) continue;
    const refuse = (code: string, message: string) =>
      violations.push({ code, message, path: `${path}.pieces[${index}]` });
    const depthMm = item.depthMm ?? runDepthMm;
    if (depthMm > runDepthMm) refuse('too-deep', `${item.id} is ${depthMm} deep, the run ${runDepthMm}.`);
    for (const column of problem.straights[piece.straight]?.columns ?? []) {
      if (piece.host !== undefined) continue;
      if (piece.toMm <= column.fromMm + toleranceMm || piece.fromMm >= column.toMm - toleranceMm) continue;
      const leftMm = runDepthMm - column.depthMm;
      if (depthMm > leftMm + toleranceMm) {
        refuse('too-deep-for-column', `${item.id} is ${depthMm} deep, in front of the column are ${leftMm}.`);
      }
    }
    if (item.hand !== undefined && piece.host === undefined) {
      const atStart = item.hand === (problem.startHand ?? 'left');
      const reaches = (other: FitPiece) =>
        other !== piece &&
        other.host === undefined &&
        areNext(piece, other) &&
        (atStart ? other.toMm <= piece.fromMm + toleranceMm : other.fromMm >= piece.toMm - toleranceMm);
      const span = spans[spanOf(piece)];
      const sideMm = span && (atStart ? span.lowMm : span.highMm)[0];
      const { openings = [], bays = [] } = problem.straights[piece.straight] ?? {};
      const isOpen =
        (atStart ? span?.lowExposed : span?.highExposed) ||
        [...openings, ...bays.map(({ fromMm, toMm }) => [fromMm, toMm] as const)].some(
          ([fromMm, toMm]) => Math.abs((atStart ? toMm : fromMm) - (sideMm ?? Number.NaN)) <= toleranceMm,
        );
      if (!isOpen && !pieces.some(reaches)) {
        refuse('not-free', `${item.id} must be free at its ${item.hand}, seen from the working side.`);
      }
    }
    const { beside } = item;
    const isNextTo = (other: FitPiece) =>
      other !== piece && beside?.includes(other.item) === true && areNext(piece, other);
    if (beside !== undefined && !pieces.some(isNextTo)) {
      refuse('not-beside', `${item.id} must stand next to one of ${beside.join(', ')}.`);
    }
    for (const rule of item.clearOf ?? []) {
      for (const other of pieces) {
        if (other === piece || other.item !== rule.item || other.straight !== piece.straight) continue;
        if (gapMm(piece, other) < rule.distanceMm - toleranceMm) {
          refuse(
            'not-clear',
            `${item.id} is ${gapMm(piece, other)} from ${other.item}, ${rule.distanceMm} are needed.`,
          );
        }
      }
    }
  }
};

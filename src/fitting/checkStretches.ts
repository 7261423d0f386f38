import type { CheckedSpan } from './checkedSpans.ts';
import { checkPieces } from './checkPieces.ts';
import type { FitAlternative, FitLeftover, FitPiece, LeftoverVerdict } from './fitAnswer.ts';
import type { FitViolation } from './fitViolation.ts';
import type { FitProblem } from './problemSchema.ts';

/** What the checker counts over all leftovers. */
interface CheckedLeftovers {
  readonly totalMm: number;
  readonly fillers: number;
  readonly madeToMeasure: number;
}

const toleranceMm = 0.002;

interface Part {
  readonly fromMm: number;
  readonly toMm: number;
}

/** Where a span's leftovers must be, from the pieces that stand in it. */
const expectedParts = (
  span: CheckedSpan,
  pieces: readonly FitPiece[],
  refuse: (code: string, message: string) => void,
): readonly Part[] => {
  const first = pieces[0];
  const last = pieces.at(-1);
  if (first === undefined || last === undefined) {
    if (span.lowExposed && span.highExposed) {
      refuse('exposed-stretch-empty', 'A stretch between two exposed ends must be filled.');
      return [];
    }
    // An exposed end moves in as far as it may, and the leftover is what remains.
    const fromMm = Math.min(span.lowMm[1], span.highMm[1]);
    return [{ fromMm, toMm: Math.max(span.highMm[0], fromMm) }];
  }
  const parts: Part[] = [];
  if (!span.lowExposed) parts.push({ fromMm: span.lowMm[0], toMm: first.fromMm });
  else if (first.fromMm < span.lowMm[0] - toleranceMm || first.fromMm > span.lowMm[1] + toleranceMm) {
    refuse('leftover-at-exposed-end', `The first piece starts at ${first.fromMm}, off the exposed end.`);
  }
  if (!span.highExposed) parts.push({ fromMm: last.toMm, toMm: span.highMm[0] });
  else if (last.toMm < span.highMm[0] - toleranceMm || last.toMm > span.highMm[1] + toleranceMm) {
    refuse('leftover-at-exposed-end', `The last piece ends at ${last.toMm}, off the exposed end.`);
  }
  return parts;
};

/** Whether a leftover's verdict would stay with the same pieces over the length plus and minus its uncertainty. */
const holds = (partsMm: readonly number[], uncertaintyMm: number, fillerMaxMm: number): boolean => {
  const totalMm = partsMm.reduce((sum, part) => sum + part, 0);
  const verdict = (wholeMm: number): LeftoverVerdict => {
    if (wholeMm <= uncertaintyMm + toleranceMm) return 'closes';
    return wholeMm / partsMm.length <= fillerMaxMm + toleranceMm ? 'filler' : 'made-to-measure';
  };
  if (totalMm - uncertaintyMm <= -toleranceMm) return false;
  return verdict(totalMm - uncertaintyMm) === verdict(totalMm + uncertaintyMm);
};

const inSpan = (span: CheckedSpan, straight: number, fromMm: number, toMm: number): boolean =>
  straight === span.straight && fromMm >= span.lowMm[0] - toleranceMm && toMm <= span.highMm[1] + toleranceMm;

/** Matches a span's leftovers with the answer's, their verdicts with the rule, and counts them. */
const checkLeftovers = (
  problem: FitProblem,
  span: CheckedSpan,
  parts: readonly Part[],
  given: readonly FitLeftover[],
  refuse: (code: string, message: string) => void,
): CheckedLeftovers => {
  const { uncertaintyMm = 0 } = problem.straights[span.straight]!;
  const real = parts.filter((part) => part.toMm > part.fromMm);
  const totalMm = real.reduce((sum, part) => sum + part.toMm - part.fromMm, 0);
  let fillers = 0;
  let madeToMeasure = 0;
  for (const part of parts) {
    if (part.toMm < part.fromMm - toleranceMm) refuse('outside', `A piece reaches past ${part.fromMm}.`);
  }
  for (const part of real) {
    const widthMm = part.toMm - part.fromMm;
    const match = given.find(
      (leftover) =>
        Math.abs(leftover.fromMm - part.fromMm) <= toleranceMm &&
        Math.abs(leftover.toMm - part.toMm) <= toleranceMm,
    );
    if (match === undefined) {
      // Two roundings to micrometres can leave this much between a side and its piece.
      if (widthMm <= toleranceMm) continue;
      refuse('leftover-missing', `No leftover is given from ${part.fromMm} to ${part.toMm}.`);
      continue;
    }
    const verdict = match.verdict;
    if (verdict === 'filler') fillers += 1;
    if (verdict === 'made-to-measure') madeToMeasure += 1;
    const closes = totalMm <= uncertaintyMm;
    const expected = closes ? 'closes' : widthMm <= problem.fillerMaxMm ? 'filler' : 'made-to-measure';
    const onTheEdge =
      Math.abs(totalMm - uncertaintyMm) <= toleranceMm ||
      Math.abs(widthMm - problem.fillerMaxMm) <= toleranceMm;
    if (verdict !== expected && !onTheEdge) {
      refuse('wrong-verdict', `A leftover of ${widthMm} is called ${verdict}, but it is ${expected}.`);
    }
    if (Math.abs(match.widthMm - widthMm) > toleranceMm) {
      refuse('wrong-width', `A leftover of ${widthMm} is given as ${match.widthMm}.`);
    }
    const widths = real.map((one) => one.toMm - one.fromMm);
    if (match.confirmed && !holds(widths, uncertaintyMm, problem.fillerMaxMm)) {
      refuse(
        'not-confirmed',
        `A leftover of ${widthMm} is confirmed, but ${uncertaintyMm} mm would change it.`,
      );
    }
  }
  const visible = given.filter((leftover) => leftover.widthMm > toleranceMm).length;
  if (visible > real.length) {
    refuse('leftover-misplaced', `${visible} leftovers are given where ${real.length} can lie.`);
  }
  return { totalMm, fillers, madeToMeasure };
};

/** Checks all spans: that pieces and leftovers fill each of them by the rules, and that none lies elsewhere. */
export const checkStretches = (
  problem: FitProblem,
  alternative: FitAlternative,
  spans: readonly CheckedSpan[],
  path: string,
  violations: FitViolation[],
): CheckedLeftovers => {
  const refuse = (code: string, message: string) => violations.push({ code, message, path });
  const seenPieces = new Set<FitPiece>();
  const seenLeftovers = new Set<FitLeftover>();
  let totalMm = 0;
  let fillers = 0;
  let madeToMeasure = 0;
  for (const span of spans) {
    const pieces = alternative.pieces
      .filter((piece) => piece.host === undefined && inSpan(span, piece.straight, piece.fromMm, piece.toMm))
      .sort((a, b) => a.fromMm - b.fromMm);
    for (const piece of pieces) seenPieces.add(piece);
    const given = alternative.leftovers.filter(
      (leftover) =>
        !seenLeftovers.has(leftover) && inSpan(span, leftover.straight, leftover.fromMm, leftover.toMm),
    );
    for (const leftover of given) seenLeftovers.add(leftover);
    const parts = expectedParts(span, pieces, refuse);
    const counted = checkLeftovers(problem, span, parts, given, refuse);
    totalMm += counted.totalMm;
    fillers += counted.fillers;
    madeToMeasure += counted.madeToMeasure;
    checkPieces(problem, pieces, path, violations);
  }
  for (const [index, piece] of alternative.pieces.entries()) {
    if (piece.host === undefined && !seenPieces.has(piece)) {
      violations.push({
        code: 'outside',
        message: `${piece.item} from ${piece.fromMm} to ${piece.toMm} stands where nothing may stand.`,
        path: `${path}.pieces[${index}]`,
      });
    }
  }
  for (const [index, leftover] of alternative.leftovers.entries()) {
    if (!seenLeftovers.has(leftover)) {
      violations.push({
        code: 'leftover-misplaced',
        message: `No leftover can lie from ${leftover.fromMm} to ${leftover.toMm}.`,
        path: `${path}.leftovers[${index}]`,
      });
    }
  }
  checkHosted(problem, alternative, path, violations);
  return { totalMm, fillers, madeToMeasure };
};

/** Drop-in and countertop pieces: within a standing host less its margins, and clear of one another. */
const checkHosted = (
  problem: FitProblem,
  alternative: FitAlternative,
  path: string,
  violations: FitViolation[],
): void => {
  const marginMm = problem.hostMarginMm ?? 30;
  const stock = new Map(problem.stock.map((item) => [item.id, item]));
  for (const [index, piece] of alternative.pieces.entries()) {
    const at = `${path}.pieces[${index}]`;
    const refuse = (code: string, message: string) => violations.push({ code, message, path: at });
    const item = stock.get(piece.item);
    if (item === undefined) {
      refuse('unknown-item', `"${piece.item}" is not in the stock.`);
      continue;
    }
    const { widenedMm = 0 } = piece;
    const widthMm = item.widthMm + widenedMm;
    if (widenedMm !== 0) {
      const mostMm = problem.madeToMeasure?.wideningMaxMm ?? 0;
      if (widenedMm < 0 || widenedMm > mostMm + toleranceMm || item.support !== 'standing') {
        refuse('widened-too-far', `${piece.item} is made ${widenedMm} wider, ${mostMm} are allowed.`);
      }
      if (piece.wanted !== undefined) refuse('wanted-widened', 'A wanted station keeps its width.');
    }
    const isOnArc = problem.straights[piece.straight]?.arc !== undefined && piece.host === undefined;
    // On an arc a piece takes another length of the front: that is checked with its plan.
    if (!isOnArc && Math.abs(piece.toMm - piece.fromMm - widthMm) > toleranceMm) {
      refuse('wrong-width', `${piece.item} is ${widthMm} wide, drawn ${piece.toMm - piece.fromMm}.`);
    }
    if (widthMm > (problem.maxWidthMm ?? Number.POSITIVE_INFINITY) + toleranceMm) {
      refuse('too-wide', `${piece.item} is wider than ${problem.maxWidthMm}.`);
    }
    const takesNoLength = item.support === 'drop-in' || item.support === 'countertop';
    if (takesNoLength !== (piece.host !== undefined)) {
      refuse('wrong-host', `A ${item.support} piece ${takesNoLength ? 'needs' : 'has no'} host.`);
      continue;
    }
    if (piece.host === undefined) continue;
    if (piece.wanted === undefined) refuse('not-wanted', 'A hosted piece appears only where wanted.');
    const host = alternative.pieces[piece.host];
    if (
      host === undefined ||
      host.straight !== piece.straight ||
      stock.get(host.item)?.support !== 'standing'
    ) {
      refuse('wrong-host', 'The host must be a standing piece of the same straight.');
      continue;
    }
    // Places on a host are measured along its own face from its middle.
    const hostMiddleMm = (host.fromMm + host.toMm) / 2;
    const hostHalfMm = (host.widthMm ?? host.toMm - host.fromMm) / 2;
    if (
      piece.fromMm < hostMiddleMm - hostHalfMm + marginMm - toleranceMm ||
      piece.toMm > hostMiddleMm + hostHalfMm - marginMm + toleranceMm
    ) {
      refuse('host-margin', `${piece.item} is nearer than ${marginMm} to its host's side.`);
    }
    for (const [other, neighbour] of alternative.pieces.entries()) {
      if (other >= index || neighbour.host !== piece.host) continue;
      if (piece.fromMm < neighbour.toMm - toleranceMm && piece.toMm > neighbour.fromMm + toleranceMm) {
        refuse('hosted-overlap', `${piece.item} overlaps ${neighbour.item} on the same host.`);
      }
    }
  }
};

import { checkedOnArcs } from './checkedArcs.ts';
import { checkedCorners, checkedSpans } from './checkedSpans.ts';
import { checkRules } from './checkRules.ts';
import { checkStretches } from './checkStretches.ts';
import type { FitAlternative, FitAnswer, FitScore } from './fitAnswer.ts';
import type { FitViolation } from './fitViolation.ts';
import type { FitProblem } from './problemSchema.ts';

/** Differences up to this are rounding: positions are published from integer micrometres. */
const checkToleranceMm = 0.002;

const near = (a: number, b: number, tolerance = checkToleranceMm): boolean => Math.abs(a - b) <= tolerance;

const checkScore = (
  alternative: FitAlternative,
  expected: FitScore,
  path: string,
  violations: FitViolation[],
): void => {
  const tolerances: Readonly<Record<keyof FitScore, number>> = {
    unplaced: 0,
    madeToMeasure: 0,
    leftoverMm: checkToleranceMm * (1 + alternative.leftovers.length),
    fillers: 0,
    pieces: 0,
    displacementMm: checkToleranceMm * (1 + alternative.pieces.length),
    price: 0.0001 * (1 + alternative.pieces.length),
  };
  for (const [name, tolerance] of Object.entries(tolerances) as [keyof FitScore, number][]) {
    if (!near(alternative.score[name], expected[name], tolerance)) {
      violations.push({
        code: 'wrong-score',
        message: `The score says ${name} ${alternative.score[name]}, but the layout has ${expected[name]}.`,
        path: `${path}.score.${name}`,
      });
    }
  }
};

/** Every wish at most once, by the right item, on its straight, with its centre within its tolerance. */
const checkWanted = (
  problem: FitProblem,
  alternative: FitAlternative,
  path: string,
  violations: FitViolation[],
): { readonly unplaced: number; readonly displacementMm: number } => {
  const wishes = new Map((problem.wanted ?? []).map((wish) => [wish.id, wish]));
  const answered = new Set<string>();
  let displacementMm = 0;
  for (const [index, piece] of alternative.pieces.entries()) {
    if (piece.wanted === undefined) continue;
    const at = `${path}.pieces[${index}]`;
    const wish = wishes.get(piece.wanted);
    if (wish === undefined) {
      violations.push({ code: 'unknown-wanted', message: `Nobody wanted "${piece.wanted}".`, path: at });
      continue;
    }
    if (answered.has(wish.id)) {
      violations.push({ code: 'wanted-twice', message: `"${wish.id}" is placed twice.`, path: at });
    }
    answered.add(wish.id);
    const item = problem.stock.find(({ id }) => id === piece.item);
    const isAnswer =
      wish.item === piece.item ||
      (item?.handOf === wish.item && (wish.hand === undefined || wish.hand === item.hand));
    if (!isAnswer || wish.straight !== piece.straight) {
      violations.push({
        code: 'wrong-station',
        message: `"${wish.id}" asks for ${wish.item} on straight ${wish.straight}.`,
        path: at,
      });
    }
    const offMm = Math.abs((piece.fromMm + piece.toMm) / 2 - wish.nearMm);
    displacementMm += offMm;
    if (offMm > wish.withinMm + checkToleranceMm) {
      violations.push({
        code: 'station-too-far',
        message: `"${wish.id}" is ${offMm} mm from its place, ${wish.withinMm} allowed.`,
        path: at,
      });
    }
  }
  return { unplaced: wishes.size - answered.size, displacementMm };
};

const checkAlternative = (
  problem: FitProblem,
  given: FitAlternative,
  path: string,
): readonly FitViolation[] => {
  const violations: FitViolation[] = [];
  const alternative = checkedOnArcs(problem, given, path, violations);
  const corners = checkedCorners(problem, alternative, path, violations);
  if (corners === undefined) return violations;
  const wanted = checkWanted(problem, alternative, path, violations);
  const spans = checkedSpans(problem, corners, alternative, path, violations);
  const leftovers = checkStretches(problem, alternative, spans, path, violations);
  checkRules(problem, alternative, spans, path, violations);
  const prices = new Map(problem.stock.map((item) => [item.id, item.price ?? 0]));
  const widened = alternative.pieces.filter((piece) => piece.widenedMm !== undefined);
  const lengthPieces = alternative.pieces.filter((piece) => piece.host === undefined);
  checkScore(
    alternative,
    {
      unplaced: wanted.unplaced,
      madeToMeasure:
        leftovers.madeToMeasure + corners.filter((corner) => corner.isWedge).length + widened.length,
      leftoverMm: leftovers.totalMm,
      fillers: leftovers.fillers,
      pieces: lengthPieces.length + corners.filter((corner) => corner.isWedge || corner.isUnit).length,
      displacementMm: wanted.displacementMm,
      price:
        alternative.pieces.reduce((sum, piece) => sum + (prices.get(piece.item) ?? 0), 0) +
        corners.reduce((sum, corner) => sum + corner.price, 0) +
        widened.length * (problem.madeToMeasure?.wideningPrice ?? 0),
    },
    path,
    violations,
  );
  return violations;
};

/**
 * Checks an answer against the rules of DESIGN section 5 and computes its scores again. It shares no code with the
 * solver, only the types of the contract, and works in mm where the solver works in micrometres. It says whether a
 * layout keeps the rules, not whether a better one exists.
 *
 * @example checkFit(problem, fitRun(problem)) // [] when every rule is kept
 */
export const checkFit = (problem: FitProblem, answer: FitAnswer): readonly FitViolation[] => {
  const violations = answer.alternatives.flatMap((alternative, index) => [
    ...checkAlternative(problem, alternative, `alternatives[${index}]`),
  ]);
  if ((answer.status === 'infeasible') !== (answer.alternatives.length === 0)) {
    violations.push({
      code: 'wrong-status',
      message: `The status is ${answer.status} with ${answer.alternatives.length} alternatives.`,
      path: 'status',
    });
  }
  return violations;
};

import { arcFrontOf, fillOnArc } from './arcFront.ts';
import { type CornerChoice, cornerChoices } from './cornerChoices.ts';
import { type FillItem, fillStock } from './fillStock.ts';
import { type FillTables, fillTables } from './fillTable.ts';
import { micrometres } from './micrometre.ts';
import { nodeBudget } from './nodeBudget.ts';
import type { FitOrder, FitProblem } from './problemSchema.ts';
import {
  addScores,
  compareScores,
  type ScoreVector,
  scoreSequences,
  UNPLACED,
  zeroScore,
} from './scoreVector.ts';
import type { RunSettings, StraightLayout } from './straightSettings.ts';
import { type StraightSolver, straightSolver } from './straightSolver.ts';
import { compareSequences, type SequencePiece } from './stretchLayout.ts';

/** The best filling of a whole run. */
export interface RunLayout {
  readonly corners: readonly CornerChoice[];
  readonly straights: readonly StraightLayout[];
  readonly score: ScoreVector;
}

/** What solving a run gives: nothing where no filling is possible. */
export interface RunSolution {
  readonly best: RunLayout | undefined;
  /** Whether the best is proven; where it is not, no filling is better than `bound`. */
  readonly proven: boolean;
  readonly bound: ScoreVector;
  readonly solvers: readonly StraightSolver[];
  /** The fill and its tables on each straight: on an arc each piece takes another length of the front. */
  readonly onStraights: readonly { readonly fill: readonly FillItem[]; readonly tables: FillTables }[];
  readonly steps: number;
}

/** Steps that one solution may take: about two seconds of work, but counted, so that the answer never depends on time. */
export const defaultSteps = 30_000_000;

/** Steps of a stretch after which its solver changes to going piece by piece; measured, both ways are exact. */
const defaultPairingSteps = 15_000;

interface Partial {
  readonly corners: readonly CornerChoice[];
  readonly straights: readonly StraightLayout[];
  readonly score: ScoreVector;
  readonly bound: ScoreVector;
}

const sequenceOf = (straights: readonly StraightLayout[]): readonly SequencePiece[] =>
  straights.flatMap((straight) => straight.layouts.flatMap((layout) => layout.sequence));

/** The longest length that fill could have to fill on any straight. */
const longestUm = (problem: FitProblem): number => {
  const { jointMm = 0, claddingMm = 0 } = problem.allowances ?? {};
  const beyond = problem.ends.reduce((sum, end) => sum + (end.giveMm?.[1] ?? 0), 0);
  const insideMm = (problem.corners ?? []).map(
    ({ turnDeg }) => problem.depthMm + claddingMm * Math.tan((Math.abs(turnDeg) * Math.PI) / 360),
  );
  const lengths = problem.straights.map(
    (straight, index) =>
      straight.lengthMm +
      (straight.uncertaintyMm ?? 0) +
      (index > 0 && problem.corners![index - 1]!.turnDeg < 0 ? insideMm[index - 1]! : 0) +
      (index < insideMm.length && problem.corners![index]!.turnDeg < 0 ? insideMm[index]! : 0),
  );
  return micrometres(Math.max(...lengths) + beyond + jointMm) + 1000;
};

/**
 * The best filling of a run in a named order, exact unless the step budget runs out. Straights touch only at corners,
 * and their scores add, so the best run is found corner by corner: for each way to make a corner, the best of all
 * that comes before it. With `onlyMoved`, the id of a wanted station, only its displacement is scored.
 */
export const solveRun = (
  problem: FitProblem,
  order: FitOrder,
  steps: number = defaultSteps,
  pairingSteps = defaultPairingSteps,
  onlyMoved?: string,
): RunSolution => {
  const budget = nodeBudget(steps);
  const sequence = scoreSequences[order];
  const fill = fillStock(problem);
  const jointUm = micrometres(problem.allowances?.jointMm ?? 0);
  const tablesOf = (some: readonly FillItem[], someJointUm: number): FillTables => {
    // One step further than any stretch, so that the next longer sum is known too.
    const stepUm = some.length > 0 ? Math.min(...some.map((item) => item.widthUm + someJointUm)) : 0;
    const reachUm = longestUm(problem) - jointUm + someJointUm + stepUm;
    return fillTables(some, someJointUm, reachUm, order === 'price', budget);
  };
  const settings: RunSettings = {
    problem,
    ...(onlyMoved === undefined ? {} : { onlyMoved }),
    fill,
    tables: tablesOf(fill, jointUm),
    order: sequence,
    longestIsBest: order === 'best',
    budget,
    stretchSteps: Math.ceil(steps / 8),
    wholeSteps: Math.ceil(steps / 50),
    pairingSteps: Math.min(steps, pairingSteps),
  };
  const onStraights = problem.straights.map((_, index) => {
    const arc = arcFrontOf(problem, index);
    if (arc === undefined) return settings;
    const onArc = fillOnArc(fill, arc);
    return { ...settings, fill: onArc, tables: tablesOf(onArc, arc.jointUm) };
  });
  const solvers = onStraights.map((one, index) => straightSolver(one, index));
  // Fill tables and events are shared by all stretches: what they leave out, no stretch can prove.
  const sharedProven = budget.isProven();
  const choices = solvers.slice(1).map((_, index) => cornerChoices(problem, index));
  const compare = (a: Partial, b: Partial): number =>
    compareScores(a.score, b.score, sequence) ||
    compareSequences(sequenceOf(a.straights), sequenceOf(b.straights));
  let partials: readonly { readonly choice: CornerChoice | undefined; readonly partial: Partial }[] = [
    { choice: undefined, partial: { corners: [], straights: [], score: zeroScore, bound: zeroScore } },
  ];
  for (const [index, solver] of solvers.entries()) {
    const afters: readonly (CornerChoice | undefined)[] = choices[index] ?? [undefined];
    const next: { choice: CornerChoice | undefined; partial: Partial }[] = [];
    for (const after of afters) {
      let best: Partial | undefined;
      let bound: ScoreVector | undefined;
      for (const { choice, partial } of partials) {
        const straight = solver.solve(choice, after);
        if (straight === undefined) continue;
        const corner = after?.score ?? zeroScore;
        const candidate: Partial = {
          corners: after ? [...partial.corners, after] : partial.corners,
          straights: [...partial.straights, straight],
          score: addScores(addScores(partial.score, straight.score), corner),
          bound: addScores(addScores(partial.bound, straight.bound), corner),
        };
        if (best === undefined || compare(candidate, best) < 0) best = candidate;
        if (bound === undefined || compareScores(candidate.bound, bound, sequence) < 0)
          bound = candidate.bound;
      }
      if (best && bound) next.push({ choice: after, partial: { ...best, bound } });
    }
    partials = next;
  }
  const last = partials[0]?.partial;
  const wanted = problem.wanted?.length ?? 0;
  const withWanted = (score: ScoreVector): ScoreVector => {
    const whole = [...score];
    whole[UNPLACED] = whole[UNPLACED]! + wanted;
    return whole;
  };
  return {
    best: last && { corners: last.corners, straights: last.straights, score: withWanted(last.score) },
    proven:
      sharedProven &&
      budget.isProven() &&
      (last === undefined || compareScores(last.bound, last.score, sequence) === 0),
    bound: withWanted(sharedProven ? (last?.bound ?? zeroScore) : [-wanted, 0, 0, 0, 0, 0, 0]),
    solvers,
    onStraights,
    steps: budget.spent(),
  };
};

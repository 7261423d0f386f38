import { cornerChoices } from './cornerChoices.ts';
import type { FitWords } from './fitWords.ts';
import { micrometres } from './micrometre.ts';
import type { FitOrder, FitProblem } from './problemSchema.ts';
import { type RunLayout, type RunSolution, solveRun } from './runSolver.ts';
import { compareScores, DISPLACEMENT, LEFTOVER, PIECES, PRICE, scoreSequences } from './scoreVector.ts';
import { ownWidthOf } from './stretchLayout.ts';
import { symmetricalRun } from './symmetricalRun.ts';

/** A solved run with the reason for showing it. */
interface ReasonedRun {
  readonly reason: string;
  readonly run: RunLayout;
  readonly solution: RunSolution;
}

const idsOf = (run: RunLayout): readonly string[] =>
  run.straights.flatMap((straight) =>
    straight.layouts.flatMap((layout) => [
      `|${layout.stretch.straight}@${layout.sequence.some(({ event }) => event) ? layout.fromUm : ''}`,
      ...layout.sequence.map(({ event, item }) => event?.item ?? item!.id),
    ]),
  );

/** Two runs with the same corners and pieces in the same sequence are of one kind, wherever the fillers lie. */
const kindOf = (run: RunLayout): string =>
  JSON.stringify([run.corners.map(({ corner }) => corner), idsOf(run)]);

const widestOf = (run: RunLayout): number =>
  Math.max(
    0,
    ...run.straights.flatMap((straight) =>
      straight.layouts.flatMap((layout) => layout.sequence.map(ownWidthOf)),
    ),
  );

const leadReasons: Readonly<Record<FitOrder, string>> = {
  best: 'Best first: most stations, fewest made-to-measure pieces, least left over',
  pieces: 'Fewest joints: the fewest pieces without another made-to-measure one',
  price: 'Lowest price of the pieces without another made-to-measure one',
  position: 'Stations nearest to where they are drawn',
};

/** Each other kind worth a look, in turn; a kind that costs a solution is solved only when asked for. */
function* otherKinds(
  problem: FitProblem,
  order: FitOrder,
  solution: RunSolution,
  best: RunLayout,
  steps: number,
  words: FitWords,
): Generator<{ reason: (run: RunLayout) => string; solution: RunSolution }> {
  for (const symmetry of problem.symmetrical ?? []) {
    const run = symmetricalRun(problem, order, solution, best, symmetry);
    if (run === undefined) continue;
    const about = symmetry.about === undefined ? 'its middle' : `station ${symmetry.about}`;
    yield {
      reason: () => `Straight ${symmetry.straight + 1} symmetrical about ${about}.`,
      solution: { ...solution, best: run },
    };
  }
  const orders: readonly FitOrder[] = ['best', 'pieces', 'price', 'position'];
  const amounts: Readonly<Record<FitOrder, (run: RunLayout) => string>> = {
    best: (run) => `${words.length(run.score[LEFTOVER]!)} left over`,
    pieces: (run) => `${run.score[PIECES]} pieces`,
    price: (run) => `${run.score[PRICE]! / 10_000}`,
    position: (run) => `${words.length(run.score[DISPLACEMENT]! / 2)} moved in all`,
  };
  for (const other of orders) {
    if (other === order) continue;
    yield {
      reason: (run) => `${leadReasons[other]}: ${amounts[other](run)}, instead of ${amounts[other](best)}.`,
      solution: solveRun(problem, other, steps),
    };
  }
  for (const [index, choice] of best.corners.entries()) {
    if (problem.corners![index]!.treatment !== undefined) continue;
    const treatments = new Set(cornerChoices(problem, index).map(({ corner }) => corner.treatment));
    for (const treatment of treatments) {
      if (treatment === choice.corner.treatment || treatment === 'joint') continue;
      const corners = problem.corners!.map((corner, at) =>
        at === index ? { ...corner, treatment } : corner,
      );
      yield {
        reason: () => `Corner ${index + 1} made ${treatment} instead of ${choice.corner.treatment}.`,
        solution: solveRun({ ...problem, corners }, order, steps),
      };
    }
  }
  const widestUm = widestOf(best);
  const narrower = problem.stock
    .map((item) => micrometres(item.widthMm))
    .filter((widthUm) => widthUm < widestUm)
    .sort((a, b) => b - a)[0];
  if (narrower !== undefined) {
    yield {
      reason: () =>
        `Narrower to carry in: no piece wider than ${words.length(narrower)}, instead of ${words.length(widestUm)}.`,
      solution: solveRun({ ...problem, maxWidthMm: narrower / 1000 }, order, steps),
    };
  }
}

/**
 * The best run and up to `count - 1` others that differ in kind, best first in the order asked for. The first is the
 * optimum; each other is the optimum of its own reason.
 */
export const fitAlternatives = (
  problem: FitProblem,
  order: FitOrder,
  solution: RunSolution,
  count: number,
  steps: number,
  words: FitWords,
): readonly ReasonedRun[] => {
  const { best } = solution;
  if (best === undefined) return [];
  const first: ReasonedRun = { reason: `${leadReasons[order]}.`, run: best, solution };
  if (count <= 1) return [first];
  const kinds = new Set([kindOf(best)]);
  const others: ReasonedRun[] = [];
  for (const { reason, solution: other } of otherKinds(problem, order, solution, best, steps, words)) {
    if (other.best === undefined || kinds.has(kindOf(other.best))) continue;
    kinds.add(kindOf(other.best));
    others.push({ reason: reason(other.best), run: other.best, solution: other });
    if (others.length >= count - 1) break;
  }
  others.sort((a, b) => compareScores(a.run.score, b.run.score, scoreSequences[order]));
  return [first, ...others];
};

import { isConfirmed } from './confirmLeftovers.ts';
import { explainFit } from './explainFit.ts';
import { exposedQuestion } from './exposedQuestion.ts';
import { fitAlternatives } from './fitAlternatives.ts';
import type { FitAlternative, FitAnswer } from './fitAnswer.ts';
import { fitClash } from './fitClash.ts';
import { fitQuestions } from './fitQuestions.ts';
import { contractWords, type FitWords } from './fitWords.ts';
import { leftOutStations } from './leftOutStations.ts';
import { micrometres } from './micrometre.ts';
import type { FitOrder, FitProblem } from './problemSchema.ts';
import { publishedLayout } from './publishedLayout.ts';
import { defaultSteps, solveRun } from './runSolver.ts';
import { publishedScore } from './scoreVector.ts';
import { widenedFit } from './widenedFit.ts';

/** How to fit: how many alternatives at most (3), in which order (`best`), and how many solver steps to spend. */
export interface FitOptions {
  readonly alternatives?: number;
  readonly order?: FitOrder;
  /**
   * A budget in counted steps, never in time: the same problem gives the same answer on every machine. Where distances of
   * pieces in or on others leave an answer `stopped`, more of them may prove it.
   */
  readonly steps?: number;
  /** How the sentences write lengths: the contract's words where left out. They change nothing else. */
  readonly words?: FitWords;
}

const defaultAlternatives = 3;

/**
 * Fills a run with stock modules after DESIGN section 5. The first alternative is the optimum of the whole run over
 * all corner treatments, in the order asked for; `status` says `optimal`, `infeasible` (with the clashing wishes), or
 * `stopped` when the step budget ran out (with the best found and a proven bound).
 *
 * Give it a problem that `parseProblem` accepted. It reads no clock and no state: the answer depends on the problem
 * alone, and not on the sequence of the stock, the corner units or the wanted stations.
 *
 * @example fitRun(problem, { alternatives: 1 }).alternatives[0]?.score.leftoverMm
 */
export const fitRun = (problem: FitProblem, options: FitOptions = {}): FitAnswer => {
  const {
    alternatives = defaultAlternatives,
    order = 'best',
    steps = defaultSteps,
    words = contractWords,
  } = options;
  const solution = solveRun(problem, order, steps);
  const { best } = solution;
  if (best === undefined) {
    const question = exposedQuestion(problem, words);
    if (!solution.proven) {
      return {
        status: 'stopped',
        alternatives: [],
        explanation: 'The search was stopped before any fit was found; nothing is proven.',
        questions: question ? [question] : [],
        bound: publishedScore(solution.bound),
      };
    }
    const clash = fitClash(problem, order, steps, words);
    return {
      status: 'infeasible',
      alternatives: [],
      explanation: clash.sentence,
      questions: question ? [question] : [],
      clash: clash.wishes,
    };
  }
  const fillerMaxUm = micrometres(problem.fillerMaxMm);
  const runs = fitAlternatives(problem, order, solution, Math.max(1, alternatives), steps, words);
  const leftOut = leftOutStations(problem, best, steps, words);
  const published: FitAlternative[] = runs.map(({ reason, run, solution: from }, index) => ({
    ...publishedLayout(problem, run, reason, (layout) =>
      isConfirmed(from.solvers[layout.stretch.straight]!, layout, fillerMaxUm),
    ),
    ...(index === 0 && leftOut.length > 0 ? { leftOut } : {}),
  }));
  const widened = alternatives > 1 ? widenedFit(problem, published[0]!, words) : undefined;
  if (widened !== undefined) {
    published.splice(1, 0, widened);
    published.splice(alternatives);
  }
  return {
    status: solution.proven ? 'optimal' : 'stopped',
    alternatives: published,
    explanation: explainFit(problem, best, words),
    questions: [
      ...fitQuestions(problem, solution, best, words),
      ...leftOut.map(({ wanted, reason }) => `"${wanted}" is left out: ${reason}`),
    ],
    ...(solution.proven ? {} : { bound: publishedScore(solution.bound) }),
  };
};

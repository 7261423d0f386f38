import type { FitAnswer } from './fitAnswer.ts';
import type { FitOrder, FitProblem } from './problemSchema.ts';
import { publishedLayout } from './publishedLayout.ts';
import { solveRun } from './runSolver.ts';

export interface FitOptions {
  readonly alternatives?: number;
  readonly order?: FitOrder;
  readonly steps?: number;
}

export const fitRun = (problem: FitProblem, options: FitOptions = {}): FitAnswer => {
  const solution = solveRun(problem, options.order ?? 'best', options.steps);
  if (!solution.best) return { status: 'infeasible', alternatives: [], explanation: '', questions: [] };
  return {
    status: solution.proven ? 'optimal' : 'stopped',
    alternatives: [publishedLayout(problem, solution.best, 'best', () => true)],
    explanation: '',
    questions: [],
  };
};

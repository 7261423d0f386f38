import loadHighs from 'highs';
import type { FitProblem } from '../../src/fitting/problemSchema.ts';
import { type FitModel, fitModel } from './fitModel.ts';

/** What the sequence of mixed-integer programs gives: the best score, or that no fit exists. */
export type HighsFit =
  | { readonly status: 'optimal'; readonly score: readonly number[] }
  | { readonly status: 'infeasible' }
  | { readonly status: 'unknown'; readonly detail: string };

type Solver = Awaited<ReturnType<typeof loadHighs>>;

let loaded: Promise<Solver> | undefined;

/** The HiGHS solver (MIT, npm package `highs`), loaded once. */
const highs = (): Promise<Solver> => {
  loaded ??= loadHighs();
  return loaded;
};

const terms = (parts: ReadonlyMap<string, number>): string => {
  const written = [...parts]
    .filter(([, factor]) => factor !== 0)
    .map(([name, factor]) => `${factor < 0 ? '-' : '+'} ${Math.abs(factor)} ${name}`);
  return written.length > 0 ? written.join('\n  ') : '0 zero';
};

/** One program of the sequence in the CPLEX LP format: minimise place `rank` of the score, the better ones fixed. */
const programText = (model: FitModel, rank: number, fixed: readonly number[]): string => {
  const goal = model.objectives[rank]!;
  const rows = model.rows.map((row, index) => ` r${index}: ${terms(row.terms)} ${row.relation} ${row.right}`);
  for (const [place, value] of fixed.entries()) {
    const objective = model.objectives[place]!;
    const slack = objective.isInteger ? 0.5 : model.slackMm;
    rows.push(` best${place}: ${terms(objective.terms)} <= ${value - objective.constant + slack}`);
  }
  const bounds = [...model.variables].map(([name, { low, high }]) => ` ${low} <= ${name} <= ${high}`);
  const binaries = [...model.variables].filter(([, one]) => one.isBinary).map(([name]) => ` ${name}`);
  return [
    'Minimize',
    ` goal: ${terms(goal.terms)}`,
    'Subject To',
    ...rows,
    'Bounds',
    ...bounds,
    ' 0 <= zero <= 0',
    ...(binaries.length > 0 ? ['Binaries', ...binaries] : []),
    'End',
  ].join('\n');
};

/** The problem once for every choice of which columns are passed: the others are blocked zones. */
const columnChoices = (problem: FitProblem): readonly FitProblem[] => {
  const all = problem.straights.flatMap(({ columns = [] }, straight) =>
    columns.map((column) => ({ straight, column })),
  );
  return Array.from({ length: 2 ** all.length }, (_, bits) => {
    const isPassed = (column: (typeof all)[number]['column']) =>
      (bits & (1 << all.findIndex((one) => one.column === column))) !== 0;
    return {
      ...problem,
      straights: problem.straights.map((straight) => ({
        ...straight,
        columns: (straight.columns ?? []).filter(isPassed),
        blocked: [
          ...(straight.blocked ?? []),
          ...(straight.columns ?? [])
            .filter((column) => !isPassed(column))
            .map(({ fromMm, toMm }) => [fromMm, toMm] as [number, number]),
        ],
      })),
    };
  });
};

/** Below 0 where the first score is better; in length and price what the programs' tolerances leave open is equal. */
const compare = (a: readonly number[], b: readonly number[]): number => {
  for (const [place, value] of a.entries()) if (Math.abs(value - b[place]!) > 0.02) return value - b[place]!;
  return 0;
};

/**
 * The best score by a lexicographic sequence of seven mixed-integer programs solved by HiGHS, one for each place of
 * the score, for every choice of the columns that are passed. Positions are continuous there, so it also judges fits
 * that lie on no grid.
 */
export const highsFit = async (problem: FitProblem, timeLimitS = 60): Promise<HighsFit> => {
  let best: HighsFit = { status: 'infeasible' };
  for (const choice of columnChoices(problem)) {
    const found = await highsFitOf(choice, timeLimitS);
    if (found.status === 'unknown') return found;
    if (found.status === 'optimal' && (best.status !== 'optimal' || compare(found.score, best.score) < 0))
      best = found;
  }
  return best;
};

const highsFitOf = async (problem: FitProblem, timeLimitS = 60): Promise<HighsFit> => {
  const solver = await highs();
  const model = fitModel(problem);
  if (model === undefined) return { status: 'infeasible' };
  const fixed: number[] = [];
  let isFirst = true;
  for (const rank of model.objectives.keys()) {
    const objective = model.objectives[rank]!;
    if (objective.terms.size === 0) {
      fixed.push(objective.constant);
      continue;
    }
    const result = solver.solve(programText(model, rank, fixed), {
      output_flag: false,
      mip_rel_gap: 0,
      mip_abs_gap: objective.isInteger ? 0.5 : 1e-4,
      mip_feasibility_tolerance: 1e-8,
      primal_feasibility_tolerance: 1e-8,
      time_limit: timeLimitS,
    } as never);
    if (result.Status === 'Infeasible') {
      return isFirst
        ? { status: 'infeasible' }
        : { status: 'unknown', detail: `place ${rank} infeasible after place ${rank - 1}` };
    }
    if (result.Status !== 'Optimal') return { status: 'unknown', detail: result.Status };
    isFirst = false;
    const value = result.ObjectiveValue + objective.constant;
    fixed.push(objective.isInteger ? Math.round(value) : value);
  }
  return { status: 'optimal', score: fixed };
};

import type { FitAlternative } from '../fitting/fitAnswer.ts';
import type { FitProblem } from '../fitting/problemSchema.ts';

/** The columns on a straight that a fit does not pass in front of, as lengths from and to: they stop it as zones do. */
export const columnsNotPassed = (
  problem: FitProblem,
  alternative: FitAlternative,
  straight: number,
): readonly (readonly [fromMm: number, toMm: number])[] =>
  (problem.straights[straight]?.columns ?? []).flatMap(({ fromMm, toMm }, column) =>
    alternative.passedColumns?.some((passed) => passed.straight === straight && passed.column === column)
      ? []
      : [[fromMm, toMm] as const],
  );

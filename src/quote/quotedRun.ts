import type { FitAlternative } from '../fitting/fitAnswer.ts';
import type { FitProblem } from '../fitting/problemSchema.ts';

/** A fitted run as a quote takes it. */
export interface QuotedRun {
  readonly name: string;
  /** The run's place in the project's run list, from 1. */
  readonly number: number;
  readonly problem: FitProblem;
  /** The fit that is quoted. */
  readonly alternative: FitAlternative;
  /** Other fits to show beside it. */
  readonly others: readonly FitAlternative[];
  /** What the fit asks the architect or the site. */
  readonly questions: readonly string[];
}

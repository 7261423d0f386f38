import type { KeptFit } from '../../src/document/projectDocument.ts';
import type { FitAlternative, FitAnswer } from '../../src/fitting/fitAnswer.ts';
import { sameLayout } from './sameLayout.ts';

/** The kept fit of a run, and how it stands to the run as it is now. */
export interface KeptRunFit {
  readonly alternative: FitAlternative;
  /** Whether it answers the run as it is traced and set now. */
  readonly isCurrent: boolean;
  /** The order and problem that it answers, as `poseProblem` keys them. */
  readonly problemKey: string;
  readonly solverVersion: string;
  /** It answers the run as it is, but a newer solver gives another fit first. */
  readonly isOutdone: boolean;
}

/** Reads a kept fit of the document beside the answer that the run has now. */
export const keptRunFit = (
  kept: KeptFit,
  now: { readonly problemKey: string; readonly answer: FitAnswer; readonly solverVersion: string },
): KeptRunFit => {
  const alternative = JSON.parse(kept.alternative) as FitAlternative;
  const isCurrent = kept.problem === now.problemKey;
  return {
    alternative,
    isCurrent,
    problemKey: kept.problem,
    solverVersion: kept.solverVersion,
    isOutdone:
      isCurrent &&
      kept.solverVersion !== now.solverVersion &&
      !now.answer.alternatives.some((other) => sameLayout(alternative, other)),
  };
};

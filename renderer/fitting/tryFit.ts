import type { RunId } from '../../src/document/ids.ts';
import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import type { RunFit } from './useRunFits.ts';

/** An alternative that is looked at before it is kept. */
export interface TriedFit {
  readonly runId: RunId;
  /** The problem that it answers: after another change it is no longer drawn. */
  readonly canonical: string;
  readonly alternative: FitAlternative;
}

/** The fits to draw: the tried alternative in place of its run's own. The same map where nothing is tried. */
export const withTriedFit = (
  fits: ReadonlyMap<RunId, RunFit>,
  tried: TriedFit | null,
): ReadonlyMap<RunId, RunFit> => {
  const fit = tried ? fits.get(tried.runId) : undefined;
  if (!tried || fit?.status !== 'ready' || fit.canonical !== tried.canonical) return fits;
  return new Map(fits).set(tried.runId, { ...fit, tried: tried.alternative });
};

import type { RunId } from '../document/ids.ts';
import type { ProjectDocument } from '../document/projectDocument.ts';
import type { FitAlternative } from '../fitting/fitAnswer.ts';
import { fitRun } from '../fitting/fitRun.ts';
import { poseProblem } from '../fitting/poseProblem.ts';
import type { StockRange } from '../stock/stockSchema.ts';

/**
 * The fit of a run to take away: the kept one while it answers the run as it is, else the best one there is. Null when
 * the run cannot be fitted as it stands.
 */
export const fitToTakeAway = (
  document: ProjectDocument,
  runId: RunId,
  range: StockRange,
): FitAlternative | null => {
  const posed = poseProblem(document, runId, range);
  if (!posed.ok) return null;
  const kept = document.keptFits[runId];
  if (kept?.problem === posed.key) return JSON.parse(kept.alternative) as FitAlternative;
  return fitRun(posed.problem, { order: posed.order }).alternatives[0] ?? null;
};

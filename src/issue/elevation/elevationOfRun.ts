import type { RunId } from '../../document/ids.ts';
import type { ProjectDocument, Run } from '../../document/projectDocument.ts';
import { runNumberOf } from '../../document/runsInForce.ts';
import type { FitAlternative } from '../../fitting/fitAnswer.ts';
import type { FitProblem } from '../../fitting/problemSchema.ts';
import { cornersOf } from '../../measure/corners.ts';
import { runAsTraced } from '../../measure/runAsTraced.ts';
import { drawnScaleOfRun } from '../../measure/scaleOfSheet.ts';
import { straightsOf } from '../../measure/straights.ts';
import { zonesOfRun } from '../../measure/zonesOfRun.ts';
import { pieceMarks } from '../../quote/pieceMarks.ts';
import type { StockRange } from '../../stock/stockSchema.ts';
import type { DisplayUnit } from '../../units/formatLength.ts';
import type { Drawing } from '../drawing/drawing.ts';
import type { PartName } from '../fitOnPlan.ts';
import { drawElevation } from './drawElevation.ts';
import type { ElevationCut } from './elevationInput.ts';

/**
 * The developed elevation of a run of a project, at its sheet's scale. Null where there is nothing to draw: the run is
 * gone, its sheet has no scale yet, or it has no straight.
 */
export const elevationOfRun = (
  document: ProjectDocument,
  runId: RunId,
  given: {
    readonly range: StockRange;
    readonly unit: DisplayUnit;
    readonly problem: FitProblem | null;
    readonly alternative: FitAlternative | null;
    readonly cuts?: readonly ElevationCut[];
  },
): Drawing<PartName> | null => {
  const run = document.runs[runId];
  const scale = run && drawnScaleOfRun(document, run);
  if (!run || !scale) return null;
  const traced = runAsTraced(run);
  const straights = straightsOf(traced, scale);
  if (straights.length === 0) return null;
  const metBy = ({ kind, meetsRunId }: Run['ends'][number]): string | null =>
    (kind === 'meets' && meetsRunId && document.runs[meetsRunId]?.name) || null;
  const runNumber = runNumberOf(document, runId);
  return drawElevation({
    ...given,
    run,
    runNumber,
    straights,
    corners: cornersOf(traced, scale.userUnit),
    zones: zonesOfRun(document, runId, scale),
    meets: [metBy(run.ends[0]), metBy(run.ends[1])],
    marks: given.alternative && pieceMarks(runNumber, given.alternative),
  });
};

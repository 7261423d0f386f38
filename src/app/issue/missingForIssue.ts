import type { ProjectDocument } from '../../document/projectDocument.ts';
import { runIdsInForce } from '../../document/runsInForce.ts';
import { poseProblem } from '../../fitting/poseProblem.ts';
import { documentAsMeasured } from '../../measure/documentAsMeasured.ts';
import { scaleOfSheet } from '../../measure/scaleOfSheet.ts';
import type { StockRange } from '../../stock/stockSchema.ts';
import { fitToTakeAway } from '../fitToTakeAway.ts';

/** What a project still lacks before anything can be issued, and the step of the job that provides it. */
export interface MissingForIssue {
  readonly step: 'plan' | 'scale' | 'runs' | 'fit';
  readonly words: string;
}

/** The first thing that is missing; null when the project can be issued. */
export const missingForIssue = (document: ProjectDocument, range: StockRange): MissingForIssue | null => {
  const measured = documentAsMeasured(document);
  const runIds = runIdsInForce(measured);
  if (measured.sheetIds.length === 0)
    return { step: 'plan', words: 'There is no plan yet: take one in first.' };
  const withoutScale = (
    runIds.length > 0 ? runIds.map((id) => measured.runs[id]!.sheetId) : measured.sheetIds
  )
    .filter((sheetId) => scaleOfSheet(measured, sheetId) === null)
    .map((sheetId) => measured.sheets[sheetId]?.name ?? '');
  if (
    withoutScale[0] !== undefined &&
    (runIds.length > 0 || withoutScale.length === measured.sheetIds.length)
  )
    return {
      step: 'scale',
      words: `${withoutScale[0]} has no scale yet: without it nothing can be drawn to size.`,
    };
  if (runIds.length === 0) return { step: 'runs', words: 'No run is traced yet.' };
  if (runIds.some((runId) => fitToTakeAway(measured, runId, range) !== null)) return null;
  const posed = poseProblem(measured, runIds[0]!, range);
  return {
    step: 'fit',
    words: posed.ok ? 'No run has a fit: the stock range does not fill any of them.' : posed.message,
  };
};

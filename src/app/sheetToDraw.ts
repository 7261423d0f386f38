import type { RunId, SheetId } from '../document/ids.ts';
import type { ProjectDocument, Sheet } from '../document/projectDocument.ts';
import type { FitAlternative } from '../fitting/fitAnswer.ts';
import { type ScaleOfSheet, scaleOfSheet } from '../measure/scaleOfSheet.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { ApiFailure } from './apiFailure.ts';
import { fitToTakeAway } from './fitToTakeAway.ts';

/** A sheet that can be drawn: its scale, and the fit to show for each of its runs that has one. */
export interface SheetToDraw {
  readonly sheet: Sheet;
  readonly scale: ScaleOfSheet;
  readonly alternatives: ReadonlyMap<RunId, FitAlternative>;
}

/** What every drawing of a sheet needs; throws ApiFailure for a sheet that is not there or has no scale. */
export const sheetToDraw = (document: ProjectDocument, sheetId: SheetId, range: StockRange): SheetToDraw => {
  const sheet = document.sheets[sheetId];
  if (!sheet) throw new ApiFailure('sheet-missing', 'That sheet is no longer in the project.', 'sheetId');
  const scale = scaleOfSheet(document, sheetId);
  if (!scale)
    throw new ApiFailure(
      'scale-missing',
      'Set the scale of the sheet first: nothing can be drawn to it.',
      'sheetId',
    );
  const alternatives = new Map<RunId, FitAlternative>();
  for (const runId of document.runIds) {
    if (document.runs[runId]?.sheetId !== sheetId) continue;
    const alternative = fitToTakeAway(document, runId, range);
    if (alternative) alternatives.set(runId, alternative);
  }
  return { sheet, scale, alternatives };
};

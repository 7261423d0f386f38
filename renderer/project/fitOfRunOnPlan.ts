import type { RunId, SheetId } from '../../src/document/ids.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { runNumberOf } from '../../src/document/runsInForce.ts';
import { type FitOnPlan, fitOnPlan } from '../../src/issue/fitOnPlan.ts';
import { drawnScaleOfRun } from '../../src/measure/scaleOfSheet.ts';
import { pieceMarks } from '../../src/quote/pieceMarks.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import { shownAlternative } from '../fitting/fitWords.ts';
import type { RunFit } from '../fitting/useRunFits.ts';

const nothing: readonly FitOnPlan[] = [];
const remembered = new WeakMap<
  object,
  { readonly key: readonly unknown[]; readonly parts: readonly FitOnPlan[] }
>();

/** What the shown fit of a run puts on a sheet; the same array while nothing about it changed. */
export const fitOfRunOnPlan = (
  document: ProjectDocument,
  runId: RunId,
  fit: RunFit | undefined,
  range: StockRange,
  sheetId: SheetId,
): readonly FitOnPlan[] => {
  const run = document.runs[runId];
  const alternative = shownAlternative(fit);
  const scale = run && drawnScaleOfRun(document, run);
  if (!run || run.sheetId !== sheetId || !alternative || !scale) return nothing;
  const number = runNumberOf(document, runId);
  const key = [run, number, scale.ratio, range];
  const before = remembered.get(alternative);
  if (before?.key.every((part, index) => part === key[index])) return before.parts;
  const parts = fitOnPlan(run, alternative, pieceMarks(number, alternative), scale, range);
  remembered.set(alternative, { key, parts });
  return parts;
};

import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { runIdsInForce, runNumberOf } from '../../src/document/runsInForce.ts';
import type { SiteMeasure } from '../../src/document/siteMeasure.ts';
import { documentAsMeasured } from '../../src/measure/documentAsMeasured.ts';
import { runAsTraced } from '../../src/measure/runAsTraced.ts';
import { drawnScaleOfRun } from '../../src/measure/scaleOfSheet.ts';
import { straightsOf } from '../../src/measure/straights.ts';
import { siteMeasureList } from '../../src/quote/siteMeasure.ts';
import { shownAlternative } from '../fitting/fitWords.ts';
import type { RunFit } from '../fitting/useRunFits.ts';

/** One straight as the site-measure step lists it. Lengths in mm, +/- at k = 2. */
export interface SiteMeasureLine {
  readonly runId: string;
  readonly runName: string;
  readonly vertexId: string;
  /** From 1. */
  readonly straight: number;
  readonly drawnMm: number;
  readonly drawnPlusMinusMm: number;
  readonly measure: SiteMeasure | null;
  /** Whether another length within the drawing's +/- would change layout, verdict or order; and why. */
  readonly decides: boolean;
  readonly why: string;
  readonly isArc: boolean;
}

/** Every straight of the runs in force at a known scale, in the order of the runs. */
export const siteMeasureLines = (
  document: ProjectDocument,
  fits: ReadonlyMap<string, RunFit>,
): readonly SiteMeasureLine[] => {
  const laid = documentAsMeasured(document);
  return runIdsInForce(document).flatMap((runId): SiteMeasureLine[] => {
    const run = document.runs[runId];
    const scale = run && drawnScaleOfRun(document, run);
    if (!run || !scale) return [];
    const { measured: _, ...drawn } = runAsTraced(run);
    const fit = fits.get(runId);
    const alternative = shownAlternative(fit);
    const asked =
      fit?.status === 'ready' && alternative
        ? siteMeasureList([
            {
              name: run.name,
              number: runNumberOf(laid, runId),
              problem: fit.problem,
              alternative,
              corners: [],
              questions: fit.answer.questions,
            },
          ])
        : [];
    return straightsOf(drawn, scale).map(({ index, lengthMm, plusMinusMm }) => {
      const vertex = run.frontLine[index]!;
      const row = asked.find(({ kind, straight }) => kind === 'straight' && straight === index + 1);
      return {
        runId,
        runName: run.name,
        vertexId: vertex.id,
        straight: index + 1,
        drawnMm: lengthMm,
        drawnPlusMinusMm: plusMinusMm,
        measure: vertex.siteMeasure ?? null,
        decides: row?.decides ?? false,
        why: row?.why ?? '',
        isArc: vertex.through !== undefined,
      };
    });
  });
};

/** The step's answer: `2 to measure`, or `1 of 4 measured` once nothing that decides is left. */
export const siteMeasureWords = (lines: readonly SiteMeasureLine[]): string => {
  if (lines.length === 0) return 'nothing traced yet';
  const open = lines.filter(({ decides, measure }) => decides && !measure).length;
  const done = lines.filter(({ measure }) => measure).length;
  if (open > 0) return `${open} to measure`;
  return done > 0 ? `${done} of ${lines.length} measured` : 'the drawing is sure enough';
};

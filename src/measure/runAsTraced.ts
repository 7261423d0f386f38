import type { Run } from '../document/projectDocument.ts';
import type { TracedRun } from './tracedRun.ts';

/** A run of a project as the measuring functions take it. */
export const runAsTraced = (run: Run): TracedRun => ({
  frontLine: run.frontLine.map(({ at }) => at),
  ...(run.frontLine.some(({ through }) => through)
    ? { bends: run.frontLine.map(({ through }) => through) }
    : {}),
  backSide: run.backSide,
  depthMm: run.depthMm,
  pickUncertaintyPt: run.pickUncertaintyPt,
  ...(run.frontLine.some(({ siteMeasure }) => siteMeasure)
    ? { measured: run.frontLine.slice(0, -1).map(({ siteMeasure }) => siteMeasure) }
    : {}),
});

import type { Box } from '../geometry/box.ts';
import type { EmbeddedViewport } from '../sheet/embeddedViewport.ts';
import type { ScaleEvidence } from './combineEvidence.ts';
import { type DrawingUnit, MM_PER_UNIT } from './dimensionText.ts';
import { isPaperViewport, measureMmPerUnit, mmPerLabel } from './measureDictionary.ts';
import { paperMmPerUnit } from './paperLength.ts';
import { readScaleNote } from './scaleNote.ts';

/** A viewport's say on the scale, and where it holds. */
export interface MeasureEvidence {
  readonly box: Box;
  readonly name?: string;
  readonly evidence: ScaleEvidence;
  /** Its ratio along y over that along x, where it has one of each. */
  readonly stretch: number;
}

/** Factors are written with five digits or so, and exports round boxes. */
const MEASURE_UNCERTAINTY = 5e-4;

/** A blank unit is inferred where it makes the ratio meet a known one this closely. */
const INFERENCE_TOLERANCE = 0.01;

/**
 * What the viewports of a page say about its scale. Paper viewports are left out. A blank unit is inferred from ratios
 * that are known otherwise; where none fits, the viewport gives no evidence and is counted in `unresolved`.
 */
export const readMeasureEvidence = (
  viewports: readonly EmbeddedViewport[],
  knownRatios: readonly number[],
  userUnit: number,
): { readonly found: readonly MeasureEvidence[]; readonly unresolved: number } => {
  const paperMm = paperMmPerUnit(userUnit);
  const found: MeasureEvidence[] = [];
  let unresolved = 0;
  for (const viewport of viewports) {
    const { measure, box, name } = viewport;
    const format = measure?.x[0];
    if (!measure || !format || !(format.factor > 0) || isPaperViewport(viewport, userUnit)) continue;
    const place = { box, ...(name ? { name } : {}) };
    const mm = measureMmPerUnit(measure);
    if (mm) {
      found.push({ ...place, evidence: measured(mm.x / paperMm), stretch: mm.y / mm.x });
      continue;
    }
    const stated = readScaleNote(measure.ratioText)?.ratio;
    const unit = inferUnit(
      format.factor / paperMm,
      stated === undefined ? knownRatios : [stated, ...knownRatios],
    );
    if (!unit || mmPerLabel(format.unit) !== undefined) {
      unresolved++;
      continue;
    }
    const ratio = (format.factor * MM_PER_UNIT[unit]) / paperMm;
    found.push({ ...place, evidence: { ...measured(ratio), unit, unitAssumed: true }, stretch: 1 });
  }
  return { found, unresolved };
};

/** The ratios of viewports whose unit is written out, paper viewports left out. */
export const labelledRatios = (viewports: readonly EmbeddedViewport[], userUnit: number): readonly number[] =>
  viewports.flatMap((viewport) => {
    const mm = viewport.measure && measureMmPerUnit(viewport.measure);
    return mm && !isPaperViewport(viewport, userUnit) ? [mm.x / paperMmPerUnit(userUnit)] : [];
  });

const measured = (ratio: number): ScaleEvidence => ({
  kind: 'measure-dictionary',
  ratio,
  relativeUncertainty: MEASURE_UNCERTAINTY,
});

const inferUnit = (unitsPerPaperMm: number, knownRatios: readonly number[]): DrawingUnit | undefined => {
  for (const known of knownRatios) {
    for (const unit of ['mm', 'cm', 'm', 'in', 'ft'] as const) {
      const ratio = unitsPerPaperMm * MM_PER_UNIT[unit];
      if (Math.abs(ratio / known - 1) < INFERENCE_TOLERANCE) return unit;
    }
  }
  return undefined;
};

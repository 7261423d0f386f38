import { shortestWayBetween } from '../geometry/line.ts';
import { type PaperPoint, paperPoint } from '../geometry/point.ts';
import { segmentsOf } from '../geometry/polyline.ts';
import { lengthUncertaintyMm } from '../scale/lengthUncertainty.ts';
import { DEFAULT_PICK_UNCERTAINTY_PT } from '../scale/scaleFromReferences.ts';
import { mmPerUserUnit, pickUncertaintyUnits, type SheetScale } from './tracedRun.ts';

/** The narrowest place of a working aisle. */
export interface Aisle {
  readonly widthMm: number;
  /** +/- of the width at k = 2. */
  readonly plusMinusMm: number;
  readonly onFrontBar: PaperPoint;
  readonly onBackBar: PaperPoint;
}

/**
 * The narrowest distance between the back line of the front bar and the front line of the back bar, and its place. The
 * first such place where several are equally narrow; a width of 0 where the lines touch or cross. Undefined where
 * either line has fewer than two points. `pickUncertaintyPt` as in `TracedRun`.
 */
export function aisleBetween(
  frontBarBackLine: readonly PaperPoint[],
  backBarFrontLine: readonly PaperPoint[],
  scale: SheetScale,
  pickUncertaintyPt: number = DEFAULT_PICK_UNCERTAINTY_PT,
): Aisle | undefined {
  const ways = segmentsOf(frontBarBackLine).flatMap((ours) =>
    segmentsOf(backBarFrontLine).map((theirs) => shortestWayBetween(ours, theirs)),
  );
  const [first, ...others] = ways;
  if (first === undefined) return undefined;
  const narrowest = others.reduce((best, way) => (way.distance < best.distance ? way : best), first);
  const widthMm = narrowest.distance * mmPerUserUnit(scale);
  const picks = {
    userUnit: scale.userUnit,
    pickUncertaintyPt: pickUncertaintyUnits({ pickUncertaintyPt }, scale.userUnit),
  };
  return {
    widthMm,
    plusMinusMm: lengthUncertaintyMm(widthMm, scale, picks),
    onFrontBar: paperPoint(narrowest.onA.x, narrowest.onA.y),
    onBackBar: paperPoint(narrowest.onB.x, narrowest.onB.y),
  };
}

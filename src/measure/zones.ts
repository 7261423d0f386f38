import type { PaperPoint } from '../geometry/point.ts';
import { lengthUncertaintyMm } from '../scale/lengthUncertainty.ts';
import { nearestOnPath } from './runPath.ts';
import { positionAlong } from './runPosition.ts';
import { pickUncertaintyUnits, type SheetScale, type TracedRun } from './tracedRun.ts';

/** A length on one straight: an opening, a blocked zone, a bay or a low section. Positions as `positionAlong` has them. */
export interface ZoneOnStraight {
  readonly straight: number;
  readonly fromMm: number;
  readonly toMm: number;
  /** +/- of the zone's width at k = 2. */
  readonly plusMinusMm: number;
}

/**
 * The length that points take on one straight: from the least to the greatest of their positions along it. Two points
 * mark a gap; the corners of a column mark the length it blocks. It is not cut at the straight's ends, because material
 * beyond a corner has positions too. Throws a RangeError for no points.
 */
export function zoneOn(
  run: TracedRun,
  straightIndex: number,
  points: readonly PaperPoint[],
  scale: SheetScale,
): ZoneOnStraight {
  if (points.length === 0) throw new RangeError('A zone needs at least one point');
  const positions = points.map((point) => positionAlong(run, straightIndex, point, scale));
  const fromMm = Math.min(...positions);
  const toMm = Math.max(...positions);
  const picks = { userUnit: scale.userUnit, pickUncertaintyPt: pickUncertaintyUnits(run, scale.userUnit) };
  const plusMinusMm = lengthUncertaintyMm(toMm - fromMm, scale, picks);
  return { straight: straightIndex, fromMm, toMm, plusMinusMm };
}

/**
 * The same on the straight that all the points together are nearest to (least sum of distances from its traced front;
 * the earlier one where two are equally near). Undefined where the run has no straight, or there are no points.
 */
export function zoneNear(
  run: TracedRun,
  points: readonly PaperPoint[],
  scale: SheetScale,
): ZoneOnStraight | undefined {
  let best: { readonly index: number; readonly distance: number } | undefined;
  for (const index of run.frontLine.slice(1).keys()) {
    const part = { frontLine: run.frontLine.slice(index, index + 2), bends: [run.bends?.[index]] };
    const distance = points.reduce((sum, point) => sum + (nearestOnPath(part, point)?.distance ?? 0), 0);
    if (best === undefined || distance < best.distance) best = { index, distance };
  }
  return best === undefined || points.length === 0 ? undefined : zoneOn(run, best.index, points, scale);
}

import { arcLength, shareOnArc } from '../geometry/arc.ts';
import { type PaperPoint, type Point, paperPoint } from '../geometry/point.ts';
import { distanceBetween, dot, leftOf, scaledBy, vectorBetween } from '../geometry/vector.ts';
import { arrivingDirection, bendOf, leavingDirection, nearestOnPath } from './runPath.ts';
import {
  backSign,
  frontPlaceAt,
  mmPerUserUnit,
  type SheetScale,
  straightLineOf,
  type TracedRun,
} from './tracedRun.ts';

/** Where a point lies relative to a straight, in millimetres of the room. */
export interface PlaceOnStraight {
  /** Along the traced front from the straight's start: negative before it, more than its length behind its end. */
  readonly alongMm: number;
  /** From the front line towards the back: negative in front of the bar. */
  readonly offsetMm: number;
}

/**
 * The place of a paper point relative to one straight of a run. {@link paperPointAt} is the way back. On an arc the offset
 * is radial and the position that of the foot on the traced front; before its start and behind its end both are measured
 * as on the tangent there.
 */
export function placeOnStraight(
  run: TracedRun,
  straightIndex: number,
  point: PaperPoint,
  scale: SheetScale,
): PlaceOnStraight {
  const { start, end, along, towardsBack } = straightLineOf(run, straightIndex);
  const mm = mmPerUserUnit(scale);
  const bend = bendOf(run, straightIndex);
  if (bend) {
    const share = shareOnArc(bend, point);
    const lengthMm = arcLength(bend) * mm;
    if (share < 0 || share > 1) {
      const way = vectorBetween(share < 0 ? start : end, point);
      const on = share < 0 ? leavingDirection(run, straightIndex) : arrivingDirection(run, straightIndex);
      return {
        alongMm: dot(way, on) * mm + (share < 0 ? 0 : lengthMm),
        offsetMm: dot(way, scaledBy(leftOf(on), backSign(run))) * mm,
      };
    }
    const inwards = bend.radius - distanceBetween(bend.centre, point);
    const isBackInside = bend.sweepRad > 0 === backSign(run) > 0;
    return { alongMm: share * lengthMm, offsetMm: (isBackInside ? inwards : -inwards) * mm };
  }
  const way = vectorBetween(start, point);
  return { alongMm: dot(way, along) * mm, offsetMm: dot(way, towardsBack) * mm };
}

/** The position of a paper point along a straight, measured along the traced front from the straight's start, in mm. */
export const positionAlong = (
  run: TracedRun,
  straightIndex: number,
  point: PaperPoint,
  scale: SheetScale,
): number => placeOnStraight(run, straightIndex, point, scale).alongMm;

/** The paper point `alongMm` along a straight and `offsetMm` from its front towards the back. */
export function paperPointAt(
  run: TracedRun,
  straightIndex: number,
  alongMm: number,
  offsetMm: number,
  scale: SheetScale,
): PaperPoint {
  const mm = mmPerUserUnit(scale);
  if (bendOf(run, straightIndex)) {
    const { at, towardsBack } = frontPlaceAt(run, straightIndex, alongMm, scale);
    return paperPoint(at.x + (towardsBack.x * offsetMm) / mm, at.y + (towardsBack.y * offsetMm) / mm);
  }
  const { start, along, towardsBack } = straightLineOf(run, straightIndex);
  return paperPoint(
    start.x + (along.x * alongMm + towardsBack.x * offsetMm) / mm,
    start.y + (along.y * alongMm + towardsBack.y * offsetMm) / mm,
  );
}

/** The straight whose traced front is nearest to a point, or undefined where the run has none. */
export const nearestStraightIndex = (run: TracedRun, point: Point): number | undefined =>
  nearestOnPath(run, point)?.index;

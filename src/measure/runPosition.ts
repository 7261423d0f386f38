import { type PaperPoint, type Point, paperPoint } from '../geometry/point.ts';
import { dot, vectorBetween } from '../geometry/vector.ts';
import { bendOf, nearestOnPath, projectOntoPart } from './runPath.ts';
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
  const mm = mmPerUserUnit(scale);
  if (bendOf(run, straightIndex)) {
    const { along, offset } = projectOntoPart(run, straightIndex, point);
    return { alongMm: along * mm, offsetMm: offset * backSign(run) * mm };
  }
  const { start, along, towardsBack } = straightLineOf(run, straightIndex);
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

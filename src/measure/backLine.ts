import { projectOntoLine } from '../geometry/line.ts';
import { offsetPolyline } from '../geometry/offsetPolyline.ts';
import { type PaperPoint, paperPoint } from '../geometry/point.ts';
import { nearestOnPolyline, segmentsOf } from '../geometry/polyline.ts';
import { type BackSide, backSign, mmPerUserUnit, type SheetScale, type TracedRun } from './tracedRun.ts';

/**
 * The line parallel to the front, `offsetMm` towards the back (negative: in front of the bar), mitred at the corners,
 * with one point for each point of the front line.
 */
export function lineBehindFront(run: TracedRun, offsetMm: number, scale: SheetScale): readonly PaperPoint[] {
  const offset = (backSign(run) * offsetMm) / mmPerUserUnit(scale);
  return offsetPolyline(run.frontLine, offset).map(({ x, y }) => paperPoint(x, y));
}

/** The back line of a run: `depthMm` behind the front, or behind the cladding of `claddingMm` that the front carries. */
export const backLineOf = (run: TracedRun, scale: SheetScale, claddingMm = 0): readonly PaperPoint[] =>
  lineBehindFront(run, claddingMm + run.depthMm, scale);

/** The depth of a run and the side of its back, as one pick on the back line shows them. */
export interface PickedDepth {
  readonly depthMm: number;
  readonly backSide: BackSide;
}

/**
 * The depth and side that a pick on the back line gives a front line: its distance from the line through the nearest
 * straight. Undefined where the front has no length or the pick lies on it.
 */
export function depthFromPick(
  frontLine: readonly PaperPoint[],
  pickOnBackLine: PaperPoint,
  scale: SheetScale,
): PickedDepth | undefined {
  const nearest = nearestOnPolyline(pickOnBackLine, frontLine);
  const segment = nearest === undefined ? undefined : segmentsOf(frontLine)[nearest.segmentIndex];
  if (segment === undefined || (segment.start.x === segment.end.x && segment.start.y === segment.end.y))
    return undefined;
  const { offset } = projectOntoLine(pickOnBackLine, segment);
  if (offset === 0) return undefined;
  return { depthMm: Math.abs(offset) * mmPerUserUnit(scale), backSide: offset > 0 ? 'left' : 'right' };
}

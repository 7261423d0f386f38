import { projectOntoLine } from '../geometry/line.ts';
import type { PaperPoint } from '../geometry/point.ts';
import { nearestOnPolyline, segmentsOf } from '../geometry/polyline.ts';
import { offsetPath } from './offsetPath.ts';
import { flattenedPath, type RunPath } from './runPath.ts';
import { type BackSide, backSign, mmPerUserUnit, type SheetScale, type TracedRun } from './tracedRun.ts';

/**
 * The line parallel to the front, `offsetMm` towards the back (negative: in front of the bar), mitred at the corners,
 * arcs about the same centre, with one point for each point of the front line.
 */
export const pathBehindFront = (run: TracedRun, offsetMm: number, scale: SheetScale): RunPath =>
  offsetPath(run, (backSign(run) * offsetMm) / mmPerUserUnit(scale));

/** The back line of a run, with its arcs: `depthMm` behind the front, or behind the cladding that the front carries. */
export const backPathOf = (run: TracedRun, scale: SheetScale, claddingMm = 0): RunPath =>
  pathBehindFront(run, claddingMm + run.depthMm, scale);

/** The back line as points, an arc as chords: for drawing and for distances. */
export const backLineOf = (run: TracedRun, scale: SheetScale, claddingMm = 0): readonly PaperPoint[] =>
  flattenedPath(backPathOf(run, scale, claddingMm));

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

import { type PaperPoint, type Point, paperPoint } from '../geometry/point.ts';
import { movedBy } from '../geometry/vector.ts';
import { lineBehindFront } from './backLine.ts';
import { cornersOf } from './corners.ts';
import { paperPointAt } from './runPosition.ts';
import { mmPerUserUnit, type SheetScale, straightLineOf, type TracedRun } from './tracedRun.ts';

/** A four-cornered footprint on the sheet, as a ring. */
export type Footprint = readonly [PaperPoint, PaperPoint, PaperPoint, PaperPoint];

/** What stands in a corner as a piece of its own. Where one straight runs through, nothing does. */
export type CornerPiece =
  | { readonly kind: 'corner-unit'; readonly sizeMm: number }
  | { readonly kind: 'mitre' };

/** `claddingMm`: how far the fronts of the pieces stand behind the traced front. Default 0. */
export interface FootprintOptions {
  readonly claddingMm?: number;
}

const asPaper = ({ x, y }: Point): PaperPoint => paperPoint(x, y);

/**
 * The footprint of a piece from `fromMm` to `toMm` on a straight, the run's depth deep. Corners in the order front
 * start, front end, back end, back start.
 */
export function pieceFootprint(
  run: TracedRun,
  straightIndex: number,
  piece: { readonly fromMm: number; readonly toMm: number },
  scale: SheetScale,
  { claddingMm = 0 }: FootprintOptions = {},
): Footprint {
  const at = (alongMm: number, offsetMm: number): PaperPoint =>
    paperPointAt(run, straightIndex, alongMm, offsetMm, scale);
  const backMm = claddingMm + run.depthMm;
  return [
    at(piece.fromMm, claddingMm),
    at(piece.toMm, claddingMm),
    at(piece.toMm, backMm),
    at(piece.fromMm, backMm),
  ];
}

/**
 * The footprint of the piece in the corner between straight `cornerIndex` and the next.
 *
 * A corner unit of size c is a square on the outer corner: that of the fronts where the front is on the outside, that
 * of the backs where it is on the inside; so it takes c, or c - depth, off each straight. A mitre is a wedge between
 * the square ends of both straights: from the back corner to its feet on both fronts (front outside; each straight
 * gives up depth x tan(|turn|/2)), or from the front corner to its feet on both backs (front inside; nothing given up).
 * Rings start at the front corner or, for a corner unit on the inside, at the back corner.
 */
export function cornerFootprint(
  run: TracedRun,
  cornerIndex: number,
  piece: CornerPiece,
  scale: SheetScale,
  { claddingMm = 0 }: FootprintOptions = {},
): Footprint {
  const corner = cornersOf(run)[cornerIndex];
  const front = lineBehindFront(run, claddingMm, scale)[cornerIndex + 1];
  const back = lineBehindFront(run, claddingMm + run.depthMm, scale)[cornerIndex + 1];
  if (corner === undefined || front === undefined || back === undefined) {
    throw new RangeError(`No corner ${cornerIndex}: the run has ${cornersOf(run).length}`);
  }
  const before = straightLineOf(run, cornerIndex);
  const after = straightLineOf(run, cornerIndex + 1);
  const mm = mmPerUserUnit(scale);
  const isFrontOutside = corner.turnDeg >= 0;

  if (piece.kind === 'corner-unit') {
    const size = piece.sizeMm / mm;
    const outer = isFrontOutside ? front : back;
    const onBefore = movedBy(outer, before.along, -size);
    const onAfter = movedBy(outer, after.along, size);
    return [
      asPaper(outer),
      asPaper(onAfter),
      asPaper(movedBy(onAfter, before.along, -size)),
      asPaper(onBefore),
    ];
  }
  const depth = run.depthMm / mm;
  const [inner, reach] = isFrontOutside ? [back, -depth] : [front, depth];
  const footBefore = asPaper(movedBy(inner, before.towardsBack, reach));
  const footAfter = asPaper(movedBy(inner, after.towardsBack, reach));
  return [front, footAfter, back, footBefore];
}

import { type PaperPoint, type Point, paperPoint } from '../geometry/point.ts';
import {
  distanceBetween,
  leftOf,
  movedBy,
  scaledBy,
  type Vector,
  vectorBetween,
} from '../geometry/vector.ts';
import { pathBehindFront } from './backLine.ts';
import { cornersOf } from './corners.ts';
import { arrivingDirection, bendOf, flattenedPart, leavingDirection } from './runPath.ts';
import { paperPointAt } from './runPosition.ts';
import { backSign, frontPlaceAt, mmPerUserUnit, type SheetScale, type TracedRun } from './tracedRun.ts';

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
 * The footprint of a straight-fronted module of `widthMm` that takes the sector from `fromMm` to `toMm` of a bent
 * straight: square to the radius through the sector's middle. With the front outside its front corners lie on the arc,
 * its front being a chord; with the front inside its front's middle does, its front being a tangent, so that nothing
 * stands in front of the line. Corners as `pieceFootprint` has them, which it is on a straight that is not bent.
 */
export function moduleFootprint(
  run: TracedRun,
  straightIndex: number,
  module: { readonly fromMm: number; readonly toMm: number; readonly widthMm: number },
  scale: SheetScale,
  { claddingMm = 0 }: FootprintOptions = {},
): Footprint {
  const bend = bendOf(run, straightIndex);
  if (!bend) return pieceFootprint(run, straightIndex, module, scale, { claddingMm });
  const mm = mmPerUserUnit(scale);
  const isFrontOutside = bend.sweepRad > 0 === backSign(run) > 0;
  const radiusMm = bend.radius * mm + (isFrontOutside ? -claddingMm : claddingMm);
  const halfMm = module.widthMm / 2;
  // The middle ordinate of the chord; nothing for a tangent.
  const setBackMm = isFrontOutside ? radiusMm - Math.sqrt(Math.max(0, radiusMm ** 2 - halfMm ** 2)) : 0;
  const { at, along, towardsBack } = frontPlaceAt(
    run,
    straightIndex,
    (module.fromMm + module.toMm) / 2,
    scale,
  );
  const corner = (alongMm: number, offsetMm: number): PaperPoint =>
    asPaper(movedBy(movedBy(at, along, alongMm / mm), towardsBack, offsetMm / mm));
  const frontMm = claddingMm + setBackMm;
  return [
    corner(-halfMm, frontMm),
    corner(halfMm, frontMm),
    corner(halfMm, frontMm + run.depthMm),
    corner(-halfMm, frontMm + run.depthMm),
  ];
}

/**
 * The area from `fromMm` to `toMm` of a straight, the run's depth deep, as a ring that follows an arc: along the front,
 * then back along the back.
 */
export function zoneOutline(
  run: TracedRun,
  straightIndex: number,
  zone: { readonly fromMm: number; readonly toMm: number },
  scale: SheetScale,
  options: FootprintOptions = {},
): readonly PaperPoint[] {
  const corners = pieceFootprint(run, straightIndex, zone, scale, options);
  if (!bendOf(run, straightIndex)) return corners;
  const { claddingMm = 0 } = options;
  const middleMm = (zone.fromMm + zone.toMm) / 2;
  const arcOf = (from: PaperPoint, to: PaperPoint, offsetMm: number): readonly PaperPoint[] =>
    flattenedPart(
      { frontLine: [from, to], bends: [paperPointAt(run, straightIndex, middleMm, offsetMm, scale)] },
      0,
    );
  const [frontStart, frontEnd, backEnd, backStart] = corners;
  return [...arcOf(frontStart, frontEnd, claddingMm), ...arcOf(backEnd, backStart, claddingMm + run.depthMm)];
}

/**
 * The footprint of a piece from `fromMm` to `toMm` on a straight, the run's depth deep. Corners in the order front
 * start, front end, back end, back start; of a bent straight the four corners of the sector.
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

const directionAt = (run: TracedRun, along: Vector) => ({
  along,
  towardsBack: scaledBy(leftOf(along), backSign(run)),
});

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
  const front = pathBehindFront(run, claddingMm, scale).frontLine[cornerIndex + 1];
  const back = pathBehindFront(run, claddingMm + run.depthMm, scale).frontLine[cornerIndex + 1];
  if (corner === undefined || front === undefined || back === undefined) {
    throw new RangeError(`No corner ${cornerIndex}: the run has ${cornersOf(run).length}`);
  }
  const before = directionAt(run, arrivingDirection(run, cornerIndex));
  const after = directionAt(run, leavingDirection(run, cornerIndex + 1));
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
  /** The foot on the other line: square to it, so towards the centre of an arc or away from it. */
  const footOn = (straightIndex: number, towardsBack: Vector): PaperPoint => {
    const bend = bendOf(run, straightIndex);
    const fromCentre = bend ? distanceBetween(bend.centre, inner) : 0;
    if (!bend || fromCentre === 0) return asPaper(movedBy(inner, towardsBack, reach));
    const isFrontOutsideArc = bend.sweepRad > 0 === backSign(run) > 0;
    const outwards = vectorBetween(bend.centre, inner);
    return asPaper(movedBy(inner, outwards, ((isFrontOutsideArc ? -1 : 1) * reach) / fromCentre));
  };
  const footBefore = footOn(cornerIndex, before.towardsBack);
  const footAfter = footOn(cornerIndex + 1, after.towardsBack);
  return [front, footAfter, back, footBefore];
}

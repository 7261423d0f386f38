import type { FitAlternative } from '../fitting/fitAnswer.ts';
import type { StockRange } from '../stock/stockSchema.ts';

/** A stock module made wider in place of a made-to-measure piece beside it. */
export interface Widening {
  /** Index of the module in the fit's pieces. */
  readonly piece: number;
  /** The width that it is made at, in mm. */
  readonly widthMm: number;
  /** On top of the module's own price. */
  readonly morePrice: number;
}

/** Neighbours are at most the joint allowance apart; a micrometre more for the rounding of millimetres. */
const touches = (oneMm: number, otherMm: number, jointMm: number): boolean =>
  Math.abs(oneMm - otherMm) <= jointMm + 0.001;

/**
 * The module beside a made-to-measure leftover that may be made wider to take it up, if the range allows as much; the
 * widest where both neighbours do. Null where there is none.
 */
export const wideningFor = (
  range: StockRange,
  alternative: FitAlternative,
  leftoverIndex: number,
  jointMm: number,
): Widening | null => {
  const leftover = alternative.leftovers[leftoverIndex];
  const { wideningMaxMm, wideningPrice } = range.madeToMeasure;
  if (leftover?.verdict !== 'made-to-measure' || leftover.widthMm > wideningMaxMm) return null;
  const items = new Map(range.items.map((item) => [item.id, item]));
  const [best] = alternative.pieces
    .map((piece, index) => ({ piece, index, item: items.get(piece.item) }))
    .filter(
      ({ piece, item }) =>
        item?.kind === 'module' &&
        piece.widenedMm === undefined &&
        item.support === 'standing' &&
        piece.straight === leftover.straight &&
        (touches(piece.toMm, leftover.fromMm, jointMm) || touches(piece.fromMm, leftover.toMm, jointMm)),
    )
    .sort(
      (one, other) =>
        other.piece.toMm - other.piece.fromMm - (one.piece.toMm - one.piece.fromMm) ||
        one.index - other.index,
    );
  if (!best) return null;
  const widthMm = best.piece.toMm - best.piece.fromMm + leftover.widthMm;
  return { piece: best.index, widthMm, morePrice: wideningPrice };
};

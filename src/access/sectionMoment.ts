import { otherTwo, sizeOf } from './handling.ts';
import type { TightestMoment } from './momentOutline.ts';
import { centredOutline, rectangleOutline } from './momentOutline.ts';
import type { PassingWay } from './passingWay.ts';
import type { AccessPiece } from './wayInSchema.ts';

/**
 * The opening seen along the way, and the piece's cross-section in it: standing on the floor in the middle, or tilted
 * about the middle of the opening. On a slope a piece that is carried level is drawn with its rise added to its
 * height, and one that is carried parallel to the slope in the clear height square to it.
 */
export const sectionMoment = (
  openWidthMm: number,
  openHeightMm: number,
  piece: AccessPiece,
  way: PassingWay,
  slopeDeg = 0,
): TightestMoment => {
  const slopeRad = (slopeDeg * Math.PI) / 180;
  const parallel = way.level !== true;
  const clearHeightMm = parallel ? openHeightMm * Math.cos(slopeRad) : openHeightMm;
  const clear = rectangleOutline(openWidthMm, clearHeightMm);
  const vertical = way.vertical;
  if (vertical === null) {
    const [first, second] = otherTwo(way.along ?? 'length');
    const centre = { x: openWidthMm / 2, y: clearHeightMm / 2 };
    const outline = centredOutline(centre, sizeOf(piece, first), sizeOf(piece, second), way.atRad ?? 0);
    return { views: [{ view: 'section', clear, piece: outline }] };
  }
  const [first, second] = otherTwo(vertical);
  // Under a bare height limit no direction of travel is given: the longer side is shown.
  const along = way.along ?? (sizeOf(piece, first) >= sizeOf(piece, second) ? second : first);
  const across = first === along ? second : first;
  const riseMm = parallel ? 0 : sizeOf(piece, along) * Math.tan(slopeRad);
  const acrossMm = sizeOf(piece, across);
  const outline = rectangleOutline(acrossMm, sizeOf(piece, vertical) + riseMm, {
    x: (openWidthMm - acrossMm) / 2,
    y: 0,
  });
  return { views: [{ view: 'section', clear, piece: outline }] };
};

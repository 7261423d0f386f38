import { DIMENSIONS, type Handling, otherTwo, sizeOf } from './handling.ts';
import { isPassing, type PassingWay } from './passingWay.ts';
import { longestTilted, tiltedFit } from './rectangleInRectangle.ts';
import { type AccessPiece, LONGEST_DESCRIBABLE_MM } from './wayInSchema.ts';

/**
 * Ways of taking a piece straight through an opening, along one of its own three axes.
 *
 * Its cross-section square to that axis must fit the opening: upright, on edge or on end, or at any tilt between two
 * positions that are both allowed. The margin is how much the opening's width and height could both shrink.
 * Passing an opening by turning the piece in it is not counted.
 */
export const sectionWays = (
  piece: AccessPiece,
  handling: Handling,
  openWidthMm: number,
  openHeightMm: number,
): readonly PassingWay[] => {
  const ways: PassingWay[] = [];
  for (const along of DIMENSIONS) {
    const [first, second] = otherTwo(along);
    for (const vertical of handling.verticals) {
      if (vertical === along) continue;
      const across = vertical === first ? second : first;
      const marginMm = Math.min(openWidthMm - sizeOf(piece, across), openHeightMm - sizeOf(piece, vertical));
      const longestMm =
        along === 'length'
          ? isPassing(marginMm)
            ? LONGEST_DESCRIBABLE_MM
            : 0
          : vertical === 'length'
            ? isPassing(openWidthMm - sizeOf(piece, across))
              ? openHeightMm
              : 0
            : isPassing(openHeightMm - sizeOf(piece, vertical))
              ? openWidthMm
              : 0;
      ways.push({ vertical, along, manner: 'straight', marginMm, longestMm });
    }
    if (!handling.verticals.includes(first) || !handling.verticals.includes(second)) continue;
    const fit = tiltedFit(openWidthMm, openHeightMm, sizeOf(piece, first), sizeOf(piece, second));
    const tilted = fit.tiltRad > 1e-9 && fit.tiltRad < Math.PI / 2 - 1e-9;
    const other = first === 'length' ? second : first;
    const longestMm =
      along === 'length'
        ? isPassing(fit.marginMm)
          ? LONGEST_DESCRIBABLE_MM
          : 0
        : longestTilted(openWidthMm, openHeightMm, sizeOf(piece, other));
    // A square position found by the tilted search is one of the ways above; only its reach is new.
    ways.push(
      tilted
        ? { vertical: null, along, manner: 'tilted', marginMm: fit.marginMm, longestMm, atRad: fit.tiltRad }
        : { vertical: null, along, manner: 'tilted', marginMm: Number.NEGATIVE_INFINITY, longestMm },
    );
  }
  return ways;
};

/**
 * Ways up or down a slope. A piece held parallel to the slope has the clear height square to it, which is the vertical
 * one times cos; a piece held level needs its own height and the rise along its length: h + l tan. A piece that must
 * stay upright is held level.
 */
export const slopeWays = (
  piece: AccessPiece,
  handling: Handling,
  openWidthMm: number,
  openHeightMm: number,
  slopeRad: number,
): readonly PassingWay[] => {
  if (slopeRad === 0) return sectionWays(piece, handling, openWidthMm, openHeightMm);
  const rise = Math.tan(slopeRad);
  const level: PassingWay[] = [];
  for (const vertical of handling.verticals) {
    for (const along of otherTwo(vertical)) {
      const across = otherTwo(along).find((dimension) => dimension !== vertical)!;
      const acrossSparedMm = openWidthMm - sizeOf(piece, across);
      const neededMm = sizeOf(piece, vertical) + sizeOf(piece, along) * rise;
      const longestMm =
        along === 'length'
          ? isPassing(acrossSparedMm)
            ? Math.max(0, (openHeightMm - sizeOf(piece, vertical)) / rise)
            : 0
          : across === 'length'
            ? isPassing(openHeightMm - neededMm)
              ? openWidthMm
              : 0
            : isPassing(acrossSparedMm)
              ? Math.max(0, openHeightMm - sizeOf(piece, along) * rise)
              : 0;
      level.push({
        vertical,
        along,
        level: true,
        manner: 'straight',
        marginMm: Math.min(acrossSparedMm, openHeightMm - neededMm),
        longestMm: Math.min(longestMm, LONGEST_DESCRIBABLE_MM),
      });
    }
  }
  if (piece.keepUpright === true) return level;
  return [...sectionWays(piece, handling, openWidthMm, openHeightMm * Math.cos(slopeRad)), ...level];
};

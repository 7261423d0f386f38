import { type Handling, otherTwo, sizeOf } from './handling.ts';
import { isPassing, type PassingWay } from './passingWay.ts';
import { longestTilted, tiltedFit } from './rectangleInRectangle.ts';
import type { AccessPiece } from './wayInSchema.ts';

/**
 * Ways of standing a piece on a floor of limited area, each allowed dimension vertical in turn, turned on the floor as
 * need be. The margin is the smaller of how much longer the standing rectangle could be and the clearance overhead.
 */
export const floorWays = (
  piece: AccessPiece,
  handling: Handling,
  floorWidthMm: number,
  floorDepthMm: number,
  heightMm: number,
): readonly PassingWay[] =>
  handling.verticals.map((vertical) => {
    const [first, second] = otherTwo(vertical);
    const firstMm = sizeOf(piece, first);
    const secondMm = sizeOf(piece, second);
    const longMm = Math.max(firstMm, secondMm);
    const shortMm = Math.min(firstMm, secondMm);
    const narrowMm = Math.min(floorWidthMm, floorDepthMm);
    const overheadMm = heightMm - sizeOf(piece, vertical);
    const onFloorMm =
      shortMm <= narrowMm ? longestTilted(floorWidthMm, floorDepthMm, shortMm) - longMm : narrowMm - shortMm;
    const fit = tiltedFit(floorWidthMm, floorDepthMm, firstMm, secondMm);
    const longestMm =
      vertical === 'length'
        ? isPassing(onFloorMm)
          ? heightMm
          : 0
        : isPassing(overheadMm)
          ? longestTilted(floorWidthMm, floorDepthMm, first === 'length' ? secondMm : firstMm)
          : 0;
    return {
      vertical,
      along: null,
      manner: fit.tiltRad > 1e-9 && fit.tiltRad < Math.PI / 2 - 1e-9 ? 'diagonal' : 'placed',
      marginMm: Math.min(onFloorMm, overheadMm),
      longestMm,
      atRad: fit.tiltRad,
    };
  });

import type { ScaleOfSheet } from '../../src/measure/scaleOfSheet.ts';
import type { ReadAnswer } from '../../src/scale/readContract.ts';

/** x and y ratios that differ by more than this are a stretched drawing. */
const leastStretch = 0.005;

/**
 * How much the scales along x and along y differ, relatively, where that is more than 0.5 %; else null. Picked
 * dimensions in both directions say it; else the sheet's own dimensions do.
 */
export const stretchOf = (
  scale: Pick<ScaleOfSheet, 'ratioX' | 'ratioY'> | null,
  read: Pick<ReadAnswer['scale'], 'ratioX' | 'ratioY'> | null,
): number | null => {
  const { ratioX, ratioY } = scale?.ratioX !== undefined ? scale : (read ?? {});
  if (ratioX === undefined || ratioY === undefined) return null;
  const stretch = Math.abs(ratioX / ratioY - 1);
  return stretch > leastStretch ? stretch : null;
};

import { paperMmPerUnit } from './paperLength.ts';
import { DEFAULT_PICK_UNCERTAINTY_PT } from './scaleFromReferences.ts';

/**
 * Expanded uncertainty (k = 2) of a length measured on the drawing, in mm.
 *
 * JCGM 100:2008 5.1.2 eq. (10): the variance is the scale's relative variance times the length squared, plus the
 * variance of both end picks carried into the room.
 *
 * @param scale the ratio and its relative uncertainty at k = 2.
 * @param pickUncertaintyPt standard uncertainty (k = 1) of each end pick, in user-space units.
 * @example lengthUncertaintyMm(6000, { ratio: 50, relativeUncertainty: 0.002 }, { pickUncertaintyPt: 0 }) // 12
 */
export const lengthUncertaintyMm = (
  lengthMm: number,
  scale: { readonly ratio: number; readonly relativeUncertainty: number },
  picks: { readonly userUnit?: number; readonly pickUncertaintyPt?: number } = {},
): number => {
  const { userUnit = 1, pickUncertaintyPt = DEFAULT_PICK_UNCERTAINTY_PT } = picks;
  const fromScale = (scale.relativeUncertainty / 2) * lengthMm;
  const pickMm = pickUncertaintyPt * paperMmPerUnit(userUnit) * scale.ratio;
  return 2 * Math.sqrt(fromScale ** 2 + 2 * pickMm ** 2);
};

import type { FitWedge } from '../fitting/fitAnswer.ts';

/**
 * What a wedge on an arc is called in lists, with its size in whole millimetres.
 *
 * @example 'Wedge on the arc, made to measure, 213 to 0, 19.9°'
 */
export const arcWedgeName = ({ frontMm, backMm, angleDeg }: FitWedge): string =>
  `Wedge on the arc, made to measure, ${Math.round(frontMm)} at the front to ${Math.round(backMm)} at the back, ${angleDeg.toFixed(1)}°`;

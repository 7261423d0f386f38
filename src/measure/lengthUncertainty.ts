import { mmPerUserUnit, type SheetScale } from './tracedRun.ts';

/** The coverage factor of every +/- that this app shows. */
export const COVERAGE_FACTOR = 2;

/**
 * Standard uncertainty (k = 1), along one axis, of a pick in millimetres of the room. A point of 1/72 in is one user
 * unit divided by UserUnit.
 */
export const pickUncertaintyMm = (pickUncertaintyPt: number, scale: SheetScale): number =>
  (pickUncertaintyPt * mmPerUserUnit(scale)) / scale.userUnit;

/**
 * The +/- (k = 2) of a length measured on the sheet: its variance is the scale's relative variance times the length
 * squared, plus the variance of the picks (JCGM 100:2008, 5.1.2, eq. (10): the sensitivity to the scale is the length,
 * to each end pick 1). `pickCount` is the number of independent picks that move the length one to one, as a rule two.
 *
 * @example lengthPlusMinusMm(3600, 0.5, { ratio: 50, relativeUncertainty: 0.005, userUnit: 1 }) // 30.8
 */
export function lengthPlusMinusMm(
  lengthMm: number,
  pickUncertaintyPt: number,
  scale: SheetScale,
  pickCount = 2,
): number {
  const scaleMm = (scale.relativeUncertainty / COVERAGE_FACTOR) * lengthMm;
  const pickMm = pickUncertaintyMm(pickUncertaintyPt, scale);
  return COVERAGE_FACTOR * Math.sqrt(scaleMm ** 2 + pickCount * pickMm ** 2);
}

/**
 * The relative uncertainty (k = 2) of a scale taken from one known length between two picks (JCGM 100:2008, 5.1.6: in a
 * quotient relative variances add; the known length counts as exact).
 *
 * @example twoPickRelativeUncertainty(283.46, 0.5) / 2 // 0.00249: 0.249 % at k = 1
 */
export function twoPickRelativeUncertainty(pickedLengthPt: number, pickUncertaintyPt: number): number {
  if (!(pickedLengthPt > 0)) throw new RangeError(`Two picks must lie apart, found ${pickedLengthPt} pt`);
  return (COVERAGE_FACTOR * Math.SQRT2 * pickUncertaintyPt) / pickedLengthPt;
}

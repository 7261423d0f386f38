/**
 * Standard uncertainty (k = 1) of a pick along either axis, in points of 1/72 in on the paper.
 *
 * A pick caught by the drawing is as sure as the drawn line: its place may be anywhere across a thin line of 0.18 mm (a
 * width of ISO 128), so half of that over the square root of 3 (JCGM 100:2008, 4.3.7). A free pick adds the hand: a pixel
 * to either side, likewise over the square root of 3.
 */
export const caughtUncertaintyPt = (0.09 / Math.sqrt(3)) * (72 / 25.4);

const handPx = 1 / Math.sqrt(3);

/**
 * The uncertainty of a free pick, in points.
 *
 * @param pxPerUnit CSS pixels in one user-space unit at the present zoom
 */
export const freeUncertaintyPt = (pxPerUnit: number, userUnit: number): number =>
  Math.hypot(caughtUncertaintyPt, (handPx / pxPerUnit) * userUnit);

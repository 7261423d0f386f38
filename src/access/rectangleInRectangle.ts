/**
 * A rectangle in a rectangle, tilted if need be.
 *
 * Source: W. B. Carver, Amer. Math. Monthly 64 (1957) 114-116, as restated by J. E. Wetzel, "Rectangles in
 * rectangles", Math. Mag. 73(3) (2000) 204-211: a p x q rectangle (p >= q) fits in an a x b one (a >= b) exactly when
 * p <= a and q <= b, or p > a, q <= b and ((a + b)/(p + q))^2 + ((a - b)/(p - q))^2 >= 2.
 */

/** How a rectangle lies in an opening: turned by `tiltRad` from the opening's first side. */
export interface RectangleFit {
  /** By how much both sides of the opening could shrink (negative: must grow), in mm. */
  readonly marginMm: number;
  /** Angle from the opening's first side to the rectangle's first side, 0 to pi/2. */
  readonly tiltRad: number;
}

/** Clearance of a rectangle that stays square to the opening: `widthMm` along `openWidthMm`. */
export const squareFit = (
  openWidthMm: number,
  openHeightMm: number,
  widthMm: number,
  heightMm: number,
): RectangleFit => ({ marginMm: Math.min(openWidthMm - widthMm, openHeightMm - heightMm), tiltRad: 0 });

/**
 * The best clearance over every tilt. Where the tilted rectangle is the better one, the criterion with both sides of
 * the opening reduced by m is linear in m, since a - b does not change: m = (a + b - (p + q) s) / 2, with
 * s^2 = 2 - ((a - b)/(p - q))^2.
 *
 * @example tiltedFit(800, 2000, 600, 900).marginMm // 200
 */
export const tiltedFit = (
  openWidthMm: number,
  openHeightMm: number,
  widthMm: number,
  heightMm: number,
): RectangleFit => {
  const upright = squareFit(openWidthMm, openHeightMm, widthMm, heightMm);
  const laid = squareFit(openWidthMm, openHeightMm, heightMm, widthMm);
  const square = upright.marginMm >= laid.marginMm ? upright : { ...laid, tiltRad: Math.PI / 2 };
  const a = Math.max(openWidthMm, openHeightMm);
  const b = Math.min(openWidthMm, openHeightMm);
  const p = Math.max(widthMm, heightMm);
  const q = Math.min(widthMm, heightMm);
  const spread = p > q ? (a - b) / (p - q) : Number.POSITIVE_INFINITY;
  if (spread * spread > 2) return square;
  const tiltedMm = Math.min((a + b - (p + q) * Math.sqrt(2 - spread * spread)) / 2, b - q);
  if (tiltedMm <= square.marginMm) return square;
  const fromLongSideRad = contactTiltRad(a - tiltedMm, b - tiltedMm, p, q);
  const longIsFirst = widthMm >= heightMm === openWidthMm >= openHeightMm;
  return { marginMm: tiltedMm, tiltRad: longIsFirst ? fromLongSideRad : Math.PI / 2 - fromLongSideRad };
};

/**
 * Tilt of the p x q rectangle whose corners touch all four sides of a x b. From p cos t + q sin t = a and
 * p sin t + q cos t = b: cos t - sin t = (a - b)/(p - q), and the sum is (a + b)/(p + q).
 */
const contactTiltRad = (a: number, b: number, p: number, q: number): number => {
  const sum = (a + b) / (p + q);
  const difference = (a - b) / (p - q);
  return Math.atan2(Math.max(0, sum - difference), sum + difference);
};

/**
 * The longest rectangle of a given other side that lies in the opening, at any tilt. 0 where that side alone is too
 * much for it. The criterion falls as p grows, so halving the interval converges on its only root.
 *
 * @example longestTilted(1400, 1600, 500) // 1637.87…
 */
export const longestTilted = (openWidthMm: number, openHeightMm: number, otherMm: number): number => {
  const a = Math.max(openWidthMm, openHeightMm);
  const b = Math.min(openWidthMm, openHeightMm);
  if (otherMm > a) return shorterTilted(a, b, otherMm);
  if (otherMm > b) return b;
  let low = a;
  let high = Math.hypot(a, b);
  const fits = (p: number): boolean =>
    ((a + b) / (p + otherMm)) ** 2 + ((a - b) / (p - otherMm)) ** 2 >= 2 && p > otherMm;
  // At p = a the rectangle fits squarely, so where the criterion fails at once, no tilt gains anything.
  for (let step = 0; step < 60 && high - low > 1e-10 * high; step += 1) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  return low;
};

/** The largest short side with which a rectangle longer than the opening (`longMm` > a) still fits tilted. */
const shorterTilted = (a: number, b: number, longMm: number): number => {
  if (longMm > Math.hypot(a, b)) return 0;
  let low = 0;
  let high = b;
  for (let step = 0; step < 60 && high - low > 1e-10 * a; step += 1) {
    const middle = (low + high) / 2;
    const fits = ((a + b) / (longMm + middle)) ** 2 + ((a - b) / (longMm - middle)) ** 2 >= 2;
    if (fits) low = middle;
    else high = middle;
  }
  return low;
};

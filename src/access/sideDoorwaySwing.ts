/** A doorway in the side wall of a straight passage, as clear dimensions in mm. */
export interface SideDoorwayPlan {
  readonly passageMm: number;
  readonly doorMm: number;
  readonly wallMm: number;
}

export interface SideDoorwaySwing {
  readonly longestMm: number;
  /** Angle between the piece and the passage at the tightest moment, 0 to pi/2. */
  readonly atRad: number;
}

/**
 * Longest rectangle of width w that is swung from a passage of width c through a doorway of width d in its side, in a
 * wall of thickness e, into an open room. The passage goes on past the doorway.
 *
 * At the angle t to the passage, the piece's inner side bears on the near jamb and its tail on the far wall.
 * - Once d sin t - e cos t >= w it clears both jambs along its own axis and simply moves on: call that angle t*.
 * - Before, while w <= d sin t, its leading lower vertex must come inside the far jamb, the condition of a turn from c
 *   into d: l <= (c - w cos t)/sin t + (d - w sin t)/cos t.
 * - Before that, with w > d sin t, its leading short side bears on the edge of the far jamb instead:
 *   l <= (c - w cos t)/sin t + d cos t = (c - w)/sin t + N, with N = w tan(t/2) + d cos t. The first part falls with t.
 *   N is d both at t = 0 and at sin t = w/d, rises at first and falls at the end, and its slope changes sign as w does
 *   against d sin t (1 + cos t), which rises and then falls: so N is nowhere below d between. The least of this limit
 *   is the one at sin t = w/d, where the second limit takes over.
 *
 * So the longest piece is the least of the second limit over sin t >= w/d, t <= t*. (Derived here; the tests hold it
 * against a polygon sweep and against a search of positions and angles.)
 */
export const sideDoorwaySwing = (plan: SideDoorwayPlan, widthMm: number): SideDoorwaySwing => {
  const { passageMm: c, doorMm: d, wallMm } = plan;
  const w = widthMm;
  if (w > Math.min(c, d)) return { longestMm: 0, atRad: 0 };
  const clearRad = clearAngle(d, wallMm, w);
  const edgeRad = Math.min(Math.asin(Math.min(1, w / d)), clearRad);
  // The sum is convex (see turnSwing): its slope changes sign at most once, and where it does not, an end is least.
  const atRad = signChange(
    edgeRad,
    clearRad,
    (t) => (w - c * Math.cos(t)) / Math.sin(t) ** 2 - (w - d * Math.sin(t)) / Math.cos(t) ** 2,
  );
  return { longestMm: tailTerm(c, w, atRad) + tailTerm(d, w, Math.PI / 2 - atRad), atRad };
};

/** The angle from which a piece of width w clears both jambs: d sin t - e cos t = w. */
const clearAngle = (d: number, wallMm: number, w: number): number =>
  Math.min(Math.PI / 2, Math.atan2(wallMm, d) + Math.asin(Math.min(1, w / Math.hypot(d, wallMm))));

/** (c - w cos t)/sin t, finite at t = 0 where w = c. */
const tailTerm = (c: number, w: number, t: number): number =>
  c === w ? w * Math.tan(t / 2) : (c - w * Math.cos(t)) / Math.sin(t);

/** The angle at which a rising slope turns positive; an end of the interval where it does not. */
const signChange = (fromRad: number, toRad: number, slopeAt: (t: number) => number): number => {
  let low = fromRad;
  let high = toRad;
  for (let step = 0; step < 60 && high - low > 1e-12; step += 1) {
    const t = (low + high) / 2;
    if (slopeAt(t) < 0) low = t;
    else high = t;
  }
  return high;
};

/**
 * Longest rectangle that goes through without swinging: across the passage and straight in (l <= c, w <= d), or
 * broadside (l <= d, w <= c). Held at one angle between t* and a right angle it could be (c - w cos t)/sin t long, but
 * that is largest at one of the two ends: at the right angle it is c, and at t*, where it falls, a swing does better.
 */
export const sideDoorwaySlide = (plan: SideDoorwayPlan, widthMm: number): SideDoorwaySwing => {
  const { passageMm: c, doorMm: d } = plan;
  if (widthMm > Math.min(c, d)) return { longestMm: 0, atRad: 0 };
  return c >= d ? { longestMm: c, atRad: Math.PI / 2 } : { longestMm: d, atRad: 0 };
};

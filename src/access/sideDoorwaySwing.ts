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
 *   l <= (c - w cos t)/sin t + d cos t.
 * The longest piece is the least of these over (0, t*). (Derived here; the tests hold it against an independent search
 * of positions and angles.)
 */
export const sideDoorwaySwing = (plan: SideDoorwayPlan, widthMm: number): SideDoorwaySwing => {
  const { passageMm: c, doorMm: d, wallMm } = plan;
  const w = widthMm;
  if (w > Math.min(c, d)) return { longestMm: 0, atRad: 0 };
  const clearRad = Math.min(
    Math.PI / 2,
    Math.atan2(wallMm, d) + Math.asin(Math.min(1, w / Math.hypot(d, wallMm))),
  );
  const edgeRad = Math.min(Math.asin(Math.min(1, w / d)), clearRad);
  const lengthAt = (t: number): number =>
    tailTerm(c, w, t) + (t < edgeRad ? d * Math.cos(t) : headTerm(d, w, t));
  let best: SideDoorwaySwing = { longestMm: Number.POSITIVE_INFINITY, atRad: 0 };
  const consider = (t: number): void => {
    const longestMm = lengthAt(t);
    if (longestMm < best.longestMm) best = { longestMm, atRad: t };
  };
  for (const t of edgeMinima(c, d, w, edgeRad)) consider(t);
  consider(edgeRad);
  consider(clearRad);
  // Between the two angles the sum is convex (see turnSwing), so its slope changes sign at most once.
  if (clearRad > edgeRad) {
    consider(
      signChange(
        edgeRad,
        clearRad,
        (t) => (w - c * Math.cos(t)) / Math.sin(t) ** 2 - (w - d * Math.sin(t)) / Math.cos(t) ** 2,
      ),
    );
  }
  return best;
};

/** (c - w cos t)/sin t, finite at t = 0 where w = c. */
const tailTerm = (c: number, w: number, t: number): number =>
  c === w ? w * Math.tan(t / 2) : (c - w * Math.cos(t)) / Math.sin(t);

/** (d - w sin t)/cos t, finite at t = pi/2 where w = d. */
const headTerm = (d: number, w: number, t: number): number => tailTerm(d, w, Math.PI / 2 - t);

/**
 * Where (c - w cos t)/sin t + d cos t can be least on (0, edge]. Its slope times sin^2 t is w - c cos t - d sin^3 t,
 * whose own slope sin t (c - 1.5 d sin 2t) changes sign only where sin 2t = 2c/(3d); between those angles each sign
 * change is found by halving.
 */
const edgeMinima = (c: number, d: number, w: number, edgeRad: number): readonly number[] => {
  const slopeAt = (t: number): number => w - c * Math.cos(t) - d * Math.sin(t) ** 3;
  const ratio = (2 * c) / (3 * d);
  const turningRad = ratio < 1 ? Math.asin(ratio) / 2 : 0;
  const breaks = [0, ...(ratio < 1 ? [turningRad, Math.PI / 2 - turningRad] : []), edgeRad].filter(
    (t) => t <= edgeRad,
  );
  const minima: number[] = [];
  for (let part = 0; part + 1 < breaks.length; part += 1) {
    const fromRad = breaks[part]!;
    const toRad = breaks[part + 1]!;
    if (slopeAt(fromRad) < 0 && slopeAt(toRad) >= 0) minima.push(signChange(fromRad, toRad, slopeAt));
  }
  return minima;
};

/** The angle at which a slope that is negative at first turns positive. */
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
 * Longest rectangle that goes through without swinging: across the passage and straight in (l <= c, w <= d), broadside
 * (l <= d, w <= c), or held at one angle at which it fits the passage and clears both jambs.
 */
export const sideDoorwaySlide = (plan: SideDoorwayPlan, widthMm: number): SideDoorwaySwing => {
  const { passageMm: c, doorMm: d, wallMm } = plan;
  if (widthMm > Math.min(c, d)) return { longestMm: 0, atRad: 0 };
  const clearRad = Math.min(
    Math.PI / 2,
    Math.atan2(wallMm, d) + Math.asin(Math.min(1, widthMm / Math.hypot(d, wallMm))),
  );
  const ways: SideDoorwaySwing[] = [
    { longestMm: c, atRad: Math.PI / 2 },
    { longestMm: d, atRad: 0 },
    // (c - w cos t)/sin t falls and then rises, so over [t*, pi/2] it is largest at one of the two ends.
    { longestMm: tailTerm(c, widthMm, clearRad), atRad: clearRad },
  ];
  return ways.reduce((best, way) => (way.longestMm > best.longestMm ? way : best));
};

import { type AngleInterval, maximumOver } from './branchAndBound.ts';

/** Two passages that meet at an angle, as clear widths in mm; `turnRad` is how far the direction of travel changes. */
export interface TurnPlan {
  readonly fromMm: number;
  readonly toMm: number;
  readonly turnRad: number;
}

/** The longest piece that can be swung round a corner, and the angle to the first outer wall at which it is tightest. */
export interface TurnSwing {
  readonly longestMm: number;
  readonly atRad: number;
}

/**
 * Longest rectangle of width w that is swung round a corner, both ends of its outer side on the outer walls.
 *
 * With the side at the angle t to the first outer wall and the corner turned by f, the inner corner lies
 * (a sin(f - t) + b sin t)/sin f beyond the outer corner, square to the side, and the side itself
 * l sin t sin(f - t)/sin f. The rest must hold w, which for every t in (0, f) gives
 * l <= (a - w cos t)/sin t + (b - w cos(f - t))/sin(f - t); at f = 90 degrees this is DESIGN section 5's
 * (a sin t + b cos t - w)/(sin t cos t). Beyond a right angle between side and wall the piece touches with its inner
 * vertex instead, and the term becomes a/sin t.
 *
 * Each term is convex where w is at most a (its second derivative has the sign of a(1 + cos^2 t) - 2 w cos t), so up
 * to 90 degrees the sum has one minimum and the sign change of its slope is halved down to it. Past 90 degrees the
 * slope drops where the touching vertex changes, so each of the three smooth parts is searched.
 */
export const turnSwing = (plan: TurnPlan, widthMm: number): TurnSwing => {
  const { fromMm, toMm, turnRad } = plan;
  if (widthMm > Math.min(fromMm, toMm)) return { longestMm: 0, atRad: 0 };
  return leastOver(plan, widthMm, swingParts(turnRad));
};

/**
 * Longest rectangle of width w, past a right angle, that lies across one of the passages (l at most its width) and is
 * swung only by what is left of the turn: from across the first one, by f - 90 degrees, or into across the second.
 * Up to a right angle a slide does as well.
 */
export const turnFromAcross = (plan: TurnPlan, widthMm: number): TurnSwing => {
  const { fromMm, toMm, turnRad } = plan;
  const [first, , last] = swingParts(turnRad);
  if (!first || !last || widthMm > Math.min(fromMm, toMm)) return { longestMm: 0, atRad: 0 };
  const out = leastOver(plan, widthMm, [last]);
  const into = leastOver(plan, widthMm, [first]);
  const ways = [
    { ...out, longestMm: Math.min(fromMm, out.longestMm) },
    { ...into, longestMm: Math.min(toMm, into.longestMm) },
  ] as const;
  return ways[0].longestMm >= ways[1].longestMm ? ways[0] : ways[1];
};

/** The smooth parts of a swing by the angle given. */
const swingParts = (turnRad: number): readonly AngleInterval[] => {
  const rightRad = Math.PI / 2;
  return turnRad > rightRad
    ? [
        { fromRad: 0, toRad: turnRad - rightRad },
        { fromRad: turnRad - rightRad, toRad: rightRad },
        { fromRad: rightRad, toRad: turnRad },
      ]
    : [{ fromRad: 0, toRad: turnRad }];
};

/** The least length over parts of a swing, in each of which the slope changes sign at most once, from falling. */
const leastOver = (
  { fromMm, toMm, turnRad }: TurnPlan,
  widthMm: number,
  parts: readonly AngleInterval[],
): TurnSwing => {
  const rightRad = Math.PI / 2;
  const lengthAt = (t: number): number =>
    swingTerm(fromMm, widthMm, t) + swingTerm(toMm, widthMm, turnRad - t);
  let best: TurnSwing = { longestMm: Number.POSITIVE_INFINITY, atRad: 0 };
  for (const { fromRad, toRad } of parts) {
    const middleRad = (fromRad + toRad) / 2;
    // The form of each term is fixed by the part, so that a bracket's end never borrows its neighbour's slope.
    const firstInner = middleRad > rightRad;
    const secondInner = turnRad - middleRad > rightRad;
    const slopeAt = (t: number): number =>
      swingSlope(fromMm, widthMm, t, firstInner) - swingSlope(toMm, widthMm, turnRad - t, secondInner);
    let low = fromRad;
    let high = toRad;
    for (let step = 0; step < 60 && high - low > 1e-12; step += 1) {
      const t = (low + high) / 2;
      if (slopeAt(t) < 0) low = t;
      else high = t;
    }
    for (const t of [low, high]) {
      const longestMm = lengthAt(t);
      if (longestMm < best.longestMm) best = { longestMm, atRad: t };
    }
  }
  return best;
};

/** (a - w cos t)/sin t, or a/sin t past a right angle. Written so that a = w stays finite as t goes to 0. */
const swingTerm = (passageMm: number, widthMm: number, t: number): number => {
  if (t > Math.PI / 2) return passageMm / Math.sin(t);
  const sparedMm = passageMm - widthMm;
  const slideMm = widthMm * Math.tan(t / 2);
  return sparedMm === 0 ? slideMm : sparedMm / Math.sin(t) + slideMm;
};

const swingSlope = (passageMm: number, widthMm: number, t: number, inner: boolean): number => {
  const sine = Math.sin(t);
  const cosine = Math.cos(t);
  if (inner) return (-passageMm * cosine) / (sine * sine);
  // (w - a cos t)/sin^2 t, split as above: (w - a)cos t/sin^2 t + w/(1 + cos t).
  const sparedMm = passageMm - widthMm;
  return widthMm / (1 + cosine) - (sparedMm === 0 ? 0 : (sparedMm * cosine) / (sine * sine));
};

/**
 * Longest rectangle that a leg of limited length lets swing. Snug in the outer corner at the angle t, it reaches
 * l cos t + (w - l cot f) sin t along the leg; the largest of that over the swing must not exceed the leg, which is
 * measured along its outer wall from the outer corner. At a right angle this is the diagonal: l^2 + w^2 <= leg^2.
 */
export const shortLegLimit = (legMm: number, widthMm: number, turnRad: number): number => {
  if (widthMm > legMm) return 0;
  const cotangent = Math.cos(turnRad) / Math.sin(turnRad);
  const reachMm = (l: number): number => {
    const across = widthMm - l * cotangent;
    const peakRad = Math.atan2(across, l);
    if (peakRad <= 0) return l;
    const t = Math.min(peakRad, turnRad, Math.PI / 2);
    return l * Math.cos(t) + across * Math.sin(t);
  };
  let low = 0;
  let high = legMm;
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2;
    if (reachMm(middle) <= legMm) low = middle;
    else high = middle;
  }
  return reachMm(legMm) <= legMm ? legMm : low;
};

/** The longest rectangle that goes from one passage into the other without turning, and its angle to the first. */
export interface TurnSlide {
  readonly longestMm: number;
  readonly atRad: number;
}

/**
 * Longest rectangle of width w that is slid across: one fixed angle at which it fits the strip of both passages.
 * At the angle t to a passage of width c it fits while l |sin t| + w |cos t| <= c. At a right angle the result is
 * l <= a, w <= b or l <= b, w <= a, or a tilted position of the two. Past a right angle only angles between those of
 * the two passages count: at the others the piece would lie in the depth of the outer corner (see turnPlan).
 *
 * Each limit only falls and then rises between the right angles of its passage, so on an interval free of them it is
 * at most the larger of its two ends: that is the bound.
 *
 * @param knownMm a length that passes anyway: shorter slides are of no interest, and may be missed
 */
export const turnSlide = (
  plan: TurnPlan,
  widthMm: number,
  fromLegMm = Number.POSITIVE_INFINITY,
  toLegMm = Number.POSITIVE_INFINITY,
  knownMm = 0,
): TurnSlide => {
  const { fromMm, toMm, turnRad } = plan;
  if (widthMm > Math.min(fromMm, toMm)) return { longestMm: 0, atRad: 0 };
  const rightRad = Math.PI / 2;
  const limits = [
    (t: number) => stripLimit(fromMm, widthMm, t),
    (t: number) => stripLimit(toMm, widthMm, t - turnRad),
    (t: number) => stripLimit(fromLegMm, widthMm, t + rightRad),
    (t: number) => stripLimit(toLegMm, widthMm, t - turnRad + rightRad),
  ];
  const endRad = turnRad > rightRad + 1e-9 ? turnRad : Math.PI;
  const corners = [0, rightRad, endRad, turnRad, (turnRad + rightRad) % Math.PI]
    .filter((t) => t <= endRad)
    .sort((x, y) => x - y);
  const intervals = corners
    .slice(1)
    .map((toRad, index) => ({ fromRad: corners[index]!, toRad }))
    .filter(({ fromRad, toRad }) => toRad > fromRad);
  const found = maximumOver(
    intervals,
    (t) => Math.min(...limits.map((limit) => limit(t))),
    (fromRad, toRad) => Math.min(...limits.map((limit) => Math.max(limit(fromRad), limit(toRad)))),
    { toleranceMm: 1e-6, knownMm },
  );
  return { longestMm: Math.max(0, found.valueMm), atRad: found.atRad };
};

/** The longest rectangle of width w at the angle t to a strip of clear width c; negative where w alone is too much. */
const stripLimit = (stripMm: number, widthMm: number, t: number): number => {
  if (stripMm === Number.POSITIVE_INFINITY) return stripMm;
  const sine = Math.abs(Math.sin(t));
  const sparedMm = stripMm - widthMm * Math.abs(Math.cos(t));
  // Along the strip to rounding: nothing limits the length, as long as the width fits.
  if (sine < 1e-12) return sparedMm >= -1e-9 ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
  return sparedMm / sine;
};

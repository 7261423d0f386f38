import type { TurnPlan } from './turnSwing.ts';

/**
 * Upper bound of what gets round a turn past a right angle when it is backed into the outer corner and drawn out the
 * other way, on an outer corner as deep as two straight walls make it. Together with the swing, the slide and the swing
 * from across it is all there is on such a corner (see `turnPlan`); a corner that is filled or rounded lets by less.
 *
 * Backed in at the angle u to the first outer wall (0 to v, v being 180 degrees less the turn), the piece's short side
 * closes off the outer corner, its two ends on the two walls. It clears the inner corner while
 * l <= (a cos(v - u) + b cos u - w cos u cos(v - u))/sin v, or while it still lies wholly in one of the passages:
 * l sin u + w cos u <= a, or the same with v - u and b. The least over u of the largest of the three is the bound; it is
 * read at 721 angles, so it is never too small.
 *
 * @returns mm; 0 up to a right angle, where backing in gains nothing.
 */
export const turnBackedIn = ({ fromMm, toMm, turnRad }: TurnPlan, widthMm: number): number => {
  if (turnRad <= Math.PI / 2 || widthMm > Math.min(fromMm, toMm)) return 0;
  const openRad = Math.PI - turnRad;
  let leastMm = Number.POSITIVE_INFINITY;
  for (let step = 0; step <= STEPS; step += 1) {
    const u = (openRad * step) / STEPS;
    const first = Math.cos(openRad - u);
    const second = Math.cos(u);
    const pastCornerMm = (fromMm * first + toMm * second - widthMm * first * second) / Math.sin(openRad);
    leastMm = Math.min(
      leastMm,
      Math.max(pastCornerMm, inPassage(fromMm, widthMm, u), inPassage(toMm, widthMm, openRad - u)),
    );
  }
  return leastMm;
};

const STEPS = 720;

const inPassage = (passageMm: number, widthMm: number, u: number): number =>
  u < 1e-12 ? Number.POSITIVE_INFINITY : (passageMm - widthMm * Math.cos(u)) / Math.sin(u);

import { signedTurnRad } from '../../../src/geometry/turn.ts';
import { vectorBetween } from '../../../src/geometry/vector.ts';
import { caughtUncertaintyPt } from '../../snapping/pickUncertainty.ts';
import type { Pick } from '../pick.ts';

/** Beyond this the lines at a corner say next to nothing about where along them it lies, and the hand decides. */
const mostFactor = 3;

/**
 * How much less sure a corner is along its lines than each of the lines is across. Two lines that cross at an angle t,
 * each out by u across, put their crossing out along either of them by u sqrt(1 + cos^2 t) / sin t (JCGM 100:2008, 5.1.2
 * eq. (10), for the crossing's place as a function of both): u at a right angle, 1.7 u at 45 degrees.
 */
const cornerFactor = (turnRad: number): number => {
  const sine = Math.abs(Math.sin(turnRad));
  return sine === 0 ? mostFactor : Math.min(mostFactor, Math.hypot(1, Math.cos(turnRad)) / sine);
};

/**
 * The standard uncertainty (k = 1) of the picks of a front line, in points: of the least sure of them, where corners
 * count with what the drawn lines' own width does to their crossing.
 */
export const traceUncertaintyPt = (
  points: readonly Pick[],
  bends: readonly (Pick | undefined)[] = [],
): number => {
  const onArcs = bends.reduce((worst, through) => Math.max(worst, through?.uncertaintyPt ?? 0), 0);
  return points.reduce((worst, { at, uncertaintyPt }, index) => {
    const before = points[index - 1]?.at;
    const after = points[index + 1]?.at;
    // Where an arc begins or ends no two lines cross.
    const isCorner = bends[index - 1] === undefined && bends[index] === undefined;
    const factor =
      before && after && isCorner
        ? cornerFactor(signedTurnRad(vectorBetween(before, at), vectorBetween(at, after)))
        : 1;
    return Math.max(worst, Math.hypot(uncertaintyPt, caughtUncertaintyPt * Math.sqrt(factor ** 2 - 1)));
  }, onArcs);
};

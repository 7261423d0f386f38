import type { PaperPoint } from '../geometry/point.ts';
import { signedTurnRad } from '../geometry/turn.ts';
import { distanceBetween } from '../geometry/vector.ts';
import { degreesOf } from '../units/angle.ts';
import { pickVariance } from './pickVariance.ts';
import { arrivingDirection, bendOf, leavingDirection, type RunPath } from './runPath.ts';
import {
  backSign,
  pickUncertaintyUnits,
  straightCountOf,
  straightLineOf,
  type TracedRun,
} from './tracedRun.ts';

/** A corner within this many degrees of 90 counts as a right angle. */
export const RIGHT_ANGLE_TOLERANCE_DEG = 0.5;

/** The corner between straight `index` and straight `index + 1` of a run. */
export interface MeasuredCorner {
  readonly index: number;
  readonly atPaper: PaperPoint;
  /** How far the front turns: positive where the front is on the outside of the corner. More than -180, up to 180. */
  readonly turnDeg: number;
  /** The angle between the two straights, from 0 to 180: 180 - |turn|. */
  readonly innerAngleDeg: number;
  /** The +/- of both at k = 2, from the picks alone: the scale of a sheet does not bend its angles. */
  readonly plusMinusDeg: number;
  readonly isRightAngle: boolean;
  /**
   * Whether an arc goes on here from its neighbour without a turn, as far as the picks can tell: then there is no corner
   * to make, only a joint.
   */
  readonly isTangent: boolean;
}

/** A turn up to this, where an arc begins or ends, is none. */
export const TANGENT_TOLERANCE_DEG = 0.5;

/** Beyond this a turn is a turn, however unsure it is: a wedge of it is more than a joint takes up. */
const mostTangentTurnDeg = 2;

/** Whether a corner is a right angle for the choice of its treatment. */
export const isRightAngledTurn = (turnDeg: number): boolean =>
  // The last bits of an arc tangent must not decide the boundary case.
  Math.abs(Math.abs(turnDeg) - 90) <= RIGHT_ANGLE_TOLERANCE_DEG + 1e-9;

const turnAt = (path: RunPath, index: number): number =>
  signedTurnRad(arrivingDirection(path, index), leavingDirection(path, index + 1));

const wayOf = (rad: number) => ({ x: Math.cos(rad), y: Math.sin(rad) });

/** Variance of a turn at which an arc begins or ends, from the picks of both straights. */
const bentTurnVariance = (run: TracedRun, index: number, pickUnits: number): number => {
  const own = run.frontLine.slice(index, index + 3);
  const bent = [0, 1].filter((part) => bendOf(run, index + part) !== undefined);
  const picks = [...own, ...bent.map((part) => run.bends![index + part]!)];
  const turn = turnAt(run, index);
  return pickVariance(picks, pickUnits, (points) => {
    const bends = [0, 1].map((part) => (bent.includes(part) ? points[3 + bent.indexOf(part)] : undefined));
    const moved = turnAt({ frontLine: points.slice(0, 3), bends }, 0);
    // Not round the other way where the turn is near a reversal.
    return turn + signedTurnRad(wayOf(turn), wayOf(moved));
  });
};

/**
 * The corners of a run, one fewer than its straights. With the back on the left, a walker along the front who turns
 * left turns towards the back, so that the front is on the outside: turn > 0.
 *
 * The +/- follows from turn = direction after - direction before, each of which moves by (normal . pick error) / length
 * at its two ends; the corner point takes part in both (JCGM 100:2008, 5.1.2, eq. (10)). Where an arc meets the corner its
 * tangent is the direction, and the +/- is worked out from how the turn changes with each pick. `userUnit` is the page's: it turns the picks' points into user-space units.
 */
export function cornersOf(run: TracedRun, userUnit = 1): readonly MeasuredCorner[] {
  const pickUnits = pickUncertaintyUnits(run, userUnit);
  return Array.from({ length: Math.max(0, straightCountOf(run) - 1) }, (_, index) => {
    const before = straightLineOf(run, index);
    const after = straightLineOf(run, index + 1);
    const isBent = bendOf(run, index) !== undefined || bendOf(run, index + 1) !== undefined;
    const turnRad = turnAt(run, index);
    const turnDeg = turnRad === Math.PI ? 180 : degreesOf(turnRad) * backSign(run);
    const perBefore = 1 / distanceBetween(before.start, before.end);
    const perAfter = 1 / distanceBetween(after.start, after.end);
    const variance =
      pickUnits ** 2 * 2 * (perBefore ** 2 + perAfter ** 2 + Math.cos(turnRad) * perBefore * perAfter);
    // Beyond 180 degrees the linear estimate has lost its meaning: nothing is known of the angle.
    const plusMinusDeg = Math.min(
      180,
      degreesOf(2 * Math.sqrt(isBent ? bentTurnVariance(run, index, pickUnits) : variance)) || 0,
    );
    return {
      index,
      atPaper: run.frontLine[index + 1]!,
      turnDeg: turnDeg === 0 ? 0 : turnDeg,
      innerAngleDeg: 180 - Math.abs(turnDeg),
      plusMinusDeg,
      isRightAngle: isRightAngledTurn(turnDeg),
      isTangent:
        isBent &&
        Math.abs(turnDeg) <= Math.max(TANGENT_TOLERANCE_DEG, Math.min(plusMinusDeg, mostTangentTurnDeg)),
    };
  });
}

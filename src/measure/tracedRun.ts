import type { PaperPoint, Point } from '../geometry/point.ts';
import { leftOf, scaledBy, unitVector, type Vector, vectorBetween } from '../geometry/vector.ts';
import { paperMmPerUnit } from '../scale/paperLength.ts';
import { DEFAULT_PICK_UNCERTAINTY_PT } from '../scale/scaleFromReferences.ts';
import { middleAlong, placeAlong, type RunPath } from './runPath.ts';

/**
 * The side of the front line on which the back line lies, for someone who walks the front line from its first to its
 * last point. PDF user space has y up: walking along +x, `left` is towards +y.
 */
export type BackSide = 'left' | 'right';

/**
 * One run as traced on a sheet. Its front line is the customer face: at least two points; at every point but the first
 * and the last two straights meet. A straight with a bend is an arc.
 */
export interface TracedRun extends RunPath {
  readonly backSide: BackSide;
  /** The distance between front line and back line, without cladding, in millimetres of the room. */
  readonly depthMm: number;
  /**
   * Standard uncertainty (k = 1) of one pick along either axis, in points of 1/72 in on the paper, whatever the UserUnit:
   * how well a person can point does not depend on it. Default {@link DEFAULT_PICK_UNCERTAINTY_PT}.
   */
  readonly pickUncertaintyPt?: number;
  /** Lengths on site that take the place of the traced ones, by straight, with their +/- at k = 2. */
  readonly measured?: readonly ({ readonly lengthMm: number; readonly plusMinusMm: number } | undefined)[];
}

/** The scale of the view on which a run is traced. */
export interface SheetScale {
  /** Real millimetres per millimetre of paper: 50 for 1:50. */
  readonly ratio: number;
  /** Relative expanded uncertainty of the ratio at k = 2: 0.005 for 0.5 %. */
  readonly relativeUncertainty: number;
  /** Size of one user-space unit in 1/72 in: 1 on nearly every page. */
  readonly userUnit: number;
}

/** The standard uncertainty (k = 1) of a run's picks in user-space units, in which `src/scale` takes it. */
export const pickUncertaintyUnits = (run: Pick<TracedRun, 'pickUncertaintyPt'>, userUnit: number): number =>
  (run.pickUncertaintyPt ?? DEFAULT_PICK_UNCERTAINTY_PT) / userUnit;

/**
 * Millimetres in the room per user-space unit of the page: ratio x UserUnit x 25.4/72. Throws a RangeError for a scale
 * that is not positive and finite: scales are checked where they enter.
 *
 * @example mmPerUserUnit({ ratio: 50, relativeUncertainty: 0, userUnit: 1 }) // 17.638889
 */
export function mmPerUserUnit({ ratio, userUnit }: SheetScale): number {
  const mm = ratio * paperMmPerUnit(userUnit);
  if (!(mm > 0 && Number.isFinite(mm)))
    throw new RangeError(`A scale must be positive: ratio ${ratio}, UserUnit ${userUnit}`);
  return mm;
}

/** 1 where the back lies on the left of the front line, -1 where on the right: the sign of an offset towards the back. */
export const backSign = (run: Pick<TracedRun, 'backSide'>): 1 | -1 => (run.backSide === 'left' ? 1 : -1);

/** One straight on the paper, an arc as its chord: its ends, its direction along the front, and that from front to back. */
export interface StraightLine {
  readonly start: Point;
  readonly end: Point;
  /** Unit vector along the front, from the straight's start to its end. */
  readonly along: Vector;
  /** Unit vector from the front line to the back line. */
  readonly towardsBack: Vector;
}

/** How many straights a run has. */
export const straightCountOf = (run: TracedRun): number => Math.max(0, run.frontLine.length - 1);

/**
 * A straight of a run as a directed line. A straight of no length (two points at one place, which `runProblems`
 * reports) points along +x, so that drawing a half-finished trace never fails. Throws a RangeError for an index that the
 * run does not have.
 */
export function straightLineOf(run: TracedRun, straightIndex: number): StraightLine {
  const start = run.frontLine[straightIndex];
  const end = run.frontLine[straightIndex + 1];
  if (start === undefined || end === undefined) {
    throw new RangeError(`No straight ${straightIndex}: the run has ${straightCountOf(run)}`);
  }
  const along = unitVector(vectorBetween(start, end)) ?? { x: 1, y: 0 };
  return { start, end, along, towardsBack: scaledBy(leftOf(along), backSign(run)) };
}

/** A place of a straight's front in the room: where it is, which way the front goes there, and which way the back lies. */
export interface FrontPlace {
  readonly at: PaperPoint;
  readonly along: Vector;
  readonly towardsBack: Vector;
}

/** The place `alongMm` along the traced front of a straight; beyond its ends the front runs straight on. */
export function frontPlaceAt(
  run: TracedRun,
  straightIndex: number,
  alongMm: number,
  scale: SheetScale,
): FrontPlace {
  const { at, along } = placeAlong(run, straightIndex, alongMm / mmPerUserUnit(scale));
  return { at, along, towardsBack: scaledBy(leftOf(along), backSign(run)) };
}

/** The place in the middle of a straight's front. */
export function frontMiddleOf(run: TracedRun, straightIndex: number): FrontPlace {
  const { at, along } = middleAlong(run, straightIndex);
  return { at, along, towardsBack: scaledBy(leftOf(along), backSign(run)) };
}

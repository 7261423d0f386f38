import type { MovingPlan, PlanLimit } from './planWays.ts';
import { type SideDoorwayPlan, sideDoorwaySlide, sideDoorwaySwing } from './sideDoorwaySwing.ts';
import { turnBackedIn } from './turnBackedIn.ts';
import { shortLegLimit, turnFromAcross, turnSlide, turnSwing } from './turnSwing.ts';
import { LONGEST_DESCRIBABLE_MM } from './wayInSchema.ts';

/** A turn, its legs without limit unless given; lengths in mm, angle in radians. */
export interface TurnShape {
  readonly fromMm: number;
  readonly toMm: number;
  readonly heightMm: number;
  readonly turnRad: number;
  readonly fromLegMm?: number | undefined;
  readonly toLegMm?: number | undefined;
}

/**
 * A turn between two passages: swung round the corner, swung from across a passage, or slid across without turning,
 * whichever lets the longest piece by. Where the legs go on, these are all there is up to 90 degrees, and beyond it
 * all there is but one (see `deepCornerPlan`). Proof: at any one angle the outer walls and the block behind the inner
 * corner open along the same two directions, so the piece is free somewhere only if it is free pushed into the outer
 * corner, and all its free places hang together. It gets by exactly when it stays free over an unbroken range of angles
 * from one at which it fits the first passage to one at which it fits the second; the tests walk that ring of angles.
 */
export const turnPlan = (turn: TurnShape): MovingPlan => {
  const fromLegMm = turn.fromLegMm ?? Number.POSITIVE_INFINITY;
  const toLegMm = turn.toLegMm ?? Number.POSITIVE_INFINITY;
  return {
    narrowestMm: Math.min(turn.fromMm, turn.toMm),
    heightMm: turn.heightMm,
    limit: remembered((widthMm) => {
      const swing = turnSwing(turn, widthMm);
      let swungMm = Math.min(swing.longestMm, LONGEST_DESCRIBABLE_MM);
      for (const legMm of [fromLegMm, toLegMm]) {
        if (legMm < Number.POSITIVE_INFINITY) {
          swungMm = Math.min(swungMm, shortLegLimit(legMm, widthMm, turn.turnRad));
        }
      }
      let { atRad } = swing;
      if (Math.min(fromLegMm, toLegMm) === Number.POSITIVE_INFINITY) {
        const across = turnFromAcross(turn, widthMm);
        if (across.longestMm > swungMm) {
          swungMm = Math.min(across.longestMm, LONGEST_DESCRIBABLE_MM);
          atRad = across.atRad;
        }
      }
      const slide = turnSlide(turn, widthMm, fromLegMm, toLegMm, swungMm);
      return slide.longestMm > swungMm
        ? { longestMm: Math.min(slide.longestMm, LONGEST_DESCRIBABLE_MM), manner: 'slid', atRad: slide.atRad }
        : { longestMm: swungMm, manner: 'swung', atRad };
    }),
  };
};

/**
 * The same turn past a right angle with backing into the outer corner counted too, as if that corner were as deep as
 * two straight walls make it: no piece that this stops gets by. Null up to a right angle, where it adds nothing.
 */
export const deepCornerPlan = (turn: TurnShape): MovingPlan | null => {
  if (turn.turnRad <= Math.PI / 2) return null;
  const plan = turnPlan(turn);
  return {
    ...plan,
    limit: remembered((widthMm) => {
      const limit = plan.limit(widthMm);
      const backedMm = Math.min(turnBackedIn(turn, widthMm), LONGEST_DESCRIBABLE_MM);
      return backedMm > limit.longestMm ? { ...limit, longestMm: backedMm } : limit;
    }),
  };
};

/** A doorway in the side of a passage; the room behind it is open. */
export const sideDoorwayPlan = (plan: SideDoorwayPlan, heightMm: number): MovingPlan => ({
  narrowestMm: Math.min(plan.passageMm, plan.doorMm),
  heightMm,
  limit: remembered((widthMm) => {
    const swing = sideDoorwaySwing(plan, widthMm);
    const slide = sideDoorwaySlide(plan, widthMm);
    return slide.longestMm >= swing.longestMm
      ? { longestMm: Math.min(slide.longestMm, LONGEST_DESCRIBABLE_MM), manner: 'slid', atRad: slide.atRad }
      : { longestMm: Math.min(swing.longestMm, LONGEST_DESCRIBABLE_MM), manner: 'swung', atRad: swing.atRad };
  }),
});

/** Pieces of a fit share their depth and height, so the same widths are asked again and again. */
const remembered = (limit: (widthMm: number) => PlanLimit): ((widthMm: number) => PlanLimit) => {
  const known = new Map<number, PlanLimit>();
  return (widthMm) => {
    const before = known.get(widthMm);
    if (before !== undefined) return before;
    const fresh = limit(widthMm);
    known.set(widthMm, fresh);
    return fresh;
  };
};

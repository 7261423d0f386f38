import type { MovingPlan, PlanLimit } from './planWays.ts';
import { type SideDoorwayPlan, sideDoorwaySlide, sideDoorwaySwing } from './sideDoorwaySwing.ts';
import { shortLegLimit, turnSlide, turnSwing } from './turnSwing.ts';
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
 * A turn between two passages: swung round the corner, or slid across without turning, whichever lets the longer
 * piece by. Up to 90 degrees these are all there is (the tests compare a search of every angle). Beyond, a piece can
 * also be backed into the outer corner and drawn out the other way; that counts on a corner as deep as two straight
 * walls would make it, which few buildings have, so it is not counted.
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
      const slide = turnSlide(turn, widthMm, fromLegMm, toLegMm, swungMm);
      return slide.longestMm > swungMm
        ? { longestMm: Math.min(slide.longestMm, LONGEST_DESCRIBABLE_MM), manner: 'slid', atRad: slide.atRad }
        : { longestMm: swungMm, manner: 'swung', atRad: swing.atRad };
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

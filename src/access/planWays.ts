import { type Dimension, type Handling, otherTwo, sizeOf } from './handling.ts';
import { isPassing, type Manner, type PassingWay } from './passingWay.ts';
import { longestTilted } from './rectangleInRectangle.ts';
import type { AccessPiece } from './wayInSchema.ts';

/** The longest rectangle of a given width that a plan lets by, how, and at which angle it is tightest. */
export interface PlanLimit {
  readonly longestMm: number;
  readonly manner: Manner;
  readonly atRad: number;
}

/** A plan in which a rectangle must be moved, seen from above. */
export interface MovingPlan {
  /** No rectangle whose shorter side is more than this gets by. */
  readonly narrowestMm: number;
  readonly heightMm: number;
  /** Asked only for widths up to `narrowestMm`; never rises as the width grows. */
  readonly limit: (widthMm: number) => PlanLimit;
}

/**
 * Ways of moving a piece through a plan, level, each allowed dimension vertical in turn. The other two sweep the
 * floor; the vertical one must stay below the clear height. The margin is the smaller of how much longer the swept
 * rectangle could be and the clearance overhead.
 *
 * Where the piece may be pitched, its length and one more dimension tilt in a vertical plane: the shadow on the floor
 * and the height taken are a rectangle round a tilted rectangle, so the longest one is that of a rectangle in a
 * rectangle, the swept limit by the clear height.
 */
export const planWays = (piece: AccessPiece, handling: Handling, plan: MovingPlan): readonly PassingWay[] => {
  const ways = handling.verticals.map((vertical) => levelWay(piece, vertical, plan));
  if (!handling.mayPitchInTurns) return ways;
  for (const across of ['width', 'height'] as const) {
    const tilting: Dimension = across === 'width' ? 'height' : 'width';
    const acrossMm = sizeOf(piece, across);
    if (!handling.verticals.includes(tilting)) continue;
    const swept = otherSideLimit(plan, acrossMm);
    const longestMm = longestTilted(swept.longestMm, plan.heightMm, sizeOf(piece, tilting));
    ways.push({
      vertical: null,
      along: 'length',
      across,
      manner: 'pitched',
      marginMm: longestMm - piece.lengthMm,
      longestMm,
      atRad: swept.atRad,
    });
  }
  return ways;
};

const levelWay = (piece: AccessPiece, vertical: Dimension, plan: MovingPlan): PassingWay => {
  const [first, second] = otherTwo(vertical);
  const firstMm = sizeOf(piece, first);
  const secondMm = sizeOf(piece, second);
  const overheadMm = plan.heightMm - sizeOf(piece, vertical);
  const longMm = Math.max(firstMm, secondMm);
  const shortMm = Math.min(firstMm, secondMm);
  const limit = limitFor(plan, shortMm);
  const sweptMm = limit === null ? plan.narrowestMm - shortMm : limit.longestMm - longMm;
  const longestMm =
    vertical === 'length'
      ? isPassing(sweptMm)
        ? plan.heightMm
        : 0
      : isPassing(overheadMm)
        ? otherSideLimit(plan, first === 'length' ? secondMm : firstMm).longestMm
        : 0;
  return {
    vertical,
    along: firstMm >= secondMm ? first : second,
    manner: limit?.manner ?? 'swung',
    marginMm: Math.min(sweptMm, overheadMm),
    longestMm,
    ...(limit === null ? {} : { atRad: limit.atRad }),
  };
};

const limitFor = (plan: MovingPlan, shortMm: number): PlanLimit | null =>
  shortMm <= plan.narrowestMm ? plan.limit(shortMm) : null;

/**
 * The largest other side of a rectangle with one side given. Where even a square of that side does not get by, the
 * given side is the long one, and the other is halved down to; the limit never rises with the width.
 */
const otherSideLimit = (plan: MovingPlan, sideMm: number): PlanLimit => {
  const asWidth = limitFor(plan, sideMm);
  if (asWidth !== null && asWidth.longestMm >= sideMm) return asWidth;
  let low = 0;
  let high = Math.min(sideMm, plan.narrowestMm);
  let found: PlanLimit = { longestMm: 0, manner: 'swung', atRad: 0 };
  if (high <= 0) return found;
  if (plan.limit(high).longestMm >= sideMm) return { ...plan.limit(high), longestMm: high };
  for (let step = 0; step < 40; step += 1) {
    const middle = (low + high) / 2;
    const limit = plan.limit(middle);
    if (limit.longestMm >= sideMm) {
      low = middle;
      found = { ...limit, longestMm: middle };
    } else high = middle;
  }
  return found;
};

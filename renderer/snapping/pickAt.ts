import type { PaperPoint } from '../../src/geometry/point.ts';
import type { LineworkIndex } from '../../src/sheet/lineworkIndex.ts';
import type { Guides, Hold, LineUnderHand, Pick } from '../tools/pick.ts';
import { type Candidate, costOf } from './candidate.ts';
import { directionCandidates, pointCandidates } from './directionCandidates.ts';
import { drawnCandidates, type NearLine } from './drawnCandidates.ts';
import { heldCandidates } from './heldPick.ts';
import { caughtUncertaintyPt, freeUncertaintyPt } from './pickUncertainty.ts';

/** How close the pointer must come to be caught, in CSS pixels. */
export const reachPx = 11;

/** What a pick is made over. */
export interface PickSetting {
  /** The sheet's linework; null until it has been read. */
  readonly index: LineworkIndex | null;
  /** CSS pixels in one user-space unit at the present zoom. */
  readonly pxPerUnit: number;
  readonly userUnit: number;
  readonly guides: Guides;
  /** Nothing catches the pick; a hold still holds it. */
  readonly isSuspended: boolean;
  /** Held in steps of 15 degrees while a key is down. */
  readonly isStepped: boolean;
  /** How often the operator asked for the next candidate instead. */
  readonly candidate: number;
  /** Direction on the paper that points to the right on the sheet as shown. */
  readonly sheetRightRad: number;
}

const isSame = (one: Candidate, other: Candidate): boolean =>
  Math.abs(one.at.x - other.at.x) < 1e-6 && Math.abs(one.at.y - other.at.y) < 1e-6;

/** Each place once, by the relation that was put first. */
const distinct = (candidates: readonly Candidate[]): readonly Candidate[] => {
  const kept: Candidate[] = [];
  for (const candidate of candidates)
    if (!kept.some((other) => isSame(other, candidate))) kept.push(candidate);
  return kept;
};

/** All that the pick may be caught by, in the order in which they are offered; and the lines under the hand. */
const caughtBy = (
  hand: PaperPoint,
  over: PickSetting,
): {
  readonly candidates: readonly Candidate[];
  readonly lines: readonly NearLine[];
  readonly curve: number | null;
} => {
  const reach = reachPx / over.pxPerUnit;
  const { guides, sheetRightRad } = over;
  const hold: Hold | null = over.isStepped ? { kind: 'steps' } : guides.hold;
  const drawn = drawnCandidates(over.isSuspended ? null : over.index, hand, reach);
  const { lines, curve } = drawn;
  const held = hold && heldCandidates(hand, hold, guides, drawn, sheetRightRad);
  if (held) return { candidates: distinct(held), lines, curve };
  if (over.isSuspended) return { candidates: [], lines, curve };
  const all = [
    ...drawn.candidates,
    ...pointCandidates(hand, reach, guides.points),
    ...directionCandidates(hand, reach, guides, lines, sheetRightRad),
  ];
  return {
    candidates: distinct([...all].sort((one, other) => costOf(one, reach) - costOf(other, reach))),
    lines,
    curve,
  };
};

/** All that the pick may be caught by, in the order in which they are offered. */
export const candidatesAt = (hand: PaperPoint, over: PickSetting): readonly Candidate[] =>
  caughtBy(hand, over).candidates;

/** The straight line under the hand; where there is none, the curve. */
const lineUnder = ([nearest]: readonly NearLine[], curve: number | null): LineUnderHand | null => {
  if (nearest) return { number: nearest.line, alongRad: Math.atan2(nearest.along.y, nearest.along.x) };
  return curve === null ? null : { number: curve, alongRad: null };
};

/**
 * The pick for a hand at a place of the sheet: caught by the drawing or by an earlier pick where something is near, held
 * in a direction where that is asked for, else free.
 */
export const pickAt = (hand: PaperPoint, over: PickSetting): Pick => {
  const { candidates, lines, curve } = caughtBy(hand, over);
  const caught = candidates[over.candidate % Math.max(1, candidates.length)];
  const freePt = freeUncertaintyPt(over.pxPerUnit, over.userUnit);
  const line = lineUnder(lines, curve);
  if (!caught) return { at: hand, hand, uncertaintyPt: freePt, relation: null, line };
  // Along a bare direction the hand still says how far.
  const asDrawn = caught.relation.isDrawn ? caughtUncertaintyPt : freePt;
  return {
    at: caught.at,
    hand,
    uncertaintyPt: caught.uncertaintyPt ?? asDrawn,
    relation: caught.relation,
    line,
  };
};

import type { PlacedItem } from './placedItem.ts';
import type { ScoreVector } from './scoreVector.ts';
import type { SequencePiece } from './stretchLayout.ts';
import { widthOf } from './stretchLayout.ts';

/** The rest of a stretch from one place to its right side, beginning with a piece there, and what binds its left. */
export interface RuledRest {
  readonly bits: number;
  /** The right leftover where left and right together may still close; -1 where it is counted already. */
  readonly openRightUm: number;
  readonly firstCarried: boolean;
  /** Whether its first piece needs another on the left, because it must be free there and the stretch's side is not. */
  readonly mustFollow: boolean;
  readonly score: ScoreVector;
  readonly piece: SequencePiece;
  readonly next: RuledRest | undefined;
  /** Items of the first place that still need a neighbour on the left. */
  readonly pending: readonly string[];
  /** Items of the first place that a neighbour on the left may need. */
  readonly offers: readonly string[];
  /** The nearest of each item that pieces to the left must keep clear of. */
  readonly near: readonly PlacedItem[];
}

/** The pieces of a rest, from the left. */
export const ruledSequence = (rest: RuledRest): readonly SequencePiece[] => {
  const sequence: SequencePiece[] = [];
  for (let at: RuledRest | undefined = rest; at !== undefined; at = at.next) sequence.push(at.piece);
  return sequence;
};

/** What rests must have in common for the better one to be kept alone. */
export const restKey = (rest: Omit<RuledRest, 'score' | 'piece' | 'next'>): string => {
  const { bits, openRightUm, firstCarried, mustFollow, pending, offers, near } = rest;
  const start = `${bits}/${openRightUm}/${firstCarried ? 1 : 0}${mustFollow ? 1 : 0}`;
  if (pending.length + offers.length + near.length === 0) return start;
  const places = near.map(({ item, fromUm }) => `${item}@${fromUm}`);
  return JSON.stringify([start, pending, offers, places]);
};

/** Which of two rests of equal score comes first: widest pieces first, then fewer, then stock id. */
export const compareRuledRests = (a: RuledRest, b: RuledRest): number => {
  let byId = 0;
  let one: RuledRest | undefined = a;
  let other: RuledRest | undefined = b;
  while (one !== undefined && other !== undefined && one !== other) {
    const difference = widthOf(other.piece) - widthOf(one.piece);
    if (difference !== 0) return difference;
    const [idA, idB] = [one, other].map(({ piece }) => (piece.event ? piece.event.item : piece.item.id));
    if (byId === 0 && idA !== idB) byId = idA! < idB! ? -1 : 1;
    one = one.next;
    other = other.next;
  }
  if (one === other) return byId;
  if (one === undefined) return -1;
  return other === undefined ? 1 : byId;
};

import type { FillItem } from './fillStock.ts';
import type { FillTable } from './fillTable.ts';
import type { ScoreVector } from './scoreVector.ts';
import type { StationEvent } from './stationEvents.ts';
import { compareSequences, type SequencePiece } from './stretchLayout.ts';

/** The rest of a stretch from one place to its right side, beginning with a piece there. */
export interface LatticeRest {
  readonly bits: number;
  /** The right leftover where left and right together may still close; -1 where it is counted already. */
  readonly openRightUm: number;
  readonly firstCarried: boolean;
  readonly score: ScoreVector;
  readonly event: StationEvent | undefined;
  readonly item: FillItem | undefined;
  readonly next: LatticeRest | undefined;
  readonly gap: { readonly table: FillTable; readonly index: number } | undefined;
}

/** The pieces of a rest, from the left. */
export const restSequence = (rest: LatticeRest): readonly SequencePiece[] => {
  const sequence: SequencePiece[] = [];
  for (let at: LatticeRest | undefined = rest; at !== undefined; at = at.next) {
    sequence.push(at.event ? { event: at.event } : { item: at.item! });
    if (at.gap) for (const item of at.gap.table.itemsAt(at.gap.index)) sequence.push({ item });
  }
  return sequence;
};

const widthOfFirst = (rest: LatticeRest): number => (rest.event ?? rest.item!).widthUm;

/** Which of two rests of equal score comes first: widest pieces first, then stock id. Walks only as far as it must. */
export const compareRests = (a: LatticeRest, b: LatticeRest): number => {
  let one: LatticeRest | undefined = a;
  let other: LatticeRest | undefined = b;
  while (one !== undefined && other !== undefined && one !== other) {
    const difference = widthOfFirst(other) - widthOfFirst(one);
    if (difference !== 0) return difference;
    if (one.gap || other.gap) return compareSequences(restSequence(one), restSequence(other));
    one = one.next;
    other = other.next;
  }
  return one === other ? compareSequences(restSequence(a), restSequence(b)) : 0;
};

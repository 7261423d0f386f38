import type { FitAlternative } from '../fitting/fitAnswer.ts';

/**
 * The marks by which pieces are called on the plan, on the developed elevation, in the schedule and on the piece
 * itself: the run's number, then a count along the front. The same fit always gets the same marks.
 */
export interface PieceMarks {
  /** One for each piece of the fit, by its index: `1.04`; what a host carries takes its host's mark: `1.04a`. */
  readonly pieces: readonly string[];
  /** One for each corner, by its index: `1.C1`. */
  readonly corners: readonly string[];
  /** One for each leftover, by its index: `1.L1`. */
  readonly leftovers: readonly string[];
  /** One for each wedge on an arc, by its index: `1.V1`. */
  readonly wedges: readonly string[];
}

const letters = 'abcdefghijklmnopqrstuvwxyz';

/** a to z, then aa, ab, … so that any number of drop-ins on one host can be told apart. */
const letterOf = (position: number): string =>
  position < letters.length
    ? (letters[position] ?? '')
    : letterOf(Math.floor(position / letters.length) - 1) + (letters[position % letters.length] ?? '');

interface Placed {
  readonly index: number;
  readonly straight: number;
  readonly fromMm: number;
}

const alongTheFront = (one: Placed, other: Placed): number =>
  one.straight - other.straight || one.fromMm - other.fromMm || one.index - other.index;

/**
 * Gives every piece, corner and leftover of a fit its mark.
 *
 * @param runNumber the run's place in the project's run list, from 1.
 */
export const pieceMarks = (runNumber: number, alternative: FitAlternative): PieceMarks => {
  const placed = alternative.pieces.map(({ straight, fromMm }, index) => ({ index, straight, fromMm }));
  const pieces: string[] = placed.map(() => '');
  const isHosted = (index: number) => alternative.pieces[index]?.host !== undefined;

  const own = placed.filter(({ index }) => !isHosted(index)).sort(alongTheFront);
  for (const [position, { index }] of own.entries())
    pieces[index] = `${runNumber}.${String(position + 1).padStart(2, '0')}`;

  const carriedBy = new Map<number, number>();
  for (const { index } of placed.filter((one) => isHosted(one.index)).sort(alongTheFront)) {
    const host = alternative.pieces[index]?.host ?? -1;
    const before = carriedBy.get(host) ?? 0;
    carriedBy.set(host, before + 1);
    pieces[index] = `${pieces[host] ?? `${runNumber}.?`}${letterOf(before)}`;
  }

  const leftovers: string[] = alternative.leftovers.map(() => '');
  const leftInOrder = alternative.leftovers
    .map(({ straight, fromMm }, index) => ({ index, straight, fromMm }))
    .sort(alongTheFront);
  for (const [position, { index }] of leftInOrder.entries())
    leftovers[index] = `${runNumber}.L${position + 1}`;

  return {
    pieces,
    corners: alternative.corners.map((_, index) => `${runNumber}.C${index + 1}`),
    leftovers,
    wedges: (alternative.wedges ?? []).map((_, index) => `${runNumber}.V${index + 1}`),
  };
};

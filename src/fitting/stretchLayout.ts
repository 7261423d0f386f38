import type { FillItem } from './fillStock.ts';
import { countLeftovers } from './leftoverVerdict.ts';
import type { PlacedItem } from './placedItem.ts';
import {
  compareScores,
  DISPLACEMENT,
  FILLERS,
  LEFTOVER,
  MADE_TO_MEASURE,
  PIECES,
  PRICE,
  type ScoreSequence,
  type ScoreVector,
  UNPLACED,
} from './scoreVector.ts';
import type { StationEvent } from './stationEvents.ts';
import type { Stretch } from './stretch.ts';

/** One piece in the sequence of a stretch: a fill piece, or an event that carries wanted stations. */
export type SequencePiece =
  | { readonly item: FillItem; readonly event?: undefined }
  | { readonly event: StationEvent; readonly item?: undefined };

/** A stretch with its pieces in place. A stretch without a piece has its one leftover in `leftUm`. */
export interface StretchLayout {
  readonly stretch: Stretch;
  readonly sequence: readonly SequencePiece[];
  /** Start of the first piece; without a piece, start of the leftover. */
  readonly fromUm: number;
  readonly leftUm: number;
  readonly rightUm: number;
  readonly score: ScoreVector;
  /** Pieces of the straight's other stretches that this one's pieces keep a distance from; absent where none. */
  readonly others?: readonly PlacedItem[];
}

/** What a piece takes of the front, in whole micrometres. */
export const widthOf = (piece: SequencePiece): number =>
  piece.event ? piece.event.widthUm : piece.item.widthUm;

/** The width that a piece has itself: on an arc not what it takes of the front. */
export const ownWidthOf = ({ event, item }: SequencePiece): number =>
  event ? (event.ownUm ?? event.widthUm) : (item.ownUm ?? item.widthUm);

/** The layout of a stretch with no piece, or nothing between two exposed ends, which must be filled. */
export const emptyLayout = (stretch: Stretch, fillerMaxUm: number): StretchLayout | undefined => {
  if (stretch.left === 'exposed' && stretch.right === 'exposed') return undefined;
  const fromUm = Math.min(stretch.leftMaxUm, stretch.rightMaxUm);
  const toUm = Math.max(stretch.rightMinUm, fromUm);
  const leftUm = toUm - fromUm;
  const { madeToMeasure, fillers, madeLengthUm } = countLeftovers(
    leftUm,
    0,
    stretch.uncertaintyUm,
    fillerMaxUm,
  );
  return {
    stretch,
    sequence: [],
    fromUm,
    leftUm,
    rightUm: 0,
    score: [0, madeToMeasure, leftUm, fillers, 0, 0, 0, madeLengthUm],
  };
};

/** Compares two sequences by "widest pieces first", then by stock id. Below 0 where `a` comes first. */
export const compareSequences = (a: readonly SequencePiece[], b: readonly SequencePiece[]): number => {
  const count = Math.min(a.length, b.length);
  for (let at = 0; at < count; at += 1) {
    const difference = widthOf(b[at]!) - widthOf(a[at]!);
    if (difference !== 0) return difference;
  }
  if (a.length !== b.length) return a.length - b.length;
  const idOf = (piece: SequencePiece) => (piece.event ? piece.event.item : piece.item.id);
  for (let at = 0; at < count; at += 1) {
    const [idA, idB] = [idOf(a[at]!), idOf(b[at]!)];
    if (idA !== idB) return idA < idB ? -1 : 1;
  }
  return 0;
};

/** Where a layout lies when the score leaves it open: leftovers split equally, then at the start. */
const compareTies = (a: StretchLayout, b: StretchLayout): number => {
  const { stretch } = a;
  const apart = (layout: StretchLayout) => Math.abs(layout.leftUm - layout.rightUm);
  if (apart(a) !== apart(b)) return apart(a) - apart(b);
  if (a.leftUm !== b.leftUm) return b.leftUm - a.leftUm;
  // Only exposed ends are left to move: as little as possible, and rather at the end of the run.
  const moved = (layout: StretchLayout) =>
    stretch.left === 'exposed' ? Math.abs(layout.fromUm - stretch.leftUm) : 0;
  const length = sequenceLength(a.sequence, 0);
  const movedEnd = (layout: StretchLayout) =>
    stretch.right === 'exposed' ? Math.abs(layout.fromUm + length - stretch.rightUm) : 0;
  return moved(a) + movedEnd(a) - moved(b) - movedEnd(b) || moved(a) - moved(b);
};

const sequenceLength = (sequence: readonly SequencePiece[], jointUm: number): number =>
  sequence.reduce((sum, piece) => sum + widthOf(piece), 0) + jointUm * Math.max(0, sequence.length - 1);

/** The layout with the first piece's start here, or nothing where that breaks a rule. */
const layoutAt = (
  stretch: Stretch,
  sequence: readonly SequencePiece[],
  fromUm: number,
  jointUm: number,
  fillerMaxUm: number,
): StretchLayout | undefined => {
  const toUm = fromUm + sequenceLength(sequence, jointUm);
  if (
    stretch.left === 'exposed'
      ? fromUm < stretch.leftMinUm || fromUm > stretch.leftMaxUm
      : fromUm < stretch.leftUm
  )
    return undefined;
  if (
    stretch.right === 'exposed'
      ? toUm < stretch.rightMinUm || toUm > stretch.rightMaxUm
      : toUm > stretch.rightUm
  )
    return undefined;
  const leftUm = stretch.left === 'exposed' ? 0 : fromUm - stretch.leftUm;
  const rightUm = stretch.right === 'exposed' ? 0 : stretch.rightUm - toUm;
  const { madeToMeasure, fillers, madeLengthUm } = countLeftovers(
    leftUm,
    rightUm,
    stretch.uncertaintyUm,
    fillerMaxUm,
  );
  const score = [0, 0, 0, 0, 0, 0, 0, madeLengthUm];
  score[MADE_TO_MEASURE] = madeToMeasure;
  score[LEFTOVER] = leftUm + rightUm;
  score[FILLERS] = fillers;
  score[PIECES] = sequence.length;
  let atUm = fromUm;
  for (const piece of sequence) {
    if (piece.event) {
      const { event } = piece;
      if (atUm < event.fromMinUm || atUm > event.fromMaxUm) return undefined;
      const displacement = event.displacementAt(atUm);
      if (!Number.isFinite(displacement)) return undefined;
      score[UNPLACED] = score[UNPLACED]! - event.stations;
      score[DISPLACEMENT] = score[DISPLACEMENT]! + displacement;
      score[PRICE] = score[PRICE]! + event.price;
    } else score[PRICE] = score[PRICE]! + piece.item.price;
    atUm += widthOf(piece) + jointUm;
  }
  return { stretch, sequence, fromUm, leftUm, rightUm, score };
};

/** Where rules let a sequence stand, and starts at which they begin to. */
export interface PlaceGuard {
  readonly starts: readonly number[];
  readonly isAllowed: (fromUm: number) => boolean;
}

/**
 * The best place for a sequence of pieces. Every part of the score is, in the start of the first piece, piecewise
 * linear or a step that is best on its closed side, so an optimum lies where a station's displacement bends, a window
 * ends, or a leftover reaches 0, a filler's most or the uncertainty; the middle is added for the equal split.
 */
export const placeSequence = (
  stretch: Stretch,
  sequence: readonly SequencePiece[],
  jointUm: number,
  fillerMaxUm: number,
  order: ScoreSequence,
  guard?: PlaceGuard,
): StretchLayout | undefined => {
  const lengthUm = sequenceLength(sequence, jointUm);
  const { leftMinUm, leftUm, leftMaxUm, rightMinUm, rightUm, rightMaxUm, uncertaintyUm } = stretch;
  const middle = (leftUm + rightUm - lengthUm) / 2;
  const starts = new Set<number>([leftMinUm, leftUm, leftMaxUm, Math.ceil(middle), Math.floor(middle)]);
  for (const give of [fillerMaxUm, uncertaintyUm]) starts.add(leftUm + give).add(rightUm - give - lengthUm);
  for (const end of [rightMinUm, rightUm, rightMaxUm]) starts.add(end - lengthUm);
  let offset = 0;
  for (const piece of sequence) {
    if (piece.event) for (const bend of piece.event.bends) starts.add(bend - offset);
    offset += widthOf(piece) + jointUm;
  }
  for (const start of guard?.starts ?? []) starts.add(start);
  let best: StretchLayout | undefined;
  for (const fromUm of starts) {
    if (guard !== undefined && !guard.isAllowed(fromUm)) continue;
    const layout = layoutAt(stretch, sequence, fromUm, jointUm, fillerMaxUm);
    if (layout === undefined) continue;
    if (best === undefined) best = layout;
    else if ((compareScores(layout.score, best.score, order) || compareTies(layout, best)) < 0) best = layout;
  }
  return best;
};

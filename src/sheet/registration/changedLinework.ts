import type { Linework } from '../linework.ts';
import { type LinePieces, linePieces } from './linePieces.ts';
import { type MovedLine, movedLines } from './movedLines.ts';
import { applySimilarity, type Similarity, similarityScale } from './similarity.ts';
import { type LoosePart, uncoveredPieces } from './uncoveredPieces.ts';

/** What differs between an old and a new sheet laid on one another; all places in new paper points. */
export interface ChangedLinework {
  /** Parts of old lines and curves that no new line runs along; `item` counts in the old linework. */
  readonly gone: readonly LoosePart[];
  /** Parts of new lines and curves that no old line runs along; `item` counts in the new linework. */
  readonly added: readonly LoosePart[];
  /** Gone and added parts that look like one line moved, with the way it went. */
  readonly moved: readonly MovedLine[];
}

export interface ChangeOptions {
  /** How far a line may have moved and still be shown as moved, in new paper points; 40 where not given. */
  readonly reachPt?: number;
}

/** A moved line of fewer tolerances than this is lettering. */
const LEAST_MOVED = 8;

/**
 * The linework that is gone and that is new, to show one sheet over the other.
 *
 * @param transform from old to new paper points; see `registerSheets` and `registerByPicks`
 * @param tolerancePt lines nearer than this are the same line; above 0, in new paper points. No less than the
 * registration's uncertainty there makes sense.
 */
export const changedLinework = (
  old: Linework,
  next: Linework,
  transform: Similarity,
  tolerancePt: number,
  { reachPt = 40 }: ChangeOptions = {},
): ChangedLinework => {
  if (!(tolerancePt > 0))
    throw new Error(`The tolerance is ${tolerancePt} where a number above 0 is needed.`);
  const oldPieces = laidOver(linePieces(old, similarityScale(transform)), transform);
  const newPieces = linePieces(next, 1);
  const gone = uncoveredPieces(oldPieces, newPieces, tolerancePt);
  const added = uncoveredPieces(newPieces, oldPieces, tolerancePt);
  const limits = { reach: reachPt, tolerance: tolerancePt, leastLength: LEAST_MOVED * tolerancePt };
  return { gone, added, moved: movedLines(gone, added, limits) };
};

const laidOver = ({ count, ends, item }: LinePieces, transform: Similarity): LinePieces => {
  const laid = new Float64Array(ends.length);
  for (let i = 0; i < ends.length; i += 2) {
    const { x, y } = applySimilarity(transform, { x: ends[i]!, y: ends[i + 1]! });
    laid[i] = x;
    laid[i + 1] = y;
  }
  return { count, ends: laid, item };
};

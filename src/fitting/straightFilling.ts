import { compareScores, type ScoreSequence, type ScoreVector } from './scoreVector.ts';
import { compareSequences, type StretchLayout } from './stretchLayout.ts';

/** Layouts of the stretches of one straight, left to right, with their score. */
export interface StraightFilling {
  readonly layouts: readonly StretchLayout[];
  readonly score: ScoreVector;
}

/** Below 0 where `a` is the better filling, by score and then by the sequence of its pieces. */
export const compareFillings = (a: StraightFilling, b: StraightFilling, order: ScoreSequence): number =>
  compareScores(a.score, b.score, order) ||
  compareSequences(
    a.layouts.flatMap((layout) => layout.sequence),
    b.layouts.flatMap((layout) => layout.sequence),
  );

/** The best of some fillings, the first of equals. */
export const bestFilling = <Filling extends StraightFilling>(
  fillings: Iterable<Filling>,
  order: ScoreSequence,
): Filling | undefined => {
  let best: Filling | undefined;
  for (const filling of fillings) {
    if (best === undefined || compareFillings(filling, best, order) < 0) best = filling;
  }
  return best;
};

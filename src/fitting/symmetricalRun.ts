import { micrometres } from './micrometre.ts';
import type { FitOrder, FitProblem } from './problemSchema.ts';
import { ruledItems } from './ruledItems.ts';
import type { RunLayout, RunSolution } from './runSolver.ts';
import { addScores, compareScores, scoreSequences } from './scoreVector.ts';
import type { StationEvent } from './stationEvents.ts';
import {
  compareSequences,
  placeSequence,
  type SequencePiece,
  type StretchLayout,
  widthOf,
} from './stretchLayout.ts';

/** Which straight is to be symmetrical, and about which wanted station, if not about its middle. */
export type Symmetry = NonNullable<FitProblem['symmetrical']>[number];

/**
 * The best run in which one straight's pieces mirror one another, or nothing where that can't be: the straight has
 * zones that part it, or stations other than the one in the middle. The corners and the other straights stay as in
 * `best`. Every piece in the middle (or a joint there) is tried with every length of fill on either side of it.
 */
export const symmetricalRun = (
  problem: FitProblem,
  order: FitOrder,
  solution: RunSolution,
  best: RunLayout,
  symmetry: Symmetry,
): RunLayout | undefined => {
  const { straight, about } = symmetry;
  const solver = solution.solvers[straight]!;
  const [layout, ...more] = best.straights[straight]!.layouts;
  if (layout === undefined || more.length > 0 || layout.stretch.columns !== undefined) return undefined;
  if (solver.stations.some(({ id }) => id !== about)) return undefined;
  if (ruledItems(problem).size > 0) return undefined;
  const event = solver.events.find(({ own, hosted }) => own?.id === about && hosted.length === 0);
  if (about !== undefined && event === undefined) return undefined;
  const sequence = scoreSequences[order];
  const { fill, tables } = solution.onStraights[straight]!;
  const { jointUm } = tables;
  const { stretch } = layout;
  const fillerMaxUm = micrometres(problem.fillerMaxMm);
  const longestUm = stretch.rightMaxUm - stretch.leftMinUm;
  const middleUm = stretch.leftUm + stretch.rightUm;
  let found: StretchLayout | undefined;
  const tryPieces = (pieces: readonly SequencePiece[]): void => {
    const lengthUm = pieces.reduce((sum, piece) => sum + widthOf(piece) + jointUm, -jointUm);
    // Half a micrometre may be missing to the exact middle.
    const fromUm = Math.floor((middleUm - lengthUm) / 2);
    const guard =
      about === undefined ? { starts: [fromUm], isAllowed: (at: number) => at === fromUm } : undefined;
    const placed = placeSequence(stretch, pieces, jointUm, fillerMaxUm, sequence, guard);
    if (placed === undefined) return;
    if (
      found === undefined ||
      (compareScores(placed.score, found.score, sequence) || compareSequences(pieces, found.sequence)) < 0
    ) {
      found = placed;
    }
  };
  const mirrored = (middle: SequencePiece | undefined, isCarried: boolean): void => {
    const widthUm = middle === undefined ? -jointUm : widthOf(middle);
    // With a joint in the middle the first piece meets its own image, so it must stand.
    const table = tables.table(middle === undefined || isCarried, true);
    if (middle !== undefined && !isCarried) tryPieces([middle]);
    for (let at = table.floorIndex((longestUm - widthUm) / 2); at >= 0; at -= 1) {
      const half = table.itemsAt(at).map((item) => ({ item }));
      tryPieces([...half.toReversed(), ...(middle ? [middle] : []), ...half]);
    }
  };
  const mirrorAbout = (station: StationEvent | undefined): void => {
    if (station !== undefined) {
      mirrored({ event: station }, station.carried);
      return;
    }
    mirrored(undefined, false);
    for (const item of fill) mirrored({ item }, item.carried);
  };
  mirrorAbout(event);
  if (found === undefined) return undefined;
  const straights = best.straights.map((one, index) =>
    index === straight ? { score: found!.score, layouts: [found!], bound: found!.score } : one,
  );
  const without = best.straights[straight]!.score.map((value) => -value);
  return { corners: best.corners, straights, score: addScores(addScores(best.score, without), found.score) };
};

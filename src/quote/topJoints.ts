import type { FitAlternative } from '../fitting/fitAnswer.ts';
import type { FitProblem } from '../fitting/problemSchema.ts';
import { columnsNotPassed } from './columnsNotPassed.ts';

interface Span {
  readonly fromMm: number;
  readonly toMm: number;
  /** Has a top of its own to join: a filler or a zone has none. */
  readonly isTop: boolean;
}

const spansOn = (problem: FitProblem, alternative: FitAlternative, straight: number): readonly Span[] => {
  const { blocked = [], openings = [], bays = [] } = problem.straights[straight] ?? {};
  return [
    ...alternative.pieces
      .filter((piece) => piece.straight === straight && piece.host === undefined)
      .map(({ fromMm, toMm }) => ({ fromMm, toMm, isTop: true })),
    ...alternative.leftovers
      .filter((leftover) => leftover.straight === straight)
      .map(({ fromMm, toMm, verdict }) => ({ fromMm, toMm, isTop: verdict === 'made-to-measure' })),
    // Between the pieces of an arc the top goes on over their wedge, with a joint on either side.
    ...(alternative.wedges ?? [])
      .filter((wedge) => wedge.straight === straight)
      .map(({ fromMm, toMm }) => ({ fromMm, toMm, isTop: true })),
    // The top runs on over a bay, on its neighbours; that of a low section lies lower and meets none of theirs.
    ...bays.map(({ fromMm, toMm, isLow }) => ({ fromMm, toMm, isTop: !isLow })),
    ...[...blocked, ...openings, ...columnsNotPassed(problem, alternative, straight)].map(
      ([fromMm, toMm]) => ({ fromMm, toMm, isTop: false }),
    ),
  ].sort((one, other) => one.fromMm - other.fromMm || one.toMm - other.toMm);
};

/**
 * How many joints between tops a fit has: one wherever two tops meet, along a straight and at its corners. A corner
 * unit or wedge meets a straight on each side; where one straight runs through, the other butts against it once. Pieces
 * let into or standing on a top make none, nor do fillers (common practice, no source).
 */
export const topJoints = (problem: FitProblem, alternative: FitAlternative): number => {
  const jointMm = problem.allowances?.jointMm ?? 0;
  const straights = problem.straights.map((_, straight) => spansOn(problem, alternative, straight));
  const along = straights.reduce(
    (sum, spans) =>
      sum +
      spans.filter((span, index) => {
        const next = spans[index + 1];
        return next !== undefined && span.isTop && next.isTop && next.fromMm - span.toMm <= jointMm + 0.001;
      }).length,
    0,
  );
  const atCorners = alternative.corners.reduce((sum, { treatment }, corner) => {
    const before = straights[corner]?.at(-1)?.isTop ?? false;
    const after = straights[corner + 1]?.[0]?.isTop ?? false;
    const isPiece = treatment === 'corner-unit' || treatment === 'mitre';
    return sum + (isPiece ? Number(before) + Number(after) : Number(before && after));
  }, 0);
  return along + atCorners;
};

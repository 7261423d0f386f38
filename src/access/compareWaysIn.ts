import { checkWayIn, type WayInAnswer } from './checkWayIn.ts';
import type { AccessPiece, Obstacle } from './wayInSchema.ts';

/** One of several ways into the building. */
export interface NamedWayIn {
  readonly name: string;
  readonly obstacles: readonly Obstacle[];
  readonly uncertaintyMm?: number | undefined;
}

export interface ComparedWayIn {
  readonly name: string;
  readonly answer: WayInAnswer;
  /** Ids of the pieces that do not pass. */
  readonly stopped: readonly string[];
  /** Ids of the pieces for which only a site measure can tell, passing or not. */
  readonly unsure: readonly string[];
  /** The smallest margin of any piece in mm; null where there are no pieces. */
  readonly tightestMm: number | null;
}

/**
 * Judges the same pieces on several ways in, the best way first: fewest pieces stopped, then fewest unsure, then the
 * largest of the smallest margins, then as given.
 */
export const compareWaysIn = (
  ways: readonly NamedWayIn[],
  pieces: readonly AccessPiece[],
): readonly ComparedWayIn[] =>
  ways
    .map(({ name, obstacles, uncertaintyMm }) => {
      const answer = checkWayIn({ obstacles, pieces, uncertaintyMm });
      return {
        name,
        answer,
        stopped: answer.pieces.filter((piece) => !piece.passes).map((piece) => piece.id),
        unsure: answer.pieces.filter((piece) => !piece.sure).map((piece) => piece.id),
        tightestMm: pieces.length === 0 ? null : Math.min(...answer.pieces.map((piece) => piece.marginMm)),
      };
    })
    .sort(
      (p, q) =>
        p.stopped.length - q.stopped.length ||
        p.unsure.length - q.unsure.length ||
        (q.tightestMm ?? 0) - (p.tightestMm ?? 0),
    );

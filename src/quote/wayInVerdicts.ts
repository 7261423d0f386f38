import { checkWayIn, type PieceAnswer } from '../access/checkWayIn.ts';
import type { Obstacle } from '../access/wayInSchema.ts';
import type { DeliveredPiece } from './deliveredPieces.ts';

/** The three answers, and what is done about a piece that does not pass whole. */
export type PieceVerdict =
  | 'passes'
  /** Within the uncertainty of what was measured: only a site measure can tell. */
  | 'measure-on-site'
  /** Does not pass whole, but with its frames off. */
  | 'assemble-on-site'
  /** Does not pass even with its frames off. */
  | 'in-parts';

/** Pieces that travel alike, judged together. */
export interface PieceGroup {
  /** The first of them; all have its packed size, mass and name. */
  readonly piece: DeliveredPiece;
  readonly marks: readonly string[];
  readonly answer: PieceAnswer;
  readonly verdict: PieceVerdict;
  /** For `in-parts`: how many parts of this cross-section at least, where any length passes. */
  readonly parts: number | null;
}

const likeness = ({ piece, name, kind, massFrom, sizeFrom }: DeliveredPiece): string =>
  JSON.stringify([{ ...piece, id: '' }, name, kind, massFrom, sizeFrom]);

/**
 * Judges the pieces of a project on a way in. Pieces that travel alike form one group; groups keep the order of their
 * first piece.
 */
export const wayInVerdicts = (
  obstacles: readonly Obstacle[],
  pieces: readonly DeliveredPiece[],
): readonly PieceGroup[] => {
  const alike = new Map<string, DeliveredPiece[]>();
  for (const piece of pieces) {
    const key = likeness(piece);
    const group = alike.get(key);
    if (group) group.push(piece);
    else alike.set(key, [piece]);
  }
  const groups = [...alike.values()];
  const answers = checkWayIn({ obstacles, pieces: groups.map(([first]) => first!.piece) }).pieces;
  return groups.map((group, index) => {
    const piece = group[0]!;
    const answer = answers[index]!;
    const verdict = verdictOf(obstacles, piece, answer);
    return {
      piece,
      marks: group.map(({ mark }) => mark),
      answer,
      verdict,
      parts:
        verdict === 'in-parts' && answer.longestMm > 0 && answer.longestMm < piece.piece.lengthMm
          ? Math.ceil(piece.piece.lengthMm / answer.longestMm)
          : null,
    };
  });
};

const verdictOf = (
  obstacles: readonly Obstacle[],
  { framesOff }: DeliveredPiece,
  { passes, sure }: PieceAnswer,
): PieceVerdict => {
  if (!sure) return 'measure-on-site';
  if (passes) return 'passes';
  const without = framesOff && checkWayIn({ obstacles, pieces: [framesOff] }).pieces[0];
  return without?.passes && without.sure ? 'assemble-on-site' : 'in-parts';
};

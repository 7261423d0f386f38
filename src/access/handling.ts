import type { AccessPiece } from './wayInSchema.ts';

/** Names of a piece's three dimensions. */
export type Dimension = 'length' | 'width' | 'height';

/** Which way up a piece is held: its height, width or length vertical, or none of them. */
export type Orientation = 'upright' | 'on-edge' | 'on-end' | 'tilted';

/** Which dimensions the handling rule lets be vertical, and whether one end may be raised in a turn. */
export interface Handling {
  readonly verticals: readonly Dimension[];
  readonly mayPitchInTurns: boolean;
}

export const DIMENSIONS: readonly Dimension[] = ['length', 'width', 'height'];

/** Reads the handling rule of a piece. Upright is always allowed and comes first, so that it wins where two are equal. */
export const handlingOf = (piece: AccessPiece): Handling => {
  const free = piece.keepUpright !== true;
  const verticals: Dimension[] = ['height'];
  if (piece.mayGoOnEdge ?? free) verticals.push('width');
  if (piece.mayGoOnEnd ?? free) verticals.push('length');
  return { verticals, mayPitchInTurns: piece.mayPitchInTurns === true };
};

/** How a piece is carried with that dimension of it upright; null where it is tilted. */
export const orientationOf = (vertical: Dimension | null): Orientation => {
  switch (vertical) {
    case 'height':
      return 'upright';
    case 'width':
      return 'on-edge';
    case 'length':
      return 'on-end';
    case null:
      return 'tilted';
  }
};

/** One dimension of a piece, mm. */
export const sizeOf = (piece: AccessPiece, dimension: Dimension): number =>
  dimension === 'length' ? piece.lengthMm : dimension === 'width' ? piece.widthMm : piece.heightMm;

/** The two dimensions other than the one given, in the order length, width, height. */
export const otherTwo = (dimension: Dimension): readonly [Dimension, Dimension] =>
  dimension === 'length'
    ? ['width', 'height']
    : dimension === 'width'
      ? ['length', 'height']
      : ['length', 'width'];

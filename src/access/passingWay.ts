import type { RotationRows } from './boxRotation.ts';
import type { Dimension } from './handling.ts';

/** How the piece is moved past an obstacle. */
export type Manner = 'straight' | 'tilted' | 'swung' | 'slid' | 'pitched' | 'placed' | 'diagonal';

/** One way of taking a piece past one obstacle, passing or not. */
export interface PassingWay {
  /** The dimension that is vertical; null where the piece is tilted. */
  readonly vertical: Dimension | null;
  /** The dimension along the direction of travel, where one is. */
  readonly along: Dimension | null;
  /** The level dimension square to a pitched length. */
  readonly across?: 'width' | 'height';
  /** True on a slope where the piece is carried level, not parallel to it. */
  readonly level?: true;
  readonly manner: Manner;
  /** Clearance in mm, negative where it does not pass. What it measures is said by the obstacle's own module. */
  readonly marginMm: number;
  /** The longest `length` that passes this way with the piece's width and height; 0 where none does. */
  readonly longestMm: number;
  /** The angle of the tightest moment, where there is one, in radians. */
  readonly atRad?: number;
  /** Rotation in a lift car, where no edge is vertical. */
  readonly rows?: RotationRows;
  /** Which part of a compound obstacle this way is about. */
  readonly part?: 'door' | 'car' | 'flight' | 'landing';
}

/** Lengths closer than this, a nanometre, count as equal: it absorbs rounding of floating point, nothing else. */
export const EQUAL_MM = 1e-6;

/** Whether a margin in mm is enough: touching passes, within rounding. */
export const isPassing = (marginMm: number): boolean => marginMm >= -EQUAL_MM;

/** The way with the largest margin; the earlier one where two are equal. Throws on an empty list. */
export const bestWay = (ways: readonly PassingWay[]): PassingWay => {
  const first = ways[0];
  if (first === undefined) throw new Error('every piece has at least one way to be tried');
  return ways.reduce((best, way) => (way.marginMm > best.marginMm + EQUAL_MM ? way : best), first);
};

/** The longest piece, mm, that any of the ways lets by; 0 where there is none. */
export const longestOf = (ways: readonly PassingWay[]): number =>
  ways.reduce((longest, way) => Math.max(longest, way.longestMm), 0);

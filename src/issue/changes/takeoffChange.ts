import type { Money } from '../../units/money.ts';

/** What a change was about before or after: a length (with +/- at k = 2 where it has one), an amount, or words; null where there was nothing. */
export type ChangedValue =
  | { readonly lengthMm: number; readonly plusMinusMm?: number }
  | Money
  | string
  | null;

export type ChangeKind =
  | 'plan'
  | 'stock'
  | 'run'
  | 'length'
  | 'corner'
  | 'piece'
  | 'station'
  | 'leftover'
  | 'way-in'
  | 'price';

/** One change of a takeoff since it was last issued. */
export interface TakeoffChange {
  readonly kind: ChangeKind;
  /** Where in the takeoff: a run by its name, a sheet; empty for the whole. */
  readonly where: string;
  readonly what: string;
  readonly was: ChangedValue;
  readonly is: ChangedValue;
}

/** Below this, in mm, nobody would cut or set anything out differently: common practice, no source. */
export const sameLengthMm = 0.5;

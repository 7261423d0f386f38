import type { Box } from '../geometry/box.ts';

/** A viewport dictionary of a page (ISO 32000-1, 12.9.1), as plain data. */
export interface EmbeddedViewport {
  readonly box: Box;
  readonly name?: string;
  readonly measure?: RectilinearMeasure;
}

/** A rectilinear measure dictionary (ISO 32000-1, Table 262). */
export interface RectilinearMeasure {
  /** The scale ratio in words, such as `1in = 0.1 mi`; may be blank. */
  readonly ratioText: string;
  /** From user-space units along x to the largest unit; its last formats need not be there. */
  readonly x: readonly NumberFormat[];
  /** Along y, where it differs from x. */
  readonly y?: readonly NumberFormat[];
  /** Of a distance, from the largest unit of x downwards. */
  readonly distance: readonly NumberFormat[];
  readonly area: readonly NumberFormat[];
  /** Converts the y unit to the x unit, where y is given. */
  readonly yToX?: number;
}

/** A number format dictionary (ISO 32000-1, Table 263), with the standard's defaults filled in. */
export interface NumberFormat {
  /** U: the unit's label; often blank in files of CAD programs. */
  readonly unit: string;
  /** C: how many of this unit make one of the one before. */
  readonly factor: number;
  /** F: what to do with the fraction: decimal, fraction, round, truncate. */
  readonly fraction: 'D' | 'F' | 'R' | 'T';
  /** D: a power of ten for decimals (100 gives two places), or the denominator. */
  readonly precision: number;
  /** FD: keep trailing zeros, or the denominator as it is. */
  readonly keepsForm: boolean;
  /** RT: between groups of thousands. */
  readonly thousands: string;
  /** RD: the decimal mark. */
  readonly decimal: string;
  /** PS and SS: before and after the label. */
  readonly labelPrefix: string;
  readonly labelSuffix: string;
  /** O: the label stands as a suffix or prefix to the number. */
  readonly labelPosition: 'S' | 'P';
}

import type { PaperPoint } from '../geometry/point.ts';

/** A piece of text on one baseline. */
export interface TextRun {
  readonly text: string;
  /** Start of the baseline. */
  readonly origin: PaperPoint;
  /** Direction of the baseline, in radians from the page's x axis, in (-pi, pi]. */
  readonly angleRad: number;
  /** Font size, in user-space units after every transform. */
  readonly size: number;
  /** Advance along the baseline, in user-space units. */
  readonly width: number;
  /** Index into the sheet's layers, or NO_LAYER. */
  readonly layer: number;
  /** True for text that is not drawn: what a reader of pictures or outlines laid over the sheet, a little off. */
  readonly isInvisible?: true;
}

/** The centre of a run's letters: half way along, and half a capital's height (about 0.7 of the size) up. */
export const textCentre = ({ origin, angleRad, size, width }: TextRun): { x: number; y: number } => {
  const cosine = Math.cos(angleRad);
  const sine = Math.sin(angleRad);
  const up = 0.35 * size;
  return {
    x: origin.x + (width / 2) * cosine - up * sine,
    y: origin.y + (width / 2) * sine + up * cosine,
  };
};

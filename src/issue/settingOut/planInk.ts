import type { PenLine, Rgb } from '../drawing/paperPen.ts';

/** Colours of the Okabe-Ito set (2002, from memory), darkened for thin lines; each mark has its own line or hatch too. */
export const ink: Rgb = [0.1, 0.11, 0.12];
export const quiet: Rgb = [0.4, 0.42, 0.44];
export const blue: Rgb = [0, 0.36, 0.6];
export const green: Rgb = [0, 0.42, 0.31];
export const vermilion: Rgb = [0.7, 0.28, 0];
export const white: Rgb = [1, 1, 1];

/** Line widths from the series of ISO 128-2 (0.13, 0.18, 0.25, 0.35, 0.5, 0.7 mm; from memory). */
export const lines = {
  front: { widthMm: 0.7, colour: blue },
  back: { widthMm: 0.25, colour: blue, dashMm: [3, 1] },
  piece: { widthMm: 0.35, colour: ink },
  station: { widthMm: 0.35, colour: green },
  leftover: { widthMm: 0.35, colour: vermilion },
  opening: { widthMm: 0.25, colour: ink, dashMm: [2.4, 1.2] },
  blocked: { widthMm: 0.35, colour: ink },
  leader: { widthMm: 0.13, colour: ink },
  dimension: { widthMm: 0.13, colour: quiet },
  datum: { widthMm: 0.25, colour: ink },
} as const satisfies Readonly<Record<string, PenLine>>;

/** Heights of capitals in mm: nominal sizes 1.8, 2.5, 3.5, 5 and 7 of ISO 3098-1 (from memory). */
export const capital = { small: 1.8, usual: 2.5, title: 3.5, large: 5 } as const;

import type { XY } from './planPen.ts';

/** Points in a millimetre of paper, where UserUnit is 1. */
export const pointsPerMm = 72 / 25.4;

/** Where grid 1 meets grid A on the sheet, in millimetres of paper. */
export const demoPlanOrigin: XY = [100, 236];

/** Real millimetres in one millimetre of paper, for every view of the sheet. */
export const demoRatio = 50;

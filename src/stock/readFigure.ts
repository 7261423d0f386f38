import { readDecimal } from '../units/decimal.ts';

export type FigureReading =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly code: 'ambiguous-number' | 'not-a-number'; readonly message: string };

/**
 * Reads a number as typed into a cell, with a decimal point or comma. A lone mark before three digits could be either
 * thousands or decimals and is refused rather than guessed.
 *
 * @example readFigure('812,8') // { ok: true, value: 812.8 }
 */
export const readFigure = (cell: string): FigureReading => {
  const reading = readDecimal(cell, { comma: 'ambiguous', dot: 'ambiguous' });
  if (reading.ok)
    return { ok: true, value: Number(reading.value.numerator) / Number(reading.value.denominator) };
  return reading.reason === 'ambiguous'
    ? {
        ok: false,
        code: 'ambiguous-number',
        message: `"${cell}" could be thousands or decimals; write it without a group mark, or with a fourth decimal.`,
      }
    : {
        ok: false,
        code: 'not-a-number',
        message: `found "${cell}", expected a number such as 1200 or 812.8.`,
      };
};

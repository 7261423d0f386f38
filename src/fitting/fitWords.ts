import { type DisplayUnit, formatLength, formatPlusMinus } from '../units/formatLength.ts';
import { lengthText } from './lengthText.ts';
import { millimetres } from './micrometre.ts';

/** How the sentences of an answer write lengths; each function takes integer micrometres. */
export interface FitWords {
  /** Within a sum or beside other lengths, where the unit is understood. */
  readonly bare: (lengthUm: number) => string;
  readonly length: (lengthUm: number) => string;
  /** An expanded uncertainty (k = 2). */
  readonly plusMinus: (lengthUm: number) => string;
}

/** The words of the contract, as `footrail fit` prints them: millimetres, in ASCII. */
export const contractWords: FitWords = {
  bare: lengthText,
  length: (lengthUm) => `${lengthText(lengthUm)} mm`,
  plusMinus: (lengthUm) => `+/- ${lengthText(lengthUm)} mm`,
};

/**
 * The words of the screen and of documents, in the operator's unit. In ft-in every length carries its marks, in sums
 * too, and is rounded to a sixteenth of an inch, so that a sum may seem a sixteenth off for each term.
 *
 * @example displayWords('ft-in').length(2_400_000) // 7'-10 1/2"
 */
export const displayWords = (unit: DisplayUnit): FitWords => {
  if (unit === 'mm') return { ...contractWords, plusMinus: (lengthUm) => `± ${lengthText(lengthUm)} mm` };
  const length = (lengthUm: number) => formatLength(millimetres(lengthUm), { unit });
  return {
    bare: length,
    length,
    plusMinus: (lengthUm) => formatPlusMinus(millimetres(lengthUm), { unit }),
  };
};

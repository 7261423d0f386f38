/**
 * Typed decimals as exact integers: a number is read digit by digit and never passes through a float, so that
 * "0.1 in" is 2540 micrometres and not 2540.0000000000005.
 */

/** The exact value numerator / denominator; the denominator is positive. */
export interface Fraction {
  readonly numerator: bigint;
  readonly denominator: bigint;
}

/**
 * How a comma or a dot followed by exactly three digits is read: as a thousands mark, as a decimal mark, or not at
 * all, because a factor of a thousand would hang on a guess.
 */
export type ThreeDigitReading = 'thousands' | 'decimal' | 'ambiguous';

/** What {@link readDecimal} makes of a text. */
export type DecimalReading =
  | { readonly ok: true; readonly value: Fraction }
  | { readonly ok: false; readonly reason: 'not-a-number' | 'ambiguous' };

const decimal = (whole: string, part: string): DecimalReading => ({
  ok: true,
  value: { numerator: BigInt(whole + part), denominator: 10n ** BigInt(part.length) },
});

const notANumber: DecimalReading = { ok: false, reason: 'not-a-number' };

/**
 * Reads an unsigned decimal. Thousands may be grouped by spaces, or by a comma or dot where the other one is (or may
 * be) the decimal mark. `three` says what a lone comma or dot before exactly three digits means.
 *
 * @example readDecimal('3,60', { comma: 'thousands', dot: 'ambiguous' }) // 360 / 100
 * @example readDecimal('11,000', { comma: 'thousands', dot: 'ambiguous' }) // 11000 / 1
 */
export function readDecimal(
  text: string,
  three: { readonly comma: ThreeDigitReading; readonly dot: ThreeDigitReading },
): DecimalReading {
  if (!/^[\d., ]+$/.test(text)) return notANumber;
  if (text.includes(' ') && !/^\d{1,3}(?: \d{3})+(?:[.,]\d+)?$/.test(text)) return notANumber;
  const digits = text.replaceAll(' ', '');

  const plain = /^(\d+)(?:[.,](\d+))?$/.exec(digits) ?? /^()[.,](\d+)$/.exec(digits);
  if (plain !== null) {
    const whole = plain[1] ?? '';
    const part = plain[2] ?? '';
    // A group of thousands never starts with 0 and has one to three digits before its mark.
    const couldBeThousands = part.length === 3 && /^[1-9]\d{0,2}$/.test(whole) && !text.includes(' ');
    if (!couldBeThousands) return decimal(whole, part);
    const reading = digits.includes(',') ? three.comma : three.dot;
    if (reading === 'ambiguous') return { ok: false, reason: 'ambiguous' };
    return reading === 'thousands' ? decimal(whole + part, '') : decimal(whole, part);
  }

  const grouped =
    /^([1-9]\d{0,2}(?:,\d{3})+)(?:\.(\d+))?$/.exec(digits) ??
    /^([1-9]\d{0,2}(?:\.\d{3})+)(?:,(\d+))?$/.exec(digits);
  if (grouped === null || text.includes(' ')) return notANumber;
  return decimal((grouped[1] ?? '').replace(/[.,]/g, ''), grouped[2] ?? '');
}

/** The sum of two exact values. */
export const addFractions = (a: Fraction, b: Fraction): Fraction => ({
  numerator: a.numerator * b.denominator + b.numerator * a.denominator,
  denominator: a.denominator * b.denominator,
});

/** value x factor, rounded to the nearest whole number (a half goes up). Both must be zero or positive. */
export const scaleToWhole = (value: Fraction, factor: bigint): bigint =>
  (2n * value.numerator * factor + value.denominator) / (2n * value.denominator);

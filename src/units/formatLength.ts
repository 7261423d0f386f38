import { groupDigits, MINUS, NO_BREAK_SPACE } from './digitGroups.ts';

/** Units in which lengths are shown. */
export type DisplayUnit = 'mm' | 'ft-in';

/**
 * How a length is shown. `precision` is the number of decimals in mm (0 to 3, default 0), and the denominator of the
 * inch fraction in ft-in (1, 2, 4, 8, 16, 32 or 64, default 16).
 */
export interface LengthFormat {
  readonly unit: DisplayUnit;
  readonly precision?: number;
}

const MM_PER_INCH = 25.4;
const DENOMINATORS: readonly number[] = [1, 2, 4, 8, 16, 32, 64];

type Rounding = (value: number) => number;

/** Up, but not for the last bits that float arithmetic leaves behind. */
const roundUp: Rounding = (value) => Math.ceil(value - 1e-6);

function millimetres(sizeMm: number, decimals: number, round: Rounding): string {
  if (!Number.isInteger(decimals) || decimals < 0 || decimals > 3) {
    throw new RangeError(`Decimals of a millimetre must be 0 to 3, found ${decimals}`);
  }
  const steps = round(sizeMm * 10 ** decimals);
  const digits = String(steps).padStart(decimals + 1, '0');
  const whole = groupDigits(digits.slice(0, digits.length - decimals));
  const part = decimals === 0 ? '' : `.${digits.slice(digits.length - decimals)}`;
  return `${whole}${part}${NO_BREAK_SPACE}mm`;
}

function feetAndInches(sizeMm: number, denominator: number, round: Rounding): string {
  if (!DENOMINATORS.includes(denominator)) {
    throw new RangeError(
      `Denominator of an inch must be one of ${DENOMINATORS.join(', ')}, found ${denominator}`,
    );
  }
  const steps = round((sizeMm / MM_PER_INCH) * denominator);
  const feet = Math.floor(steps / (12 * denominator));
  const inches = Math.floor(steps / denominator) % 12;
  let numerator = steps % denominator;
  let lower = denominator;
  while (numerator !== 0 && numerator % 2 === 0) {
    numerator /= 2;
    lower /= 2;
  }
  const fraction = numerator === 0 ? '' : `${numerator}/${lower}`;
  const inchText = inches === 0 && fraction !== '' && feet === 0 ? fraction : `${inches} ${fraction}`.trim();
  return feet === 0 ? `${inchText}"` : `${groupDigits(String(feet))}'-${inchText}"`;
}

function format(sizeMm: number, { unit, precision }: LengthFormat, round: Rounding): string {
  if (!Number.isFinite(sizeMm)) throw new RangeError(`A length must be finite, found ${sizeMm}`);
  return unit === 'mm'
    ? millimetres(sizeMm, precision ?? 0, round)
    : feetAndInches(sizeMm, precision ?? 16, round);
}

/**
 * Shows a length, rounded to the nearest step; a negative one (a position before a straight's start) with a minus sign.
 *
 * @example formatLength(6248, { unit: 'mm' }) // '6 248 mm', with a thin and a no-break space
 * @example formatLength(3600.45, { unit: 'ft-in' }) // `11'-9 3/4"`
 */
export function formatLength(lengthMm: number, lengthFormat: LengthFormat): string {
  const shown = format(Math.abs(lengthMm), lengthFormat, Math.round);
  return lengthMm < 0 && /[1-9]/.test(shown) ? MINUS + shown : shown;
}

/**
 * Shows the half-width of an interval (k = 2 everywhere in this app), rounded up so that it never looks surer than it
 * is (JCGM 100:2008, 7.2.6 allows rounding up, from memory).
 *
 * @example formatPlusMinus(11.2, { unit: 'mm' }) // '± 12 mm'
 */
export function formatPlusMinus(plusMinusMm: number, lengthFormat: LengthFormat): string {
  return `±${NO_BREAK_SPACE}${format(Math.abs(plusMinusMm), lengthFormat, roundUp)}`;
}

import { addFractions, type Fraction, readDecimal, scaleToWhole } from './decimal.ts';

/** Units in which a length may be typed. */
export type LengthUnit = 'mm' | 'cm' | 'm' | 'in' | 'ft';

/** Why a typed length was refused. */
export type LengthErrorCode =
  | 'empty-length'
  | 'negative-length'
  | 'not-a-length'
  | 'unknown-unit'
  | 'ambiguous-separator'
  | 'inches-out-of-range'
  | 'bad-fraction'
  | 'length-too-long';

/** A typed length: whole micrometres, and the same in millimetres; or why it was refused and what to type instead. */
export type ParsedLength =
  | { readonly ok: true; readonly micrometres: number; readonly lengthMm: number }
  | { readonly ok: false; readonly code: LengthErrorCode; readonly message: string };

/** Micrometres in one unit. The inch is exactly 25.4 mm (international yard and pound agreement of 1959). */
export const MICROMETRES_PER: Readonly<Record<LengthUnit, number>> = {
  mm: 1_000,
  cm: 10_000,
  m: 1_000_000,
  in: 25_400,
  ft: 304_800,
};

/** The longest length that may be typed: 1 km. A longer one is a slip, not a bar. */
export const MAX_TYPED_LENGTH_MM = 1_000_000;

const MAX_TEXT_LENGTH = 64;

const VULGAR_FRACTIONS: Readonly<Record<string, string>> = {
  '½': '1/2',
  '⅓': '1/3',
  '⅔': '2/3',
  '¼': '1/4',
  '¾': '3/4',
  '⅕': '1/5',
  '⅖': '2/5',
  '⅗': '3/5',
  '⅘': '4/5',
  '⅙': '1/6',
  '⅚': '5/6',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

const UNIT_WORDS: Readonly<Record<string, LengthUnit>> = {
  mm: 'mm',
  cm: 'cm',
  m: 'm',
  in: 'in',
  'in.': 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  ft: 'ft',
  'ft.': 'ft',
  foot: 'ft',
  feet: 'ft',
  "'": 'ft',
};

const refuse = (code: LengthErrorCode, message: string): ParsedLength => ({ ok: false, code, message });

/** One spelling for each mark: straight quotes, ASCII slash and hyphen, plain spaces, "1 1/2" for "1½". */
const normalise = (text: string): string =>
  text
    .replace(/[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]/g, (sign) => ` ${VULGAR_FRACTIONS[sign] ?? ''}`)
    .replace(/[\u2044\u2215]/g, '/')
    .replace(/[\u2212\u2010-\u2015]/g, '-')
    .replace(/''|[\u2032\u2019]{2}|[\u2033\u201c\u201d]/g, '"')
    .replace(/[\u2032\u2018\u2019\u00b4`]/g, "'")
    .replace(/\s+/g, ' ')
    .trim()
    .toLowerCase();

type Reading =
  | { readonly ok: true; readonly value: Fraction }
  | { readonly ok: false; readonly error: ParsedLength };

/** A number with or without a fraction: `9`, `9.75`, `3/4`, `9 3/4`, `9-3/4`. */
function readNumber(text: string, unit: LengthUnit): Reading {
  const mixed = /^(?:(\d+)(?: | ?- ?))?(\d+) ?\/ ?(\d+)$/.exec(text);
  if (mixed !== null) {
    const denominator = BigInt(mixed[3] ?? '0');
    const numerator = BigInt(mixed[2] ?? '0');
    if (denominator === 0n || numerator >= denominator) {
      const message = `"${text}" has no proper fraction: write it as 9 3/4, the upper number smaller than the lower.`;
      return { ok: false, error: refuse('bad-fraction', message) };
    }
    const whole: Fraction = { numerator: BigInt(mixed[1] ?? '0'), denominator: 1n };
    return { ok: true, value: addFractions(whole, { numerator, denominator }) };
  }
  // "11,000" is a common way to write 11000 mm; "3,600 m" and "3.600 mm" each have two readings a thousandfold apart.
  const comma = unit === 'm' || unit === 'cm' ? 'ambiguous' : 'thousands';
  const dot = unit === 'mm' ? 'ambiguous' : 'decimal';
  const reading = readDecimal(text, { comma, dot });
  if (reading.ok) return { ok: true, value: reading.value };
  if (reading.reason === 'ambiguous') {
    const message = `"${text}" ${unit} can be read in two ways, a thousandfold apart: write it without the separator, as 3600 mm or 3.6 m.`;
    return { ok: false, error: refuse('ambiguous-separator', message) };
  }
  return {
    ok: false,
    error: refuse(
      'not-a-length',
      `"${text}" is not a number: type a length such as 3600, 3.6 m or 11'-9 3/4".`,
    ),
  };
}

function accept(parts: readonly { readonly value: Fraction; readonly unit: LengthUnit }[]): ParsedLength {
  const inMicrometres = parts
    .map(({ value, unit }) => ({
      numerator: value.numerator * BigInt(MICROMETRES_PER[unit]),
      denominator: value.denominator,
    }))
    .reduce(addFractions, { numerator: 0n, denominator: 1n });
  const micrometres = scaleToWhole(inMicrometres, 1n);
  if (micrometres > BigInt(MAX_TYPED_LENGTH_MM) * 1000n) {
    return refuse('length-too-long', 'The length is over 1 km: check its unit.');
  }
  return { ok: true, micrometres: Number(micrometres), lengthMm: Number(micrometres) / 1000 };
}

/** Feet and inches together: `11'-9 3/4"`, `11' 9.75`, `12 ft 6 in`. */
function parseFeetAndInches(feetText: string, inchText: string): ParsedLength {
  if (!/^\d+$/.test(feetText)) {
    return refuse(
      'not-a-length',
      `"${feetText}" feet: with inches behind them, feet must be a whole number.`,
    );
  }
  const inches = readNumber(inchText, 'in');
  if (!inches.ok) return inches.error;
  if (inches.value.numerator >= 12n * inches.value.denominator) {
    return refuse('inches-out-of-range', `"${inchText}" inches behind feet must be less than 12.`);
  }
  return accept([
    { value: { numerator: BigInt(feetText), denominator: 1n }, unit: 'ft' },
    { value: inches.value, unit: 'in' },
  ]);
}

/**
 * Reads a length as a person types it. A number without a unit takes `defaultUnit`. Accepted: `3600`, `3600 mm`,
 * `360 cm`, `3.6 m`, `3,60 m`, `3 600`, `11,000` (thousands), `11'-9 3/4"`, `11' 9.75"`, `9 3/4"`, `12 ft 6 in`, with
 * typographic primes and fractions too. What is finer than a micrometre is rounded to the nearest one. From 0 to 1 km;
 * a minus sign is refused, and so is a separator that may mean thousands or decimals.
 *
 * @example parseLength(`11'-9 3/4"`, { defaultUnit: 'mm' }) // { ok: true, micrometres: 3600450, lengthMm: 3600.45 }
 * @example parseLength('-5', { defaultUnit: 'mm' }) // { ok: false, code: 'negative-length', message: … }
 */
export function parseLength(text: string, options: { readonly defaultUnit: LengthUnit }): ParsedLength {
  if (text.length > MAX_TEXT_LENGTH) {
    return refuse(
      'not-a-length',
      `A length has at most ${MAX_TEXT_LENGTH} characters, found ${text.length}.`,
    );
  }
  const typed = normalise(text);
  if (typed === '') return refuse('empty-length', 'Type a length, such as 3600 or 3.6 m.');
  if (typed.startsWith('-'))
    return refuse('negative-length', 'A length cannot be negative: leave out the minus sign.');

  const feetAndInches =
    /^([\d., /]+?) ?(?:'|ft\.?|foot|feet) ?-? ?(\d[\d., /-]*?) ?(?:"|in\.?|inch|inches)?$/.exec(typed);
  if (feetAndInches !== null) return parseFeetAndInches(feetAndInches[1] ?? '', feetAndInches[2] ?? '');

  const numberAndUnit = /^([\d.,][\d., /-]*?) ?([a-z]+\.?|"|')?$/.exec(typed);
  if (numberAndUnit === null) {
    return refuse('not-a-length', `"${text.trim()}" is not a length: type it as 3600, 3.6 m or 11'-9 3/4".`);
  }
  const word = numberAndUnit[2];
  const unit = word === undefined ? options.defaultUnit : UNIT_WORDS[word];
  if (unit === undefined) {
    return refuse('unknown-unit', `"${word}" is not a length unit: use mm, cm, m, ft or in.`);
  }
  const value = readNumber(numberAndUnit[1] ?? '', unit);
  return value.ok ? accept([{ value: value.value, unit }]) : value.error;
}

/**
 * Whole micrometres of a length in millimetres, to the nearest. Throws a RangeError where that is no safe integer.
 *
 * @example micrometresOf(3.175) // 3175
 */
export function micrometresOf(lengthMm: number): number {
  const micrometres = Math.round(lengthMm * 1000);
  if (!Number.isSafeInteger(micrometres)) throw new RangeError(`No whole micrometres: ${lengthMm} mm`);
  return micrometres === 0 ? 0 : micrometres;
}

/** Millimetres of whole micrometres. */
export const millimetresOf = (micrometres: number): number => micrometres / 1000;

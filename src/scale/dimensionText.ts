/** A unit that a drawing's dimensions may be in. */
export type DrawingUnit = 'mm' | 'cm' | 'm' | 'in' | 'ft';

export const MM_PER_UNIT: Readonly<Record<DrawingUnit, number>> = {
  mm: 1,
  cm: 10,
  m: 1000,
  in: 25.4,
  ft: 304.8,
};

/** A text that can be a dimension. */
export interface DimensionText {
  readonly kind: 'dimension';
  /** The number as written, in `unit` or in the sheet's drawing unit. */
  readonly value: number;
  /** The step in which it is written: 1 for `3600`, 0.01 for `3.60`. Same unit as `value`. */
  readonly step: number;
  /** Given where the text or its form says so. */
  readonly unit?: DrawingUnit;
  /** Whether the unit is written out, or follows from the form of the number only. */
  readonly unitFrom: 'written' | 'form' | 'none';
}

/** A text that is none, and what it is. */
export interface NoDimension {
  readonly kind:
    | 'area'
    | 'level'
    | 'number'
    | 'date'
    | 'slope'
    | 'angle'
    | 'height'
    | 'size'
    | 'diameter'
    | 'words';
}

const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const VULGAR: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '⅓': '1/3',
  '⅔': '2/3',
};

const UNIT_WORDS: Readonly<Record<string, DrawingUnit>> = {
  mm: 'mm',
  cm: 'cm',
  m: 'm',
  mt: 'm',
  in: 'in',
  inch: 'in',
  ft: 'ft',
};

const LONGEST_TEXT = 32;

/** One spelling for each mark: straight primes, ASCII slash and hyphen, plain spaces, `6 1/2` for `6½`. */
const normalise = (text: string): string =>
  text
    .replace(/[½¼¾⅛⅜⅝⅞⅓⅔]/g, (sign) => ` ${VULGAR[sign]}`)
    .replace(/[⁄∕]/g, '/')
    .replace(/[−‐-―]/g, '-')
    .replace(/''|[′’]{2}|[″“”]/g, '"')
    .replace(/[′‘’´`]/g, "'")
    .replace(/\s+/g, ' ')
    .trim();

/**
 * Reads a text of a drawing as a dimension, or says what else it is.
 *
 * Forms: `3600`, `3.600`, `3,60`, `360`, `11,000`, `3 600`, `36⁵`, `3,60⁵`, `12'-6 1/2"`, `12' 6"`, `6 1/2"`, with or
 * without a unit, in brackets, after `=` of a sum (`3 x 600 = 1800`), before `TYP`.
 *
 * A form that decides its unit (DESIGN section 5): feet and inch marks; two or three decimals are metres; thousands
 * groups are mm. A plain whole number leaves it open.
 *
 * @example readDimensionText('3,60') // { kind: 'dimension', value: 3.6, step: 0.01, unit: 'm', unitFrom: 'form' }
 * @example readDimensionText('12.50 m²') // { kind: 'area' }
 */
export const readDimensionText = (raw: string): DimensionText | NoDimension => {
  if (raw.length > LONGEST_TEXT || !/\d|[½¼¾⅛⅜⅝⅞]/.test(raw)) return { kind: 'words' };
  const text = normalise(raw);
  const other = kindOfOther(text);
  if (other) return other;
  const bare = stripSurroundings(text);
  return readImperial(bare) ?? readMetric(bare) ?? readDual(bare) ?? { kind: 'words' };
};

/** The same length in two units, the second in brackets: `3600 [11'-9 3/4"]`; they must say the same. */
const readDual = (text: string): DimensionText | null => {
  const match = /^([^[(]+?)\s*[[(]\s*([^\])]+?)\s*[\])]$/.exec(text);
  if (!match) return null;
  const [first, second] = match.slice(1).map((side) => readImperial(side) ?? readMetric(side));
  if (first?.kind !== 'dimension' || second?.kind !== 'dimension') return null;
  const [known, open] = second.unit ? [second, first] : [first, second];
  if (!known.unit) return null;
  const knownMm = known.value * MM_PER_UNIT[known.unit];
  const roundingMm = (known.step / 2) * MM_PER_UNIT[known.unit];
  const unit = (['mm', 'cm', 'm', 'in', 'ft'] as const).find(
    (candidate) =>
      (open.unit ?? candidate) === candidate &&
      Math.abs(open.value * MM_PER_UNIT[candidate] - knownMm) <=
        roundingMm + (open.step / 2) * MM_PER_UNIT[candidate] + 0.002 * knownMm,
  );
  if (!unit) return null;
  const isOpenFiner = open.step * MM_PER_UNIT[unit] <= known.step * MM_PER_UNIT[known.unit];
  return isOpenFiner ? { ...open, unit, unitFrom: 'written' } : known;
};

const kindOfOther = (text: string): NoDimension | null => {
  if (/\d\s*(?:m²|m2|mq|sqm|sq\.? ?(?:m|ft)\b|sf\b|ft²|ft2|cm²|cm2|m\^2)/i.test(text))
    return { kind: 'area' };
  if (/%|‰|\d\s*:\s*\d/.test(text)) return { kind: 'slope' };
  if (/°/.test(text)) return { kind: 'angle' };
  if (/^[Øø⌀Φφ∅]/.test(text) || /^dia\b|^dn\s?\d/i.test(text)) return { kind: 'diameter' };
  if (
    /^\+(?!\/-)|^±\s*0|^±\s*\d*[.,]|^-\s?\d|[▼▽△▲]/.test(text) ||
    /\b(?:ffl|ssl|sfl|rl|el|lvl|level)\b/i.test(text)
  )
    return { kind: 'level' };
  if (/^(?:h|ht|ch|hp|sill|cill|bh|br|ok|uk)\s*[=.:]?\s*\d/i.test(text)) return { kind: 'height' };
  if (/^\d{1,4}[./-]\d{1,2}[./-]\d{1,4}$/.test(text)) return { kind: 'date' };
  if (/^(?:0?[1-9]|1[0-2])\/(?:19|20)\d\d$/.test(text)) return { kind: 'date' };
  if (/\d['"]?\s*[x×*]\s*\d/i.test(text) && !text.includes('=')) return { kind: 'size' };
  return null;
};

/** Brackets of a reference dimension, the sum before `=`, and words that go with dimensions. */
const stripSurroundings = (text: string): string => {
  let bare = text
    .replace(/^.*=\s*/, '')
    .replace(/^(?:[±~≈]|\+\/-|c(?:a|irca)?\.?(?= )|approx\.?)\s*|\s*[±~]$|\s*\+\/-$/i, '');
  bare = bare.replace(/^[([]\s*(.*?)\s*[)\]]$/, '$1');
  return bare.replace(/\s*\(?(?:typ\.?|nom\.?|o\/a|c\/c|clear|clr\.?)\)?$/i, '').trim();
};

const readImperial = (text: string): DimensionText | null => {
  const match =
    /^(?:(\d+(?:\.\d+)?)\s*(?:'|ft\.?|feet)\s*-?\s*)?(?:(\d+(?:\.\d+)?)?(?:\s*-?\s*(\d+)\/(\d+))?\s*("|in\.?|inch|inches)?)?$/i.exec(
      text,
    );
  if (!match) return null;
  const [, feetText, inchText, upper, lower, inchMark] = match;
  const hasInches = inchText !== undefined || upper !== undefined;
  if (feetText === undefined && !(hasInches && inchMark)) return null;
  if (feetText !== undefined && !hasInches) {
    return {
      kind: 'dimension',
      value: Number(feetText) * 12,
      step: feetText.includes('.') ? stepOf(feetText) * 12 : 1,
      unit: 'in',
      unitFrom: 'written',
    };
  }
  let whole = inchText;
  let numerator = upper;
  // `6 1/2` may be written `61/2` once a stacked fraction has lost its gap: an improper fraction is two numbers.
  if (whole === undefined && numerator !== undefined && Number(numerator) >= Number(lower)) {
    whole = numerator.slice(0, -1) || undefined;
    numerator = numerator.slice(-1);
  }
  const denominator = Number(lower ?? 1);
  const fraction = numerator === undefined ? 0 : Number(numerator) / denominator;
  if (denominator === 0 || fraction >= 1) return null;
  const inches = Number(whole ?? 0) + fraction;
  if (feetText !== undefined && (inches >= 12 || /^\d{3}/.test(whole ?? ''))) return null;
  const value = Number(feetText ?? 0) * 12 + inches;
  if (value === 0) return null;
  const step = numerator !== undefined ? 1 / denominator : whole?.includes('.') ? stepOf(whole) : 1;
  return { kind: 'dimension', value, step, unit: 'in', unitFrom: 'written' };
};

const stepOf = (decimal: string): number => 10 ** -(decimal.split('.')[1]?.length ?? 0);

const readMetric = (text: string): DimensionText | NoDimension | null => {
  const match = /^(\d[\d.,' ]*)([⁰¹²³⁴⁵⁶⁷⁸⁹]?)\s*([a-z]{1,4})?\.?$/i.exec(text);
  if (!match) return null;
  const [, digits = '', superscript = '', word] = match;
  const written = word === undefined ? undefined : UNIT_WORDS[word.toLowerCase()];
  if (word !== undefined && written === undefined) return null;
  const number = readNumber(digits.trim());
  if (!number) return null;
  let { value, step } = number;
  if (superscript !== '') {
    // The raised digit of masonry drawings is a further place: 36⁵ cm is 36.5 cm, 3,60⁵ m is 3.605 m.
    step = step / 10;
    value += SUPERSCRIPTS.indexOf(superscript) * step;
  }
  if (!(value > 0)) return { kind: 'level' };
  if (written) return { kind: 'dimension', value, step, unit: written, unitFrom: 'written' };
  if (number.form === 'thousands') return { kind: 'dimension', value, step, unit: 'mm', unitFrom: 'form' };
  if (number.form === 'metres') return { kind: 'dimension', value, step, unit: 'm', unitFrom: 'form' };
  if (number.form === 'whole' && superscript !== '') {
    return { kind: 'dimension', value, step, unit: 'cm', unitFrom: 'form' };
  }
  if (number.form === 'whole' && (value < 10 || digits.trim().startsWith('0'))) return { kind: 'number' };
  return { kind: 'dimension', value, step, unitFrom: 'none' };
};

interface WrittenNumber {
  readonly value: number;
  readonly step: number;
  readonly form: 'whole' | 'thousands' | 'metres' | 'decimal';
}

const readNumber = (digits: string): WrittenNumber | null => {
  if (/^\d+$/.test(digits)) return { value: Number(digits), step: 1, form: 'whole' };
  if (/^\d{1,3}(?:[' ]\d{3})+$/.test(digits) || /^\d{1,3}(?:,\d{3})+$/.test(digits)) {
    return { value: Number(digits.replace(/\D/g, '')), step: 1, form: 'thousands' };
  }
  const thousandsAndDecimals = /^(\d{1,3}(?:,\d{3})+)\.(\d+)$/.exec(digits);
  if (thousandsAndDecimals) {
    const [, whole = '', decimals = ''] = thousandsAndDecimals;
    return {
      value: Number(`${whole.replace(/,/g, '')}.${decimals}`),
      step: 10 ** -decimals.length,
      form: 'thousands',
    };
  }
  const decimal = /^(\d+)[.,](\d+)$/.exec(digits);
  if (!decimal) return null;
  const [, whole = '', decimals = ''] = decimal;
  const isMetres = whole.length <= 3 && (decimals.length === 2 || decimals.length === 3);
  return {
    value: Number(`${whole}.${decimals}`),
    step: 10 ** -decimals.length,
    form: isMetres ? 'metres' : 'decimal',
  };
};

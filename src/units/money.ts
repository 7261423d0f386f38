import { readDecimal, scaleToWhole } from './decimal.ts';
import { groupDigits, MINUS, NO_BREAK_SPACE } from './digitGroups.ts';

/** An amount in whole minor units (cents) of an ISO 4217 currency. Floats never enter. */
export interface Money {
  readonly minor: number;
  readonly currency: string;
}

/** A typed amount, or why it was refused. */
export type ParsedMoney =
  | { readonly ok: true; readonly money: Money }
  | { readonly ok: false; readonly code: MoneyErrorCode; readonly message: string };

/** Why a typed amount was refused. */
export type MoneyErrorCode =
  | 'empty-amount'
  | 'not-an-amount'
  | 'ambiguous-separator'
  | 'amount-too-fine'
  | 'amount-too-large';

const withMinorDigits = (digits: number, codes: string): readonly (readonly [string, number])[] =>
  codes.split(' ').map((code) => [code, digits] as const);

/** Currencies whose minor unit is not 1/100 (ISO 4217 list one). */
const MINOR_DIGITS: ReadonlyMap<string, number> = new Map([
  ...withMinorDigits(0, 'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF'),
  ...withMinorDigits(3, 'BHD IQD JOD KWD LYD OMR TND'),
  ...withMinorDigits(4, 'CLF UYW'),
]);

/** How many decimals the minor unit of a currency takes: 2 for EUR, 0 for JPY, 3 for KWD. */
export const minorDigitsOf = (currency: string): number => MINOR_DIGITS.get(currency) ?? 2;

/** An amount of whole minor units. Throws a RangeError where `minor` is no safe integer or `currency` no code. */
export function moneyOf(minor: number, currency: string): Money {
  if (!Number.isSafeInteger(minor))
    throw new RangeError(`An amount must be whole minor units, found ${minor}`);
  if (!/^[A-Z]{3}$/.test(currency))
    throw new RangeError(`A currency must be an ISO 4217 code, found "${currency}"`);
  return { minor: minor === 0 ? 0 : minor, currency };
}

/** The sum of amounts in one currency; an empty list sums to zero. Throws where a currency differs. */
export function sumMoney(amounts: readonly Money[], currency: string): Money {
  let minor = 0;
  for (const amount of amounts) {
    if (amount.currency !== currency) throw new RangeError(`Cannot add ${amount.currency} to ${currency}`);
    minor += amount.minor;
    if (!Number.isSafeInteger(minor)) throw new RangeError(`The sum is too large: ${minor} minor units`);
  }
  return moneyOf(minor, currency);
}

/** An amount times a whole quantity. */
export function timesQuantity(amount: Money, quantity: number): Money {
  if (!Number.isSafeInteger(quantity)) throw new RangeError(`A quantity must be whole, found ${quantity}`);
  return moneyOf(amount.minor * quantity, amount.currency);
}

/**
 * A share of an amount, such as a tax or a margin, in whole basis points (1/100 %), rounded to the nearest minor unit,
 * a half away from zero.
 *
 * @example shareOf(moneyOf(1050, 'EUR'), 2000) // 20 % of 10.50 EUR: { minor: 210, currency: 'EUR' }
 */
export function shareOf(amount: Money, basisPoints: number): Money {
  if (!Number.isSafeInteger(basisPoints))
    throw new RangeError(`Basis points must be whole, found ${basisPoints}`);
  const product = BigInt(amount.minor) * BigInt(basisPoints);
  const size = scaleToWhole({ numerator: product < 0n ? -product : product, denominator: 10_000n }, 1n);
  return moneyOf(Number(product < 0n ? -size : size), amount.currency);
}

/**
 * Shows an amount with its currency code, thin spaces between thousands and a dot before the minor unit.
 *
 * @example formatMoney(moneyOf(123450, 'EUR')) // 'EUR 1 234.50'
 */
export function formatMoney({ minor, currency }: Money): string {
  const decimals = minorDigitsOf(currency);
  const digits = String(Math.abs(minor)).padStart(decimals + 1, '0');
  const whole = groupDigits(digits.slice(0, digits.length - decimals));
  const part = decimals === 0 ? '' : `.${digits.slice(digits.length - decimals)}`;
  return `${currency}${NO_BREAK_SPACE}${minor < 0 ? MINUS : ''}${whole}${part}`;
}

const refuse = (code: MoneyErrorCode, message: string): ParsedMoney => ({ ok: false, code, message });

/**
 * Reads an amount as typed, without a currency sign: `1234.50`, `1 234,50`, `1,234.50`, `-12`. Refuses decimals finer
 * than the minor unit, and three digits behind a lone comma or dot where the currency has no third decimal.
 *
 * @example parseMoney('1,234.50', 'EUR') // { ok: true, money: { minor: 123450, currency: 'EUR' } }
 */
export function parseMoney(text: string, currency: string): ParsedMoney {
  const decimals = minorDigitsOf(currency);
  const typed = text
    .replace(/[\u2212\u2010-\u2015]/g, '-')
    .replace(/\s+/g, ' ')
    .trim();
  if (typed === '') return refuse('empty-amount', 'Type an amount, such as 1234.50.');
  const isNegative = typed.startsWith('-');
  const three = decimals === 3 ? ('decimal' as const) : ('ambiguous' as const);
  const reading = readDecimal(isNegative ? typed.slice(1).trim() : typed, { comma: three, dot: three });
  if (!reading.ok) {
    return reading.reason === 'ambiguous'
      ? refuse('ambiguous-separator', `"${typed}": write the thousands without a separator, such as 1234.50.`)
      : refuse('not-an-amount', `"${typed}" is not an amount: type it as 1234.50.`);
  }
  const minor = reading.value.numerator * 10n ** BigInt(decimals);
  if (minor % reading.value.denominator !== 0n) {
    return refuse('amount-too-fine', `"${typed}": ${currency} has ${decimals} decimals.`);
  }
  const whole = Number(minor / reading.value.denominator);
  if (!Number.isSafeInteger(whole)) return refuse('amount-too-large', `"${typed}" is too large an amount.`);
  return { ok: true, money: moneyOf(isNegative ? -whole : whole, currency) };
}

import { addFractions, type Fraction, scaleToWhole } from '../units/decimal.ts';
import { type Money, minorDigitsOf, moneyOf } from '../units/money.ts';

/**
 * A number of a stock range as the exact decimal that it was written as: 0.19 is 19/100, not the nearest float. Throws
 * for what is negative or not finite, which a checked range does not hold.
 */
export const decimalFraction = (value: number): Fraction => {
  if (!(value >= 0 && Number.isFinite(value)))
    throw new RangeError(`A price must be zero or more, found ${value}`);
  const [digits = '0', exponent = '0'] = String(value).split('e');
  const [whole = '0', part = ''] = digits.split('.');
  const places = part.length - Number(exponent);
  const numerator = BigInt(whole + part);
  return places >= 0
    ? { numerator, denominator: 10n ** BigInt(places) }
    : { numerator: numerator * 10n ** BigInt(-places), denominator: 1n };
};

/** A price that may grow with a length: `base + ratePerMm x lengthMm`, in whole currency units. */
export interface RatedPrice {
  readonly base: number;
  readonly ratePerMm: number;
  /** Charged length in mm, taken to the micrometre. */
  readonly lengthMm: number;
}

/**
 * The exact price of one, rounded once to the minor unit of the currency, a half away from zero.
 *
 * @example ratedMoney({ base: 85, ratePerMm: 0.4, lengthMm: 37 }, 'EUR') // 99.80 EUR
 */
export const ratedMoney = ({ base, ratePerMm, lengthMm }: RatedPrice, currency: string): Money => {
  const lengthUm = Math.round(lengthMm * 1000);
  if (!Number.isSafeInteger(lengthUm) || lengthUm < 0)
    throw new RangeError(`A charged length must be zero or more, found ${lengthMm} mm`);
  const rate = decimalFraction(ratePerMm);
  const exact = addFractions(decimalFraction(base), {
    numerator: rate.numerator * BigInt(lengthUm),
    denominator: rate.denominator * 1000n,
  });
  return moneyOf(Number(scaleToWhole(exact, 10n ** BigInt(minorDigitsOf(currency)))), currency);
};

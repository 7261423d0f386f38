import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  formatMoney,
  minorDigitsOf,
  moneyOf,
  parseMoney,
  shareOf,
  sumMoney,
  timesQuantity,
} from '../../src/units/money.ts';
import { campaignSize } from '../campaign/campaignSize.ts';

describe('money', () => {
  it('adds cents without the error of floats', () => {
    expect(sumMoney([moneyOf(10, 'EUR'), moneyOf(20, 'EUR')], 'EUR')).toEqual(moneyOf(30, 'EUR'));
    expect(sumMoney([], 'EUR')).toEqual(moneyOf(0, 'EUR'));
    expect(timesQuantity(moneyOf(1995, 'EUR'), 3)).toEqual(moneyOf(5985, 'EUR'));
  });

  it('refuses fractions of a cent, mixed currencies and sums that are no longer exact', () => {
    expect(() => moneyOf(0.5, 'EUR')).toThrow(RangeError);
    expect(() => moneyOf(1, 'euro')).toThrow(RangeError);
    expect(() => sumMoney([moneyOf(1, 'USD')], 'EUR')).toThrow(RangeError);
    expect(() => timesQuantity(moneyOf(1, 'EUR'), 1.5)).toThrow(RangeError);
    expect(() => sumMoney([moneyOf(2 ** 53 - 1, 'EUR'), moneyOf(1, 'EUR')], 'EUR')).toThrow(RangeError);
  });

  it('takes shares to the nearest cent, a half away from zero', () => {
    expect(shareOf(moneyOf(1050, 'EUR'), 2000)).toEqual(moneyOf(210, 'EUR'));
    expect(shareOf(moneyOf(5, 'EUR'), 1000)).toEqual(moneyOf(1, 'EUR'));
    expect(shareOf(moneyOf(-5, 'EUR'), 1000)).toEqual(moneyOf(-1, 'EUR'));
    expect(shareOf(moneyOf(4, 'EUR'), 1000)).toEqual(moneyOf(0, 'EUR'));
  });

  // Oracle: Node's Intl, whose digits come from Unicode CLDR: those of ISO 4217, but 0 for currencies whose coins are
  // out of use. Only such zeros may differ.
  it('knows the minor unit of each currency as ISO 4217 has it', () => {
    const currencies = Intl.supportedValuesOf('currency');
    const differing = currencies.filter((currency) => {
      const { maximumFractionDigits } = new Intl.NumberFormat('en', {
        style: 'currency',
        currency,
      }).resolvedOptions();
      return maximumFractionDigits !== 0 && maximumFractionDigits !== minorDigitsOf(currency);
    });
    expect(currencies.length).toBeGreaterThan(100);
    expect(differing).toEqual([]);
    // ISO 4217 list one (from memory): no minor unit; thousandths; ten-thousandths.
    expect(['JPY', 'KRW', 'ISK', 'KWD', 'TND', 'CLF', 'HUF', 'EUR'].map(minorDigitsOf)).toEqual([
      0, 0, 0, 3, 3, 4, 2, 2,
    ]);
  });

  it('shows amounts with the digits that Intl shows', () => {
    const currency = fc.constantFrom('EUR', 'GBP', 'JPY', 'KWD', 'AUD');
    fc.assert(
      fc.property(fc.integer({ min: -(10 ** 12), max: 10 ** 12 }), currency, (minor, code) => {
        const oracle = new Intl.NumberFormat('en', {
          style: 'currency',
          currency: code,
          currencyDisplay: 'code',
        });
        const value = minor / 10 ** minorDigitsOf(code);
        const digits = (text: string): string => text.replace(/[^\d.]/g, '');
        expect(digits(formatMoney(moneyOf(minor, code)))).toBe(digits(oracle.format(value)));
      }),
      { seed: 42, numRuns: campaignSize({ sample: 100, full: 5_000 }) },
    );
    expect(formatMoney(moneyOf(123450, 'EUR'))).toBe('EUR\u00a01\u202f234.50');
    expect(formatMoney(moneyOf(-5, 'EUR'))).toBe('EUR\u00a0\u22120.05');
    expect(formatMoney(moneyOf(1500, 'JPY'))).toBe('JPY\u00a01\u202f500');
  });
});

describe('a typed amount', () => {
  const minor = (text: string, currency = 'EUR'): number | string => {
    const parsed = parseMoney(text, currency);
    return parsed.ok ? parsed.money.minor : parsed.code;
  };

  it.each([
    ['1234.50', 123450],
    ['1 234,5', 123450],
    ['1,234.50', 123450],
    ['-12', -1200],
    ['0.10', 10],
  ])('reads %s', (text, expected) => {
    expect(minor(text)).toBe(expected);
  });

  it('refuses what it would have to guess', () => {
    expect(minor('1,234')).toBe('ambiguous-separator');
    expect(minor('1.2345')).toBe('amount-too-fine');
    expect(minor('ten')).toBe('not-an-amount');
    expect(minor('')).toBe('empty-amount');
    expect(minor('9'.repeat(30))).toBe('amount-too-large');
    expect(minor('1.5', 'JPY')).toBe('amount-too-fine');
    expect(minor('1.234', 'KWD')).toBe(1234);
  });
});

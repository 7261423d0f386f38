import { describe, expect, it } from 'vitest';
import { defaultQuoteSettings, quoteSettingsSchema, validUntil } from '../../src/quote/quoteSettings.ts';
import { quoteTotals } from '../../src/quote/quoteTotals.ts';
import { moneyOf, timesQuantity } from '../../src/units/money.ts';

const settings = defaultQuoteSettings('2027-01-15');
const eur = (minor: number) => moneyOf(minor, 'EUR');

describe('the sums of a quote', () => {
  it('come out as in the published base example of Peppol BIS Billing 3.0 (rules/examples/base-example.xml)', () => {
    // Lines 7 x 400 and -3 x 500, a charge of 25 on the document, VAT at 25 %: 1300, 1325, 331.25, 1656.25.
    const lines = [timesQuantity(eur(40_000), 7), timesQuantity(eur(50_000), -3)];
    const totals = quoteTotals(
      lines,
      { ...settings, freightMinor: 2_500, tax: { name: 'VAT', basisPoints: 2_500 } },
      'EUR',
    );
    expect(totals.goods.minor).toBe(130_000);
    expect(totals.net.minor).toBe(132_500);
    expect(totals.tax?.minor).toBe(33_125);
    expect(totals.total.minor).toBe(165_625);
  });

  it('round discount and tax once, a half away from zero', () => {
    // 10.10 less 2.5 % (0.2525) is 9.85; 19 % of that is 1.8715.
    const totals = quoteTotals(
      [eur(1_010)],
      { ...settings, discountBasisPoints: 250, tax: { name: 'VAT', basisPoints: 1_900 } },
      'EUR',
    );
    expect([totals.discount.minor, totals.net.minor, totals.tax?.minor, totals.total.minor]).toEqual([
      25, 985, 187, 1_172,
    ]);
    // 5 % of 0.10 is half a cent.
    expect(quoteTotals([eur(10)], { ...settings, discountBasisPoints: 500 }, 'EUR').discount.minor).toBe(1);
  });

  it('leave out what no amount is given for', () => {
    expect(quoteTotals([eur(100)], settings, 'EUR')).toMatchObject({
      freight: null,
      installation: null,
      tax: null,
      total: eur(100),
    });
  });
});

describe('the settings of a quote', () => {
  it('count days over a leap day: 2028 is a leap year, 2100 is not (Gregorian calendar)', () => {
    expect(validUntil('2028-02-28', 1)).toBe('2028-02-29');
    expect(validUntil('2100-02-28', 1)).toBe('2100-03-01');
    expect(validUntil('2026-12-15', 30)).toBe('2027-01-14');
  });

  it('are refused with a discount above the whole and a date that is none', () => {
    expect(quoteSettingsSchema.safeParse(settings).success).toBe(true);
    expect(quoteSettingsSchema.safeParse({ ...settings, discountBasisPoints: 10_001 }).success).toBe(false);
    expect(quoteSettingsSchema.safeParse({ ...settings, date: '2027-02-30' }).success).toBe(false);
    expect(quoteSettingsSchema.safeParse({ ...settings, freightMinor: 10.5 }).success).toBe(false);
  });
});

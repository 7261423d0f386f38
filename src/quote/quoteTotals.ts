import { type Money, moneyOf, shareOf, sumMoney } from '../units/money.ts';
import type { QuoteSettings } from './quoteSettings.ts';

/** The sums of a quote. Amounts in minor units, exact. */
export interface QuoteTotals {
  readonly goods: Money;
  /** Zero or more, to be taken off the goods. */
  readonly discount: Money;
  readonly freight: Money | null;
  readonly installation: Money | null;
  readonly net: Money;
  readonly tax: Money | null;
  readonly total: Money;
}

/** How amounts are rounded, in the words of the quote. */
export const ROUNDING_RULE =
  'A unit price is rounded once to the smallest coin, a half away from zero; a line is quantity times unit price. Discount is rounded once, on the sum of the lines; tax once, on the net sum.';

/** Goods less discount, plus freight and installation, is net; tax on net, once. */
export const quoteTotals = (
  amounts: readonly Money[],
  settings: Pick<QuoteSettings, 'discountBasisPoints' | 'freightMinor' | 'installationMinor' | 'tax'>,
  currency: string,
): QuoteTotals => {
  const goods = sumMoney(amounts, currency);
  const discount = shareOf(goods, settings.discountBasisPoints);
  const given = (minor: number | null) => (minor === null ? null : moneyOf(minor, currency));
  const freight = given(settings.freightMinor);
  const installation = given(settings.installationMinor);
  const net = sumMoney(
    [goods, moneyOf(-discount.minor, currency), ...[freight, installation].filter((one) => one !== null)],
    currency,
  );
  const tax = settings.tax && shareOf(net, settings.tax.basisPoints);
  return {
    goods,
    discount,
    freight,
    installation,
    net,
    tax,
    total: tax ? sumMoney([net, tax], currency) : net,
  };
};

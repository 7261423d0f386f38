import { type Money, timesQuantity } from '../units/money.ts';
import { type RatedPrice, ratedMoney } from './exactPrice.ts';

export type QuoteLineKind =
  | 'piece'
  | 'corner-unit'
  | 'corner-wedge'
  | 'filler'
  | 'made-to-measure'
  | 'widening'
  | 'bay-top'
  | 'low-section'
  | 'extra';

/** A line before it is priced. `price` is null where the range has none: such a line is shown, named, and not summed. */
export interface UnpricedLine {
  readonly run: string;
  readonly kind: QuoteLineKind;
  /** The marks that it answers, as on the drawing. */
  readonly marks: readonly string[];
  /** Stock id; empty for what the range does not hold. */
  readonly item: string;
  readonly name: string;
  /** A whole number. */
  readonly quantity: number;
  readonly price: RatedPrice | null;
  readonly note: string;
}

/** A line of the quote; `amount` is quantity times the unit price, exact. */
export interface QuoteLine extends UnpricedLine {
  readonly unitPrice: Money | null;
  readonly amount: Money | null;
}

/** A price that does not depend on a length. */
export const fixedPrice = (base: number | undefined): RatedPrice | null =>
  base === undefined ? null : { base, ratePerMm: 0, lengthMm: 0 };

/** Prices a line in a currency. */
export const priceLine = (line: UnpricedLine, currency: string): QuoteLine => {
  const unitPrice = line.price && ratedMoney(line.price, currency);
  return { ...line, unitPrice, amount: unitPrice && timesQuantity(unitPrice, line.quantity) };
};

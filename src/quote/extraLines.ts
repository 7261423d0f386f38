import type { StockRange } from '../stock/stockSchema.ts';
import type { RatedPrice } from './exactPrice.ts';
import type { Extra } from './extras.ts';
import { fixedPrice, type UnpricedLine } from './quoteLine.ts';

const byLength = (ratePerMm: number, lengthMm: number | null): RatedPrice => ({
  base: 0,
  ratePerMm,
  lengthMm: lengthMm ?? 0,
});

/** One extra's price and how many of it: by the piece, or by length as one. Null for what comes with the pieces. */
const priceOf = (
  { kind, count, lengthMm }: Extra,
  { extras }: StockRange,
): { readonly quantity: number; readonly price: RatedPrice | null } | null => {
  switch (kind) {
    case 'end-panel':
      return { quantity: count, price: fixedPrice(extras.endPanel.price) };
    case 'spacer-bar':
      return { quantity: count, price: fixedPrice(extras.spacerBar.price) };
    case 'top-joint':
      return { quantity: count, price: fixedPrice(extras.joint.price) };
    case 'shelf-bracket':
      return { quantity: count, price: fixedPrice(extras.shelfBracket.price) };
    case 'upstand':
      return { quantity: 1, price: byLength(extras.upstandPricePerMm, lengthMm) };
    case 'shelf':
      return { quantity: 1, price: byLength(extras.shelfPricePerMm, lengthMm) };
    case 'frame':
    case 'included':
      return null;
  }
};

/** The quote's lines for a run's extras, with the marks that the schedule gives them. What comes in other prices has none. */
export const extraLines = (
  run: { readonly name: string; readonly number: number },
  extras: readonly Extra[],
  range: StockRange,
): readonly UnpricedLine[] =>
  extras.flatMap((extra, index): UnpricedLine[] => {
    const priced = priceOf(extra, range);
    if (!priced) return [];
    return [
      {
        run: run.name,
        kind: 'extra',
        marks: [`${run.number}.E${index + 1}`],
        item: '',
        name: extra.name,
        ...priced,
        note: extra.note,
      },
    ];
  });

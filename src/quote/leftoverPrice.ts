import type { LeftoverVerdict } from '../fitting/fitAnswer.ts';
import type { StockRange } from '../stock/stockSchema.ts';

/** Whole cents, so that sums come out. */
const cents = (amount: number): number => Math.round(amount * 100) / 100;

/** The width that a made-to-measure piece is ordered at: up to the range's next whole step. */
export const orderedWidthMm = (range: StockRange, widthMm: number): number => {
  const { stepMm } = range.madeToMeasure;
  return Math.ceil(widthMm / stepMm - 1e-9) * stepMm;
};

/**
 * What closing a leftover costs after the range's rules, in its currency: a base price and a price per millimetre.
 * Nothing (0) for one that closes by itself; null where the range gives no price or does not make that width.
 *
 * @example leftoverPrice(demoRange, 'filler', 124) // 134.6 = 85 + 124 x 0.4
 */
export const leftoverPrice = (
  range: StockRange,
  verdict: LeftoverVerdict,
  widthMm: number,
): number | null => {
  if (verdict === 'closes') return 0;
  if (verdict === 'filler') {
    const { maxMm, price, pricePerMm } = range.fillers;
    if (widthMm > maxMm || (price === undefined && pricePerMm === undefined)) return null;
    return cents((price ?? 0) + (pricePerMm ?? 0) * widthMm);
  }
  const { minMm, maxMm, price, pricePerMm } = range.madeToMeasure;
  const orderedMm = orderedWidthMm(range, widthMm);
  return orderedMm < minMm || orderedMm > maxMm ? null : cents(price + pricePerMm * orderedMm);
};

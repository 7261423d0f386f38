import type { FitAlternative } from '../fitting/fitAnswer.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { formatMoney } from '../units/money.ts';
import { ratedMoney } from './exactPrice.ts';
import { orderedWidthMm } from './leftoverPrice.ts';
import type { QuotedRun } from './quotedRun.ts';
import { fixedPrice, type UnpricedLine } from './quoteLine.ts';
import { type Widening, wideningFor } from './widening.ts';

const figure = (mm: number): string => String(Math.round(mm * 10) / 10);

interface LeftoverOfRun {
  readonly run: QuotedRun;
  readonly alternative: FitAlternative;
  readonly range: StockRange;
  readonly index: number;
  readonly mark: string;
}

/** The widening that would take a leftover up, where the range allows it and the wider module still comes in. */
const allowedWidening = ({ run, alternative, range, index }: LeftoverOfRun): Widening | null => {
  const widening = wideningFor(range, alternative, index, run.problem.allowances?.jointMm ?? 0);
  const mostMm = run.problem.maxWidthMm ?? Number.POSITIVE_INFINITY;
  return widening && widening.widthMm <= mostMm ? widening : null;
};

/** The price of a made-to-measure module for a width; null where the range does not make it. */
const madePrice = (range: StockRange, widthMm: number) => {
  const { minMm, maxMm, price, pricePerMm } = range.madeToMeasure;
  const orderedMm = orderedWidthMm(range, widthMm);
  return orderedMm < minMm || orderedMm > maxMm
    ? null
    : { base: price, ratePerMm: pricePerMm, lengthMm: orderedMm };
};

/**
 * The quote's line for a leftover; null for what closes. A filler and a made-to-measure module cost what the range's
 * rules say (as in the schedule); a leftover that the range makes no module for is taken up by a wider module beside it
 * where that is allowed, and has no price otherwise.
 */
export const leftoverLine = (over: LeftoverOfRun): UnpricedLine | null => {
  const { run, alternative, range, index, mark } = over;
  const leftover = alternative.leftovers[index];
  if (leftover === undefined || leftover.verdict === 'closes') return null;
  const { widthMm } = leftover;
  const shared = { run: run.name, marks: [mark], item: '', quantity: 1 };
  const note = leftover.confirmed ? '' : 'Measure on site before ordering';
  if (leftover.verdict === 'filler') {
    const { maxMm, price, pricePerMm } = range.fillers;
    const isPriced = widthMm <= maxMm && (price !== undefined || pricePerMm !== undefined);
    return {
      ...shared,
      kind: 'filler',
      name: `Filler, ${figure(widthMm)} mm`,
      price: isPriced ? { base: price ?? 0, ratePerMm: pricePerMm ?? 0, lengthMm: widthMm } : null,
      note,
    };
  }
  const made = madePrice(range, widthMm);
  const widening = made === null ? allowedWidening(over) : null;
  if (widening)
    return {
      ...shared,
      kind: 'widening',
      name: `Module beside it made ${figure(widening.widthMm)} mm wide`,
      price: fixedPrice(widening.morePrice),
      note,
    };
  return {
    ...shared,
    kind: 'made-to-measure',
    name: `Made-to-measure module, ${figure(made?.lengthMm ?? widthMm)} mm`,
    price: made,
    note: made ? note : 'The range makes no module of this width: ask for a price',
  };
};

/** A way to save a made-to-measure module: the module beside it made wider. Null where there is none. */
export const wideningOffer = (over: LeftoverOfRun): string | null => {
  const { alternative, range, index, mark } = over;
  const leftover = alternative.leftovers[index];
  const made = leftover?.verdict === 'made-to-measure' ? madePrice(range, leftover.widthMm) : null;
  const widening = made && allowedWidening(over);
  if (!made || !widening) return null;
  const saved = ratedMoney(made, range.currency);
  const more = ratedMoney({ base: widening.morePrice, ratePerMm: 0, lengthMm: 0 }, range.currency);
  return `${mark}: the module beside it could be made ${figure(widening.widthMm)} mm wide for ${formatMoney(more)}, in place of the made-to-measure module for ${formatMoney(saved)}.`;
};

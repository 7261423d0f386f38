import type { StockRange } from '../stock/stockSchema.ts';
import { orderedWidthMm } from './leftoverPrice.ts';
import type { QuotedRun } from './quotedRun.ts';
import type { UnpricedLine } from './quoteLine.ts';

const figure = (mm: number): string => String(Math.round(mm * 10) / 10);

/**
 * What a run's bays and low sections cost. A low section is made to measure and costs what the range's rule for that
 * says (common practice, no source). A top that runs on over a bay stands on its neighbours; where the range has no price
 * for a top alone, the line says so and is in no sum.
 */
export const zoneLines = (
  run: Pick<QuotedRun, 'name' | 'problem'>,
  range: StockRange,
): readonly UnpricedLine[] =>
  run.problem.straights.flatMap(({ bays = [] }, straight) =>
    bays.map(({ fromMm, toMm, isLow }): UnpricedLine => {
      const widthMm = toMm - fromMm;
      const topRate = range.extras.bayTopPricePerMm;
      const shared = { run: run.name, marks: [], item: '', quantity: 1 };
      if (!isLow)
        return {
          ...shared,
          kind: 'bay-top',
          name: `Top over the bay on straight ${straight + 1}, ${figure(widthMm)} mm`,
          price: topRate === undefined ? null : { base: 0, ratePerMm: topRate, lengthMm: widthMm },
          note:
            topRate === undefined
              ? 'The range has no price for a top alone: ask for one. The equipment is by others'
              : 'The equipment under it is by others',
        };
      const { minMm, maxMm, price, pricePerMm } = range.madeToMeasure;
      const orderedMm = orderedWidthMm(range, widthMm);
      const isMade = orderedMm >= minMm && orderedMm <= maxMm;
      return {
        ...shared,
        kind: 'low-section',
        name: `Low section on straight ${straight + 1}, made to measure, ${figure(orderedMm)} mm`,
        price: isMade ? { base: price, ratePerMm: pricePerMm, lengthMm: orderedMm } : null,
        note: isMade
          ? 'Its height and knee room are for the local code and the access officer'
          : 'The range makes nothing of this width: ask for a price',
      };
    }),
  );

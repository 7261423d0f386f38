import type { FitWedge } from '../fitting/fitAnswer.ts';
import type { FitProblem } from '../fitting/problemSchema.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import type { RatedPrice } from './exactPrice.ts';
import { orderedWidthMm } from './leftoverPrice.ts';

/** What a made-to-measure wedge is priced on. */
export interface WedgePrice {
  /** Along its longer side, mm, before it is brought to the range's steps. */
  readonly sideMm: number;
  /** Null where the range makes nothing so wide. */
  readonly price: RatedPrice | null;
  /** How the price was found, for the line's note. */
  readonly note: string;
}

/**
 * The price of the wedge that fills a mitred corner. The range has no rule of its own for wedges, so they cost what its
 * made-to-measure rule says for a module as wide as the wedge's longer side, 2 x depth x tan(|turn| / 2): what the wedge
 * takes of both fronts, or of both backs where the front is inside (the corner's geometry as the fit has it). A
 * narrower one costs as much as the narrowest module that the range makes.
 *
 * @param corner index of the corner, from 0.
 *
 * @example wedgePrice(demoRange, { depthMm: 700, turn 45 degrees }, 0) // 2 x 700 x tan 22.5° = 579.9 mm
 */
export const wedgePrice = (
  range: StockRange,
  problem: Pick<FitProblem, 'depthMm' | 'corners'>,
  corner: number,
): WedgePrice => {
  const turnDeg = problem.corners?.[corner]?.turnDeg ?? 0;
  return pricedBySide(
    range,
    2 * problem.depthMm * Math.tan((Math.abs(turnDeg) / 2) * (Math.PI / 180)),
    'Measure the corner’s angle on site before ordering',
  );
};

/**
 * The same for a wedge between two pieces of an arc: its longer side is what opens at the front or at the back. One no
 * wider than the range's fillers costs what such a filler does.
 */
export const arcWedgePrice = (range: StockRange, wedge: FitWedge): WedgePrice => {
  const sideMm = Math.max(wedge.frontMm, wedge.backMm);
  const measureFirst = 'Measure the radius on site before ordering';
  const { maxMm, price = 0, pricePerMm = 0 } = range.fillers;
  return sideMm <= maxMm && price + pricePerMm > 0
    ? {
        sideMm,
        price: { base: price, ratePerMm: pricePerMm, lengthMm: sideMm },
        note: `${measureFirst}. Cut to the wedge from a filler as wide as its longer side`,
      }
    : pricedBySide(range, sideMm, measureFirst);
};

const pricedBySide = (range: StockRange, sideMm: number, measureFirst: string): WedgePrice => {
  const { minMm, maxMm, price, pricePerMm } = range.madeToMeasure;
  const lengthMm = Math.max(orderedWidthMm(range, sideMm), minMm);
  if (!(lengthMm <= maxMm))
    return {
      sideMm,
      price: null,
      note: `${measureFirst}. The range makes nothing of ${Math.round(sideMm)} mm: ask for a price`,
    };
  return {
    sideMm,
    price: { base: price, ratePerMm: pricePerMm, lengthMm },
    note: `${measureFirst}. Priced as a made-to-measure module as wide as its longer side: have it confirmed`,
  };
};

import type { StockRange } from '../../stock/stockSchema.ts';

/**
 * Heights of the parts of a counter above the floor, mm. What the stock range states is taken from it; the rest is how
 * such counters are commonly drawn (common practice, no source).
 */
export interface ElevationBuild {
  readonly feet: number;
  readonly underTop: number;
  readonly top: number;
  readonly upstand: number;
  readonly shelfUnder: number;
  readonly shelf: number;
  readonly tube: number;
  readonly bracket: number;
  readonly bracketSpacing: number;
  /** Lower rail, and the undershelf that lies on it. */
  readonly railBottom: number;
}

/** Room left under a working top for legs and an undershelf, as a share of its height. */
const railShare = 0.14;

export const elevationBuild = (range: StockRange): ElevationBuild => {
  const { heights, frame, extras } = range;
  const underTop = heights.topMm - heights.topThicknessMm;
  return {
    feet: heights.feetMm,
    underTop,
    top: heights.topMm,
    upstand: heights.topMm + heights.upstandMm,
    shelfUnder: heights.shelfMm - heights.shelfThicknessMm,
    shelf: heights.shelfMm,
    tube: frame.tubeMm,
    bracket: extras.shelfBracket.thicknessMm,
    bracketSpacing: extras.shelfBracket.spacingMm,
    railBottom: heights.feetMm + Math.round((underTop - heights.feetMm) * railShare),
  };
};

/** Where the legs of a piece stand that is `widthMm` wide and has so many frames: left edges of their tubes, from its left end. */
export const legsOf = (widthMm: number, frames: number, tubeMm: number): readonly number[] => {
  if (frames <= 0) return [];
  if (frames === 1 || widthMm < 2 * tubeMm) return [(widthMm - tubeMm) / 2];
  const step = (widthMm - tubeMm) / (frames - 1);
  return Array.from({ length: frames }, (_, index) => index * step);
};

import type { RunLevels } from '../../document/projectDocument.ts';
import { topOf } from '../../measure/floorLevels.ts';
import type { StockRange } from '../../stock/stockSchema.ts';

/**
 * Heights of the parts of a counter above the lowest floor under it, mm. What the stock range states is taken from it; the rest is how
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
  /** Heights of shelves beside the serving shelf. */
  readonly otherShelves: readonly number[];
  readonly shelfThickness: number;
  /** What the sheet's datum lies at; 0 unless the run has levels. */
  readonly datum: number;
  /** The floor at a place of the drawing. */
  readonly floorAt: (xMm: number) => number;
}

/** Room left under a working top for legs and an undershelf, as a share of its height. */
const railShare = 0.14;

/** @param levels of the run: top, shelves and floor above the datum; left out, all is as the range has it on a level floor. */
export const elevationBuild = (range: StockRange, levels?: RunLevels | null): ElevationBuild => {
  const { heights, frame, extras } = range;
  const lowest = levels
    ? Math.min(levels.floorAtStartMm, levels.floorAtEndMm) + Math.min(0, levels.raisedFloorBehindMm)
    : 0;
  const top = topOf(levels, heights) - lowest;
  // Feet take up what the floor does; above them everything stands as the range has it.
  const raised = top - heights.topMm;
  const feet = heights.feetMm + raised;
  const underTop = top - heights.topThicknessMm;
  const shelves = (levels?.shelfHeightsMm ?? [])
    .map((mm) => mm - lowest)
    .toSorted((one, other) => other - one);
  const serving = shelves[0] !== undefined && shelves[0] > top ? shelves[0] : undefined;
  const shelf = serving ?? heights.shelfMm + raised;
  return {
    feet,
    underTop,
    top,
    upstand: top + heights.upstandMm,
    shelfUnder: shelf - heights.shelfThicknessMm,
    shelf,
    tube: frame.tubeMm,
    bracket: extras.shelfBracket.thicknessMm,
    bracketSpacing: extras.shelfBracket.spacingMm,
    railBottom: feet + Math.round((underTop - feet) * railShare),
    otherShelves: serving === undefined ? shelves : shelves.slice(1),
    shelfThickness: heights.shelfThicknessMm,
    datum: 0 - lowest,
    floorAt: () => 0,
  };
};

/** The same build for a pen whose origin lies at `xMm` of the drawing. */
export const buildFrom = (build: ElevationBuild, xMm: number): ElevationBuild => ({
  ...build,
  floorAt: (ownMm) => build.floorAt(xMm + ownMm),
});

/** Where the legs of a piece stand that is `widthMm` wide and has so many frames: left edges of their tubes, from its left end. */
export const legsOf = (widthMm: number, frames: number, tubeMm: number): readonly number[] => {
  if (frames <= 0) return [];
  if (frames === 1 || widthMm < 2 * tubeMm) return [(widthMm - tubeMm) / 2];
  const step = (widthMm - tubeMm) / (frames - 1);
  return Array.from({ length: frames }, (_, index) => index * step);
};

/**
 * Levels of a run: where its floor lies under each place, where its top stands, and what its feet must take up. All
 * heights in mm above the datum of the sheet.
 */

/** The parts of a stock range's heights that levels work with. */
export interface RangeHeights {
  readonly topMm: number;
  readonly feetAdjustMm: number;
}

export interface LevelsOfRun {
  readonly topHeightMm: number | null;
  readonly floorAtStartMm: number;
  readonly floorAtEndMm: number;
  readonly raisedFloorBehindMm: number;
}

/**
 * The floor at a share of the run's length, 0 at its start and 1 at its end: its fall is even.
 *
 * @example floorAt({ floorAtStartMm: 0, floorAtEndMm: -30, … }, 0.5) // -15
 */
export const floorAt = (
  { floorAtStartMm, floorAtEndMm }: Pick<LevelsOfRun, 'floorAtStartMm' | 'floorAtEndMm'>,
  share: number,
): number => floorAtStartMm + (floorAtEndMm - floorAtStartMm) * share;

/** Where the top stands: as typed, else at the range's height above the middle of the floor's fall. */
export const topOf = (levels: LevelsOfRun | null | undefined, { topMm }: RangeHeights): number =>
  levels?.topHeightMm ?? topMm + (levels ? floorAt(levels, 0.5) : 0);

/** What the feet are asked to take up, from as they are delivered; positive is turned out. */
export interface FeetOfRun {
  readonly atStartMm: number;
  readonly atEndMm: number;
  /** How far each way they turn. */
  readonly adjustMm: number;
  /** By how much they fall short; 0 where they reach. */
  readonly shortByMm: number;
  /** The top height, above the datum, at which they would fall short the least. */
  readonly bestTopMm: number;
}

/**
 * Whether the range's feet bring the top level on this floor. A piece of the range's height stands `topMm` above the
 * floor with its feet as delivered; the rest is theirs to take up.
 */
export const feetOf = (levels: LevelsOfRun, heights: RangeHeights): FeetOfRun => {
  const top = topOf(levels, heights);
  const atStartMm = top - heights.topMm - levels.floorAtStartMm;
  const atEndMm = top - heights.topMm - levels.floorAtEndMm;
  const mostMm = Math.max(Math.abs(atStartMm), Math.abs(atEndMm));
  return {
    atStartMm,
    atEndMm,
    adjustMm: heights.feetAdjustMm,
    shortByMm: Math.max(0, mostMm - heights.feetAdjustMm),
    bestTopMm: heights.topMm + floorAt(levels, 0.5),
  };
};

/** The height of the top above the floor that the bartender stands on, least and greatest along the run. */
export const workingHeights = (
  levels: LevelsOfRun,
  heights: RangeHeights,
): { readonly leastMm: number; readonly greatestMm: number } => {
  const top = topOf(levels, heights);
  const one = top - levels.floorAtStartMm - levels.raisedFloorBehindMm;
  const other = top - levels.floorAtEndMm - levels.raisedFloorBehindMm;
  return { leastMm: Math.min(one, other), greatestMm: Math.max(one, other) };
};

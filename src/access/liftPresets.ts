/** A lift of usual size, to start from: every figure is to be confirmed on site. */
export interface LiftPreset {
  readonly name: string;
  readonly doorWidthMm: number;
  readonly doorHeightMm: number;
  readonly carWidthMm: number;
  readonly carDepthMm: number;
  readonly carHeightMm: number;
  readonly ratedKg: number;
}

/**
 * Car sizes of EN 81-70 types 1 to 5 (read in a maker's summary that cites it). Doors, rated loads and the 2 100 mm door
 * and 2 200 mm car height are usual figures, partly from memory: the standard's car sizes say nothing of a lift that
 * stands, so each preset is to be confirmed on site.
 */
export const liftPresets: readonly LiftPreset[] = [
  { name: 'EN 81-70 type 1', car: [1000, 1300], door: 800, ratedKg: 450 },
  { name: 'EN 81-70 type 2', car: [1100, 1400], door: 800, ratedKg: 630 },
  { name: 'EN 81-70 type 3', car: [1100, 2100], door: 900, ratedKg: 1000 },
  { name: 'EN 81-70 type 4', car: [1600, 1400], door: 900, ratedKg: 1000 },
  { name: 'EN 81-70 type 5', car: [2000, 1400], door: 1100, ratedKg: 1275 },
].map(({ name, car, door, ratedKg }) => ({
  name,
  doorWidthMm: door,
  doorHeightMm: 2100,
  carWidthMm: car[0]!,
  carDepthMm: car[1]!,
  carHeightMm: 2200,
  ratedKg,
}));

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
 * Car sizes, width x depth, of EN 81-70 types 1 to 5 (read in a maker's summary that cites the standard, not in the
 * standard). From memory, unread: the rated loads; clear doors of 800, 900 and 1 100 mm; a door 2 100 mm and a car
 * 2 200 mm high. The loads are not below what EN 81-20 asks of cars so large (its table of rated load by car area, from
 * memory too: 450 kg to 1.30 m2, 630 to 1.66, 1 000 to 2.40, 1 275 to 2.95). None of this says what a lift that stands
 * is like, so each preset is to be confirmed on site.
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

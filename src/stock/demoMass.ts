/**
 * Masses of the demo range's standing pieces, from their geometry.
 *
 * Densities: 304 sheet 7900 kg/m3 (EN 10088-1), so 1.2 mm is 9.48 and 0.9 mm is 7.11 kg/m2; steel 7850 kg/m3, so the
 * 3 mm coated core is 23.55 kg/m2; 30 x 30 x 1.5 square tube of 304 with EN 10219 corner radii is 1.305 kg/m. That a
 * module is built so is common practice, no source.
 */
const topSheetKgPerM2 = 9.48;
const shelfSheetKgPerM2 = 7.11;
const coreKgPerM2 = 23.55;
const tubeKgPerM = 1.305;

/** Length of tube in one frame: two legs and two cross bars. */
const tubePerFrameM = (depthM: number, topM: number, feetM: number): number =>
  2 * (topM - feetM) + 2 * depthM;

/**
 * Mass of a standing module in kilograms, to a tenth: top with 200 mm upstand and 40 mm turned-down edge on a coated
 * core, one undershelf, frames, and two long rails.
 */
export const demoModuleMassKg = (piece: {
  readonly widthMm: number;
  readonly depthMm: number;
  readonly topMm: number;
  readonly feetMm: number;
  readonly frames: number;
}): number => {
  const widthM = piece.widthMm / 1000;
  const depthM = piece.depthMm / 1000;
  const top = topSheetKgPerM2 * widthM * (depthM + 0.2 + 0.04) + coreKgPerM2 * widthM * depthM;
  const shelf = shelfSheetKgPerM2 * widthM * depthM;
  const tube =
    tubeKgPerM * (piece.frames * tubePerFrameM(depthM, piece.topMm / 1000, piece.feetMm / 1000) + 2 * widthM);
  return Math.round((top + shelf + tube) * 10) / 10;
};

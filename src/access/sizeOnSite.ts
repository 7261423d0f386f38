import type { ProjectDocument } from '../document/projectDocument.ts';
import type { DrawnSize } from '../document/wayInRecords.ts';
import { distanceBetween } from '../geometry/vector.ts';
import { scaleAtPlaces } from '../measure/scaleOfSheet.ts';
import { mmPerUserUnit } from '../measure/tracedRun.ts';
import { type BadInput, isBadInput } from '../scale/badInput.ts';
import { lengthUncertaintyMm } from '../scale/lengthUncertainty.ts';

/** A clear size with its +/- (k = 2), both in mm. */
export interface SizeOnSite {
  readonly lengthMm: number;
  readonly plusMinusMm: number;
}

/**
 * What a size of a way in comes to: as typed, or as picked at the scale that holds there on its sheet. Null where the
 * sheet has no scale; bad input where the picks lie in views of different scale.
 *
 * @param typedPlusMinusMm the +/- (k = 2) that goes for typed sizes, in mm.
 */
export const sizeOnSite = (
  document: ProjectDocument,
  size: DrawnSize,
  typedPlusMinusMm: number,
): SizeOnSite | BadInput | null => {
  if (size.from === 'typed') return { lengthMm: size.lengthMm, plusMinusMm: typedPlusMinusMm };
  const scale = scaleAtPlaces(document, size.sheetId, [size.a, size.b]);
  if (!scale || isBadInput(scale)) return scale;
  const lengthMm = distanceBetween(size.a, size.b) * mmPerUserUnit(scale);
  const { userUnit } = scale;
  // A pick's uncertainty is in points of paper, the scale's function takes user-space units.
  const picks = { userUnit, pickUncertaintyPt: size.pickUncertaintyPt / userUnit };
  return { lengthMm, plusMinusMm: lengthUncertaintyMm(lengthMm, scale, picks) };
};

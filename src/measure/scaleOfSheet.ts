import type { SheetId } from '../document/ids.ts';
import { type ProjectDocument, type Reference, referencesOf } from '../document/projectDocument.ts';
import { isBadInput } from '../scale/badInput.ts';
import {
  type ReferenceResidual,
  type ReferenceWarning,
  scaleFromReferences,
} from '../scale/scaleFromReferences.ts';
import type { SheetScale } from './tracedRun.ts';

/** The scale that a sheet of a project is worked at, and where it comes from. */
export interface ScaleOfSheet extends SheetScale {
  /** `picked`: from the known dimensions picked by hand, which always win. `accepted`: taken over from the sheet. */
  readonly source: 'picked' | 'accepted';
  /** Each picked dimension with what the scale makes of it; empty for an accepted scale. */
  readonly references: readonly { readonly reference: Reference; readonly residual: ReferenceResidual }[];
  readonly warnings: readonly ReferenceWarning[];
  /** Given where picked dimensions in different directions tell x from y. */
  readonly ratioX?: number;
  readonly ratioY?: number;
}

/** A pick is never surer than this: coordinates in a PDF are mostly written to a hundredth of a point. */
const surestPickPt = 0.01;

/** The scale of a sheet as its picked dimensions, else its accepted evidence, have it; null while it has none. */
export const scaleOfSheet = (document: ProjectDocument, sheetId: SheetId): ScaleOfSheet | null => {
  const sheet = document.sheets[sheetId];
  if (!sheet) return null;
  const { userUnit } = sheet;
  const references = referencesOf(document, sheetId);
  if (references.length > 0) {
    const scale = scaleFromReferences(
      references.map(({ a, b, lengthMm, pickUncertaintyPt }) => ({
        a,
        b,
        lengthMm,
        pickUncertaintyPt: Math.max(surestPickPt, pickUncertaintyPt) / userUnit,
      })),
      userUnit,
    );
    if (isBadInput(scale)) throw new Error(`A kept known dimension gives no scale: ${scale.error.message}`);
    const { residuals, ...rest } = scale;
    return {
      ...rest,
      userUnit,
      source: 'picked',
      references: references.flatMap((reference, index) => {
        const residual = residuals[index];
        return residual ? [{ reference, residual }] : [];
      }),
    };
  }
  if (!sheet.acceptedScale) return null;
  const { ratio, relativeUncertainty } = sheet.acceptedScale;
  return { ratio, relativeUncertainty, userUnit, source: 'accepted', references: [], warnings: [] };
};

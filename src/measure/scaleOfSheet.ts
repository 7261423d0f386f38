import type { SheetId } from '../document/ids.ts';
import {
  type AcceptedScale,
  type ProjectDocument,
  type Reference,
  type Run,
  referencesOf,
} from '../document/projectDocument.ts';
import type { PaperPoint } from '../geometry/point.ts';
import { type BadInput, isBadInput } from '../scale/badInput.ts';
import { type ScaledView, scaleAt } from '../scale/scaleAt.ts';
import {
  farthestAxis,
  type ReferenceResidual,
  type ReferenceWarning,
  scaleFromReferences,
} from '../scale/scaleFromReferences.ts';
import type { SheetScale } from './tracedRun.ts';

/** The scale that a sheet, or a view of it, is worked at, and where it comes from. */
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

type AcceptedView = NonNullable<AcceptedScale['views']>[number];

/**
 * @param accepted what was taken over from the sheet, if anything: where it says that the sheet is stretched and the
 * picks do not tell the axes apart, their one ratio is wrong along the other axis by that stretch.
 */
const pickedScale = (
  references: readonly Reference[],
  userUnit: number,
  accepted: Pick<AcceptedScale, 'ratioX' | 'ratioY'> | null = null,
): ScaleOfSheet => {
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
  const stretch = scale.ratioX === undefined ? knownStretch(accepted) : 0;
  return {
    ...rest,
    relativeUncertainty: Math.max(scale.relativeUncertainty, stretch),
    userUnit,
    source: 'picked',
    references: references.flatMap((reference, index) => {
      const residual = residuals[index];
      return residual ? [{ reference, residual }] : [];
    }),
  };
};

/** By how much the ratios along x and y differ, where the sheet's own dimensions tell; else 0. */
const knownStretch = (accepted: Pick<AcceptedScale, 'ratioX' | 'ratioY'> | null): number => {
  const { ratioX, ratioY } = accepted ?? {};
  return ratioX === undefined || ratioY === undefined ? 0 : farthestAxis(ratioX, { ratioX, ratioY });
};

const acceptedScale = (
  { ratio, relativeUncertainty }: Pick<AcceptedScale, 'ratio' | 'relativeUncertainty'>,
  userUnit: number,
): ScaleOfSheet => ({
  ratio,
  relativeUncertainty,
  userUnit,
  source: 'accepted',
  references: [],
  warnings: [],
});

const isIn = ({ bbox: [minX, minY, maxX, maxY] }: AcceptedView, { x, y }: PaperPoint): boolean =>
  x >= minX && x <= maxX && y >= minY && y <= maxY;

/** The view that a picked dimension belongs to: the last that holds both its ends. */
const viewOf = (views: readonly AcceptedView[], { a, b }: Reference): AcceptedView | undefined =>
  views.findLast((view) => isIn(view, a) && isIn(view, b));

/**
 * The scale of a sheet as its picked dimensions, else its accepted evidence, have it; null while it has none. Of a
 * sheet with views, the scale outside of them.
 */
export const scaleOfSheet = (document: ProjectDocument, sheetId: SheetId): ScaleOfSheet | null => {
  const sheet = document.sheets[sheetId];
  if (!sheet) return null;
  const views = sheet.acceptedScale?.views ?? [];
  const references = referencesOf(document, sheetId).filter((reference) => !viewOf(views, reference));
  if (references.length > 0) return pickedScale(references, sheet.userUnit, sheet.acceptedScale);
  return sheet.acceptedScale && acceptedScale(sheet.acceptedScale, sheet.userUnit);
};

/** The views of a sheet with the scale of each: from the dimensions picked in it, else as accepted. */
export const viewsOfSheet = (
  document: ProjectDocument,
  sheetId: SheetId,
): readonly (ScaledView<ScaleOfSheet> & { readonly name: string })[] => {
  const sheet = document.sheets[sheetId];
  const views = sheet?.acceptedScale?.views ?? [];
  if (!sheet || views.length === 0) return [];
  const references = referencesOf(document, sheetId);
  return views.map((view) => {
    const own = references.filter((reference) => viewOf(views, reference) === view);
    const scale = own.length > 0 ? pickedScale(own, sheet.userUnit) : acceptedScale(view, sheet.userUnit);
    return { name: view.name, bbox: view.bbox, scale };
  });
};

/**
 * The scale that holds at places of a sheet: that of the view in which they lie, else the sheet's own. Null while there
 * is none; `across-views` where they lie in views of different scale.
 */
export const scaleAtPlaces = (
  document: ProjectDocument,
  sheetId: SheetId,
  places: readonly PaperPoint[],
): ScaleOfSheet | BadInput | null => {
  const sheetScale = scaleOfSheet(document, sheetId);
  return sheetScale && scaleAt(places, sheetScale, viewsOfSheet(document, sheetId));
};

/** The scale of the view in which a run is traced. See {@link scaleAtPlaces}. */
export const scaleOfRun = (document: ProjectDocument, run: Run): ScaleOfSheet | BadInput | null =>
  scaleAtPlaces(
    document,
    run.sheetId,
    run.frontLine.map(({ at }) => at),
  );

/** The same for drawing: a run across views is drawn at the sheet's own scale, and the fit refuses it. */
export const drawnScaleOfRun = (document: ProjectDocument, run: Run): ScaleOfSheet | null => {
  const scale = scaleOfRun(document, run);
  return scale && isBadInput(scale) ? scaleOfSheet(document, run.sheetId) : scale;
};

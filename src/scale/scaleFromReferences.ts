import type { PaperPoint } from '../geometry/point.ts';
import { type BadInput, badInput } from './badInput.ts';
import { paperMmPerUnit } from './paperLength.ts';

/** A known dimension picked by hand on the drawing. */
export interface ScaleReference {
  readonly a: PaperPoint;
  readonly b: PaperPoint;
  /** The true length between the two picks, in mm; above 0. */
  readonly lengthMm: number;
  /** Standard uncertainty (k = 1) of each pick along the line, in user-space units; 0.5 where not given. */
  readonly pickUncertaintyPt?: number;
}

export interface ReferenceResidual {
  readonly lengthMm: number;
  /** What the drawing says at the fitted ratio, in mm. */
  readonly predictedMm: number;
  /** predictedMm - lengthMm: positive where the drawing reads longer than the known length. */
  readonly residualMm: number;
}

export interface ReferenceScale {
  /** Real mm per paper mm: 50 for 1:50. */
  readonly ratio: number;
  /** Expanded relative uncertainty of the ratio, k = 2. */
  readonly relativeUncertainty: number;
  /** One for each reference, in their order. */
  readonly residuals: readonly ReferenceResidual[];
  /** Ratio along the page's x axis; given where the references' directions can tell x from y. */
  readonly ratioX?: number;
  readonly ratioY?: number;
  readonly warnings: readonly ReferenceWarning[];
}

export interface ReferenceWarning {
  readonly code: 'x-and-y-ratios-differ' | 'references-disagree' | 'reference-short';
  readonly message: string;
}

/** Where a caller does not know better: a careful pick on a drawn line, k = 1, in user-space units. */
export const DEFAULT_PICK_UNCERTAINTY_PT = 0.5;

/** x and y ratios that differ by more than this are a stretched drawing. */
const STRETCH_WARNING = 0.005;

/** The least determinant of the normalised x/y problem that still tells the axes apart (1/4 is the best there is). */
const LEAST_AXIS_SPREAD = 0.01;

interface Measured {
  readonly dxMm: number;
  readonly dyMm: number;
  readonly paperMm: number;
  readonly lengthMm: number;
  readonly varianceMm2: number;
}

/**
 * The scale from known dimensions picked on the drawing: weighted least squares through the origin.
 *
 * The known lengths are taken as exact and the picks as uncertain, so paper distance is fitted over length
 * (d = s L, weights 1/variance of d) and the ratio is 1/s; fitting the other way round would lean towards
 * small ratios. The uncertainty follows JCGM 100:2008 5.1.2 eq. (10) with two picks a reference, widened by
 * the scatter of the residuals (the Birge ratio) where that is larger; it is stated at k = 2.
 *
 * Non-parallel references also give ratios along x and y from L^2 = rx^2 dx^2 + ry^2 dy^2.
 *
 * @param userUnit the page's UserUnit, above 0.
 * @returns the scale, or why there is none: `no-references`, `reference-length`, `reference-distance`,
 * `pick-uncertainty`, `user-unit`.
 */
export const scaleFromReferences = (
  references: readonly ScaleReference[],
  userUnit = 1,
): ReferenceScale | BadInput => {
  if (!(userUnit > 0) || !Number.isFinite(userUnit)) {
    return badInput('user-unit', `UserUnit must be above 0, found ${userUnit}.`, 'userUnit');
  }
  if (references.length === 0) {
    return badInput('no-references', 'Pick two points of a known dimension first.', 'references');
  }
  const measured: Measured[] = [];
  for (const [index, reference] of references.entries()) {
    const checked = measureReference(reference, userUnit, `references[${index}]`);
    if ('error' in checked) return checked;
    measured.push(checked);
  }
  let sumLengthLength = 0;
  let sumLengthPaper = 0;
  for (const { lengthMm, paperMm, varianceMm2 } of measured) {
    sumLengthLength += (lengthMm * lengthMm) / varianceMm2;
    sumLengthPaper += (lengthMm * paperMm) / varianceMm2;
  }
  const paperPerReal = sumLengthPaper / sumLengthLength;
  const ratio = 1 / paperPerReal;
  const birge = birgeRatio(measured, paperPerReal);
  const standard = (Math.max(1, birge) * ratio) / Math.sqrt(sumLengthLength);
  const axes = axisRatios(measured);
  return {
    ratio,
    relativeUncertainty: Math.max(2 * standard, farthestAxis(ratio, axes)),
    residuals: measured.map(({ lengthMm, paperMm }) => ({
      lengthMm,
      predictedMm: ratio * paperMm,
      residualMm: ratio * paperMm - lengthMm,
    })),
    ...(axes ?? {}),
    warnings: warningsFor(birge, standard, axes),
  };
};

const measureReference = (reference: ScaleReference, userUnit: number, path: string): Measured | BadInput => {
  const { a, b, lengthMm, pickUncertaintyPt = DEFAULT_PICK_UNCERTAINTY_PT } = reference;
  if (!(lengthMm > 0) || !Number.isFinite(lengthMm)) {
    return badInput(
      'reference-length',
      `A known length must be above 0 mm, found ${lengthMm}.`,
      `${path}.lengthMm`,
    );
  }
  if (!(pickUncertaintyPt > 0) || !Number.isFinite(pickUncertaintyPt)) {
    const message = `A pick's uncertainty must be above 0, found ${pickUncertaintyPt}.`;
    return badInput('pick-uncertainty', message, `${path}.pickUncertaintyPt`);
  }
  const mmPerUnit = paperMmPerUnit(userUnit);
  const dxMm = (b.x - a.x) * mmPerUnit;
  const dyMm = (b.y - a.y) * mmPerUnit;
  const paperMm = Math.hypot(dxMm, dyMm);
  if (!(paperMm > 0) || !Number.isFinite(paperMm)) {
    return badInput('reference-distance', 'The two points of a reference must lie apart.', path);
  }
  return { dxMm, dyMm, paperMm, lengthMm, varianceMm2: 2 * (pickUncertaintyPt * mmPerUnit) ** 2 };
};

/** Scatter of the residuals over what the picks explain; 0 for a single reference. */
const birgeRatio = (measured: readonly Measured[], paperPerReal: number): number => {
  if (measured.length < 2) return 0;
  let chiSquare = 0;
  for (const { paperMm, lengthMm, varianceMm2 } of measured) {
    chiSquare += (paperMm - paperPerReal * lengthMm) ** 2 / varianceMm2;
  }
  return Math.sqrt(chiSquare / (measured.length - 1));
};

/**
 * One ratio for a stretched drawing is off along each axis: by at most this share, 0 where the axes agree within what
 * {@link STRETCH_WARNING} leaves to the picks.
 */
export const farthestAxis = (
  ratio: number,
  axes: { readonly ratioX: number; readonly ratioY: number } | null,
): number => {
  if (!axes || Math.abs(axes.ratioX / axes.ratioY - 1) <= STRETCH_WARNING) return 0;
  return Math.max(Math.abs(Math.log(axes.ratioX / ratio)), Math.abs(Math.log(axes.ratioY / ratio)));
};

/** Ratios along x and y by linear least squares in their squares; null where the directions do not tell. */
const axisRatios = (measured: readonly Measured[]): { ratioX: number; ratioY: number } | null => {
  // Each equation is divided by d^2, so its unknowns' coefficients are cos^2 and sin^2 of the direction.
  let xx = 0;
  let xy = 0;
  let yy = 0;
  let xr = 0;
  let yr = 0;
  let total = 0;
  for (const { dxMm, dyMm, paperMm, lengthMm, varianceMm2 } of measured) {
    const weight = paperMm ** 2 / varianceMm2;
    const cosine2 = (dxMm / paperMm) ** 2;
    const sine2 = (dyMm / paperMm) ** 2;
    const ratio2 = (lengthMm / paperMm) ** 2;
    total += weight;
    xx += weight * cosine2 * cosine2;
    xy += weight * cosine2 * sine2;
    yy += weight * sine2 * sine2;
    xr += weight * cosine2 * ratio2;
    yr += weight * sine2 * ratio2;
  }
  const determinant = xx * yy - xy * xy;
  if (determinant / total ** 2 < LEAST_AXIS_SPREAD) return null;
  const x2 = (xr * yy - yr * xy) / determinant;
  const y2 = (yr * xx - xr * xy) / determinant;
  if (!(x2 > 0) || !(y2 > 0)) return null;
  return { ratioX: Math.sqrt(x2), ratioY: Math.sqrt(y2) };
};

const warningsFor = (
  birge: number,
  standard: number,
  axes: { readonly ratioX: number; readonly ratioY: number } | null,
): ReferenceWarning[] => {
  const warnings: ReferenceWarning[] = [];
  const stretch = axes ? axes.ratioX / axes.ratioY - 1 : 0;
  if (Math.abs(stretch) > STRETCH_WARNING) {
    const percent = (Math.abs(stretch) * 100).toFixed(1);
    warnings.push({
      code: 'x-and-y-ratios-differ',
      message: `The drawing is stretched: its scale along x and along y differ by ${percent} %.`,
    });
  } else if (birge > 2) {
    warnings.push({
      code: 'references-disagree',
      message: 'The references disagree by more than their picks explain: check each length and its points.',
    });
  }
  if (standard > 0.01) {
    warnings.push({
      code: 'reference-short',
      message: 'The picked dimensions are short on paper: pick a longer one for a surer scale.',
    });
  }
  return warnings;
};

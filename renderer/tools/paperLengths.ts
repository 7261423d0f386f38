import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { distanceBetween } from '../../src/geometry/vector.ts';
import { straightsOf } from '../../src/measure/straights.ts';
import { mmPerUserUnit } from '../../src/measure/tracedRun.ts';
import { isBadInput } from '../../src/scale/badInput.ts';
import { lengthUncertaintyMm } from '../../src/scale/lengthUncertainty.ts';
import { formatLength } from '../../src/units/formatLength.ts';
import { parseLength } from '../../src/units/length.ts';
import type { ToolContext, ToolLine } from './tool.ts';

/** Real millimetres in one paper unit at places of the sheet, or the sentence that says why there is no such number. */
export const mmPerPaperUnit = (
  context: ToolContext,
  places: readonly PaperPoint[],
): { readonly mmPerUnit: number } | { readonly say: string } => {
  const scale = context.scaleAt(places);
  if (!scale) return { say: 'Set the scale first: a length means nothing without it.' };
  return isBadInput(scale) ? { say: scale.error.message } : { mmPerUnit: mmPerUserUnit(scale) };
};

/**
 * The length between two picks with its +/- (k = 2), at the scale of the view in which they lie; nothing until the sheet
 * has a scale, and the reason where they lie in views of different scale.
 */
export const lengthBetween = (
  from: PaperPoint,
  to: PaperPoint,
  pickUncertaintyPt: number,
  context: ToolContext,
): Pick<ToolLine, 'lengthMm' | 'plusMinusMm' | 'noLength'> => {
  const scale = context.scaleAt([from, to]);
  if (!scale) return {};
  if (isBadInput(scale)) return { noLength: scale.error.message };
  const lengthMm = distanceBetween(from, to) * mmPerUserUnit(scale);
  const { userUnit } = context;
  // A pick's uncertainty is in points of paper, the scale's function takes user-space units.
  const picks = { userUnit, pickUncertaintyPt: pickUncertaintyPt / userUnit };
  return { lengthMm, plusMinusMm: lengthUncertaintyMm(lengthMm, scale, picks) };
};

/** The length and radius of the arc through three picks, as `lengthBetween` has them of a straight. */
export const arcLengthBetween = (
  from: PaperPoint,
  through: PaperPoint,
  to: PaperPoint,
  pickUncertaintyPt: number,
  context: ToolContext,
): Pick<ToolLine, 'lengthMm' | 'plusMinusMm' | 'noLength' | 'radiusMm'> => {
  const scale = context.scaleAt([from, through, to]);
  if (!scale) return {};
  if (isBadInput(scale)) return { noLength: scale.error.message };
  const [straight] = straightsOf(
    { frontLine: [from, to], bends: [through], backSide: 'left', depthMm: 1, pickUncertaintyPt },
    scale,
  );
  if (!straight) return {};
  const { lengthMm, plusMinusMm, bend } = straight;
  return { lengthMm, plusMinusMm, ...(bend ? { radiusMm: bend.radiusMm } : {}) };
};

/** A typed length in mm, or the sentence that says why it is none. */
export const typedLength = (
  text: string,
  { unit }: ToolContext,
): { readonly lengthMm: number } | { readonly say: string } => {
  const parsed = parseLength(text, { defaultUnit: unit === 'mm' ? 'mm' : 'in' });
  if (!parsed.ok) return { say: parsed.message };
  return parsed.lengthMm > 0 ? { lengthMm: parsed.lengthMm } : { say: 'A length must be more than nothing.' };
};

/** The point at a distance (paper units) from `from` on the way to `towards`. */
export const pointOnTheWay = (from: PaperPoint, towards: PaperPoint, distance: number): PaperPoint | null => {
  const whole = distanceBetween(from, towards);
  if (whole === 0) return null;
  return paperPoint(
    from.x + ((towards.x - from.x) * distance) / whole,
    from.y + ((towards.y - from.y) * distance) / whole,
  );
};

/** What the entry line gives as an example: a length like the one at hand, in the operator's own unit. */
export const lengthExample = ({ unit }: ToolContext, lengthMm?: number): string => {
  if (lengthMm !== undefined) return formatLength(lengthMm, { unit });
  return unit === 'mm' ? '3600  or  3.6 m' : '11\'-9 3/4"  or  3600 mm';
};

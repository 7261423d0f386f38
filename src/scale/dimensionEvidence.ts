import type { LineworkIndex } from '../sheet/lineworkIndex.ts';
import type { TextRun } from '../sheet/textRun.ts';
import { findSpans } from './dimensionSpans.ts';
import { type DrawingUnit, MM_PER_UNIT, readDimensionText } from './dimensionText.ts';
import { type Supporter, supportersOf, type Voter, voteForScale } from './dimensionVote.ts';
import { paperMmPerUnit } from './paperLength.ts';
import { refineScale } from './refineScale.ts';

/** What the dimensions of a sheet, or of one view, say about its scale. */
export interface DimensionEvidence {
  readonly ratio: number;
  /** Expanded, k = 2. */
  readonly relativeUncertainty: number;
  readonly unit: DrawingUnit;
  /** True where no text and no form of a number says the unit. */
  readonly unitAssumed: boolean;
  readonly agreeing: readonly AgreeingDimension[];
  readonly disagreeing: readonly DisagreeingDimension[];
  /** Ratios along x and y, where dimensions run both ways. */
  readonly ratioX?: number;
  readonly ratioY?: number;
}

export interface AgreeingDimension {
  readonly text: TextRun;
  readonly supporter: Supporter;
  readonly lengthMm: number;
  /** What is drawn, at the scale of all, in mm. */
  readonly drawnMm: number;
}

/** A text that looks like a dimension and does not fit the scale: a stretched or altered one is news. */
export interface DisagreeingDimension {
  readonly text: TextRun;
  readonly statedMm: number;
  /** What is drawn, at the scale of the others, in mm. */
  readonly drawnMm: number;
}

/** DESIGN section 5: a unit is believed when it makes the longest dimension this long, in mm … */
const LONGEST_BETWEEN_MM = [3_000, 300_000] as const;
/** … and the ratio at least this. */
const LEAST_RATIO = 10;

/** A text whose best span looks this good is a dimension, agreeing or not. */
const CLEAR_DIMENSION = 0.9;

type UnitGroup = 'fixed' | 'open';

/**
 * The scale from the dimension strings alone, or null where they do not prove one.
 *
 * @param text runs of the sheet or view, joined.
 */
export const readDimensionEvidence = (
  text: readonly TextRun[],
  index: LineworkIndex,
  userUnit: number,
): DimensionEvidence | null => {
  const voters = votersOf(text, index);
  const groups: Record<UnitGroup, Voter[]> = {
    fixed: voters.filter(({ dimension }) => dimension.unit !== undefined),
    open: voters.filter(({ dimension }) => dimension.unit === undefined),
  };
  const fixed = voteForScale(groups.fixed);
  const open = voteForScale(groups.open);
  const mmPerPoint = paperMmPerUnit(userUnit);
  if (fixed && (!open || fixed.weight * 1.5 >= open.weight)) {
    const inRange = fixed.unitsPerPoint / mmPerPoint;
    if (inRange >= 0.1 && inRange <= 20_000) {
      const resolved = groups.open.length > 0 ? openVotersAt(groups.open, fixed.unitsPerPoint) : [];
      const all = [...groups.fixed, ...resolved];
      return concluded(all, fixed.unitsPerPoint, mmPerPoint, commonUnit(fixed.supporters), false, voters);
    }
  }
  if (!open) return null;
  const unit = unitByRule(open.supporters, open.unitsPerPoint, mmPerPoint);
  if (!unit) return null;
  const all = inMillimetres(groups.open, unit).concat(groups.fixed);
  return concluded(all, open.unitsPerPoint * MM_PER_UNIT[unit], mmPerPoint, unit, true, voters);
};

const votersOf = (text: readonly TextRun[], index: LineworkIndex): Voter[] => {
  const voters: Voter[] = [];
  for (const run of text) {
    const dimension = readDimensionText(run.text);
    if (dimension.kind !== 'dimension') continue;
    const spans = findSpans(run, index);
    if (spans.length === 0) continue;
    const mm = dimension.unit ? MM_PER_UNIT[dimension.unit] : 1;
    voters.push({ text: run, dimension, value: dimension.value * mm, step: dimension.step * mm, spans });
  }
  return voters;
};

const inMillimetres = (voters: readonly Voter[], unit: DrawingUnit): Voter[] =>
  voters.map((voter) => ({
    ...voter,
    value: voter.value * MM_PER_UNIT[unit],
    step: voter.step * MM_PER_UNIT[unit],
  }));

/** Whole numbers beside metres are cm or mm: the unit in which most of them agree with a known scale. */
const openVotersAt = (voters: readonly Voter[], mmPerPoint: number): Voter[] => {
  let best: Voter[] = [];
  let most = 0;
  for (const unit of ['mm', 'cm', 'm'] as const) {
    const inUnit = inMillimetres(voters, unit);
    const agreeing = supportersOf(inUnit, mmPerPoint).length;
    if (agreeing > most) {
      most = agreeing;
      best = inUnit;
    }
  }
  return best;
};

const commonUnit = (supporters: readonly Supporter[]): DrawingUnit => {
  const counts = new Map<DrawingUnit, number>();
  for (const { voter } of supporters) {
    const unit = voter.dimension.unit ?? 'mm';
    counts.set(unit, (counts.get(unit) ?? 0) + 1);
  }
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? 'mm';
};

/** DESIGN section 5: the first of mm, cm, m that makes the longest dimension 3 to 300 m and the ratio at least 10. */
const unitByRule = (
  supporters: readonly Supporter[],
  unitsPerPoint: number,
  mmPerPoint: number,
): DrawingUnit | null => {
  const longest = Math.max(...supporters.map(({ voter }) => voter.value));
  for (const unit of ['mm', 'cm', 'm'] as const) {
    const longestMm = longest * MM_PER_UNIT[unit];
    const ratio = (unitsPerPoint * MM_PER_UNIT[unit]) / mmPerPoint;
    if (longestMm >= LONGEST_BETWEEN_MM[0] && longestMm <= LONGEST_BETWEEN_MM[1] && ratio >= LEAST_RATIO)
      return unit;
  }
  return null;
};

const concluded = (
  voters: readonly Voter[],
  mmPerUserUnit: number,
  paperMm: number,
  unit: DrawingUnit,
  unitAssumed: boolean,
  all: readonly Voter[],
): DimensionEvidence | null => {
  const supporters = supportersOf(voters, mmPerUserUnit, 0.002);
  const fit = refineScale(supporters);
  if (!fit) return null;
  const agreeing = fit.supporters.map((supporter) => ({
    text: supporter.voter.text,
    supporter,
    lengthMm: supporter.voter.value,
    drawnMm: supporter.span.length * fit.unitsPerPoint,
  }));
  const axes = axisRatios(fit.supporters, paperMm);
  const agreed = new Set(agreeing.map(({ text }) => text));
  const disagreeing: DisagreeingDimension[] = [];
  for (const voter of all) {
    const clear = voter.spans[0];
    if (agreed.has(voter.text) || !clear || clear.weight < CLEAR_DIMENSION) continue;
    const mm = voter.dimension.unit === undefined ? MM_PER_UNIT[unit] : 1;
    disagreeing.push({
      text: voter.text,
      statedMm: voter.value * mm,
      drawnMm: nearestLength(voter, (voter.value * mm) / fit.unitsPerPoint) * fit.unitsPerPoint,
    });
  }
  return {
    ratio: fit.unitsPerPoint / paperMm,
    relativeUncertainty: fit.relativeUncertainty,
    unit,
    unitAssumed,
    agreeing,
    disagreeing,
    ...axes,
  };
};

/** Of the spans that look clearly like a dimension, the length nearest to what is stated. */
const nearestLength = ({ spans }: Voter, wanted: number): number => {
  const clear = spans.filter(({ weight }) => weight >= CLEAR_DIMENSION);
  return clear.reduce(
    (best, { length }) =>
      Math.abs(Math.log(length / wanted)) < Math.abs(Math.log(best / wanted)) ? length : best,
    clear[0]?.length ?? wanted,
  );
};

const axisRatios = (
  supporters: readonly Supporter[],
  paperMm: number,
): { readonly ratioX?: number; readonly ratioY?: number } => {
  const along = (axis: 'x' | 'y'): readonly Supporter[] =>
    supporters.filter(({ span: { a, b, length } }) => Math.abs(a[axis] - b[axis]) > 0.999 * length);
  const x = refineScale(along('x'));
  const y = refineScale(along('y'));
  if (!x || !y || x.supporters.length < 2 || y.supporters.length < 2) return {};
  return { ratioX: x.unitsPerPoint / paperMm, ratioY: y.unitsPerPoint / paperMm };
};

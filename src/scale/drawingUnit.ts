import type { TextRun } from '../sheet/textRun.ts';
import { type DrawingUnit, MM_PER_UNIT } from './dimensionText.ts';

/** What else on a sheet says which unit its plain numbers are in. */
export interface UnitHints {
  /** The unit that a general note gives: `ALL DIMENSIONS IN MM`. */
  readonly stated?: DrawingUnit;
  /** Ratios that notes of the whole sheet and labelled measures claim. */
  readonly claimedRatios: readonly number[];
}

/** Agreeing plain dimensions, as far as their unit depends on them. Lengths in the units of the text. */
export interface PlainDimensions {
  readonly longest: number;
  /** Different values, one for each. */
  readonly values: readonly number[];
  /** Units of the text per mm of paper: the ratio, were the unit mm. */
  readonly unitsPerPaperMm: number;
}

export interface FoundUnit {
  readonly unit: DrawingUnit;
  /** True where nothing on the sheet says it. */
  readonly isAssumed: boolean;
}

/** DESIGN section 5: a unit is believed when it makes the longest dimension this long, in mm … */
const LONGEST_BETWEEN_MM = [3_000, 300_000] as const;
/** … and the ratio at least this. */
const LEAST_RATIO = 10;

/** A claimed ratio picks a unit where it is met this closely. */
const CLAIM_TOLERANCE = 0.01;

/** A longest dimension outside this is no unit that a general note can mean, in mm. */
const STATED_LONGEST_MM = [100, 2_000_000] as const;

/** A smaller unit than the rule's is thought of where it still makes the longest dimension this long, in mm. */
const LONGEST_OF_DETAIL_MM = 800;

/** Ratios from here on, less their rounding, are those of sites: dimensions in cm or whole metres are rare there (common practice, no source). */
const SITE_RATIO = 249;

/** A plan whose middle dimension is longer than this, in mm, is of halls (common practice, no source) … */
const HALL_MM = 8_000;
/** … and so small a scale is looked at twice. */
const SMALL_SCALE = 150;

/** ISO 5455 reductions and their usual neighbours. */
const METRIC_SCALES: readonly number[] = [
  10, 20, 25, 30, 40, 50, 75, 100, 125, 150, 200, 250, 300, 400, 500, 750, 1000, 1250, 1500, 2000, 2500, 5000,
];

/** Inches or feet of US architects' and engineers' scales: 12 / x inches to the foot, and 1" = 10' to 100'. */
const IMPERIAL_SCALES: readonly number[] = [
  4, 8, 12, 16, 24, 32, 48, 64, 96, 128, 192, 120, 240, 360, 480, 600, 720, 1200,
];

/** Whole numbers taken for metres at a larger ratio are a guess, unless as many as this agree. */
const MOST_RATIO_OF_FEW = 1000;
const MANY_VALUES = 6;

const COMMON_WITHIN = 1e-3;

const isOneOf = (ratio: number, scales: readonly number[]): boolean =>
  scales.some((scale) => Math.abs(ratio / scale - 1) < COMMON_WITHIN);

const PLAIN_UNITS = ['mm', 'cm', 'm'] as const;
const ALL_UNITS = ['mm', 'cm', 'm', 'in', 'ft'] as const;

/**
 * The unit of plain numbers: as a general note states it; else as a claimed ratio needs it; else by the rule of DESIGN
 * section 5, the first of mm, cm, m that makes the longest dimension 3 to 300 m and the ratio at least 10.
 *
 * The rule is put aside where a smaller unit gives a usual scale and its own answer is the scale of a site or a plan of
 * halls only, and where no metric unit gives a usual scale but inches or feet do.
 *
 * @returns null where no unit fits.
 */
export const plainUnit = (found: PlainDimensions, hints: UnitHints): FoundUnit | null => {
  const { longest, unitsPerPaperMm } = found;
  const ratioIn = (unit: DrawingUnit): number => unitsPerPaperMm * MM_PER_UNIT[unit];
  const { stated } = hints;
  if (stated && isBetween(longest * MM_PER_UNIT[stated], STATED_LONGEST_MM)) {
    return { unit: stated, isAssumed: false };
  }
  const ruled = unitByRule(found);
  const claimed = claimedUnit(found, ruled, hints);
  if (claimed) return { unit: claimed, isAssumed: false };
  const unit = ruled && (likelierSmallUnit(found, ruled) ?? ruled);
  if (unit && isOneOf(ratioIn(unit), METRIC_SCALES)) return { unit, isAssumed: true };
  const imperial = (['in', 'ft'] as const).find(
    (other) =>
      isOneOf(ratioIn(other), IMPERIAL_SCALES) &&
      isBetween(longest * MM_PER_UNIT[other], [LONGEST_OF_DETAIL_MM, LONGEST_BETWEEN_MM[1]]),
  );
  const fitting = imperial ?? unit;
  const isGuess = fitting === 'm' && ratioIn('m') > MOST_RATIO_OF_FEW && found.values.length < MANY_VALUES;
  if (isGuess) return null;
  return fitting ? { unit: fitting, isAssumed: true } : null;
};

/**
 * Whether numbers with two or three decimals, metres by their form, are feet: where a claimed ratio or a general note
 * says so, or where metres give no usual scale and feet do.
 *
 * @param ratio as the metres give it.
 */
export const areMetresFeet = (ratio: number, hints: UnitHints): FoundUnit | null => {
  const asFeet = (ratio * MM_PER_UNIT.ft) / MM_PER_UNIT.m;
  if (hints.stated === 'ft') return { unit: 'ft', isAssumed: false };
  if (hints.stated !== undefined || meetsClaim(ratio, hints)) return null;
  if (meetsClaim(asFeet, hints)) return { unit: 'ft', isAssumed: false };
  const isLikely = !isOneOf(ratio, METRIC_SCALES) && isOneOf(asFeet, IMPERIAL_SCALES);
  return isLikely ? { unit: 'ft', isAssumed: true } : null;
};

const isBetween = (value: number, [least, most]: readonly [number, number]): boolean =>
  value >= least && value <= most;

const meetsClaim = (ratio: number, { claimedRatios }: UnitHints): boolean =>
  claimedRatios.some((claim) => Math.abs(ratio / claim - 1) < CLAIM_TOLERANCE);

/**
 * The unit with which a claim is met. A note that is false by ten must not turn mm into cm: a larger metric unit than the
 * rule's is not believed, a smaller one only for a drawing of some size.
 */
const claimedUnit = (
  { longest, unitsPerPaperMm }: PlainDimensions,
  ruled: (typeof PLAIN_UNITS)[number] | undefined,
  hints: UnitHints,
): DrawingUnit | undefined => {
  const ratioIn = (unit: DrawingUnit): number => unitsPerPaperMm * MM_PER_UNIT[unit];
  if (ruled && meetsClaim(ratioIn(ruled), hints)) return ruled;
  const isRuledUsual = ruled !== undefined && isOneOf(ratioIn(ruled), METRIC_SCALES);
  return ALL_UNITS.filter((unit) => meetsClaim(ratioIn(unit), hints)).find((unit) => {
    if (unit === 'in' || unit === 'ft') return !isRuledUsual;
    const isSmaller = ruled === undefined || MM_PER_UNIT[unit] < MM_PER_UNIT[ruled];
    const isOfSomeSize = longest * MM_PER_UNIT[unit] >= LONGEST_OF_DETAIL_MM && ratioIn(unit) >= LEAST_RATIO;
    return ruled === undefined || (isSmaller && isOfSomeSize);
  });
};

const unitByRule = ({
  longest,
  unitsPerPaperMm,
}: PlainDimensions): (typeof PLAIN_UNITS)[number] | undefined =>
  PLAIN_UNITS.find(
    (unit) =>
      isBetween(longest * MM_PER_UNIT[unit], LONGEST_BETWEEN_MM) &&
      unitsPerPaperMm * MM_PER_UNIT[unit] >= LEAST_RATIO,
  );

/** A smaller unit that gives a usual scale where the rule's gives an unlikely drawing. */
const likelierSmallUnit = (
  { longest, values, unitsPerPaperMm }: PlainDimensions,
  ruled: (typeof PLAIN_UNITS)[number],
): DrawingUnit | undefined => {
  const ratio = unitsPerPaperMm * MM_PER_UNIT[ruled];
  const sorted = [...values].sort((a, b) => a - b);
  const middleMm = (sorted[Math.floor(sorted.length / 2)] ?? 0) * MM_PER_UNIT[ruled];
  const isOfHalls = ratio >= SMALL_SCALE && values.length >= 4 && middleMm > HALL_MM;
  if (!(ratio >= SITE_RATIO || isOfHalls)) return undefined;
  const isUsual = isOneOf(ratio, METRIC_SCALES);
  return PLAIN_UNITS.slice(0, PLAIN_UNITS.indexOf(ruled)).findLast((unit) => {
    const smaller = unitsPerPaperMm * MM_PER_UNIT[unit];
    const isLong = longest * MM_PER_UNIT[unit] >= LONGEST_OF_DETAIL_MM;
    return isLong && smaller >= LEAST_RATIO && (!isUsual || isOneOf(smaller, METRIC_SCALES));
  });
};

/** Words with which a general note names the unit of all dimensions, in the languages that plans come in. */
const ALL_DIMENSIONS =
  /(?<!\p{L})(?:dimensions?|dims?|measurements?|ma(?:ß|ss)e|ma(?:ß|ss)angaben|cotes|dimensioni|misure|quote|medidas|cotas|maten|m[åa]l)(?!\p{L})/iu;

const UNIT_WORD: readonly (readonly [RegExp, DrawingUnit])[] = [
  [/(?<!\p{L})(?:mm|milli?met(?:er|re|ri|ros)s?)(?!\p{L})/iu, 'mm'],
  [/(?<!\p{L})(?:cm|centi?met(?:er|re|ri|ros)s?|zentimetern?)(?!\p{L})/iu, 'cm'],
  [/(?<!\p{L})(?:m|met(?:er|re|ri|ros)s?)(?!\p{L})/iu, 'm'],
  [/(?<!\p{L})inch(?:es)?(?!\p{L})/iu, 'in'],
  [/(?<!\p{L})(?:decimal )?(?:feet|foot)(?!\p{L})/iu, 'ft'],
];

/**
 * The unit that a sheet's general note gives for all its dimensions: `ALL DIMENSIONS IN MM`, `Maße in cm`. Levels are
 * often said to be in metres beside: only what follows the word for dimensions counts. Undefined where no note says it,
 * where notes differ, or where one names two units (`feet and inches`).
 */
export const statedUnit = (runs: readonly TextRun[]): DrawingUnit | undefined => {
  const found = new Set<DrawingUnit>();
  for (const { text } of runs) {
    const start = text.length <= 200 ? ALL_DIMENSIONS.exec(text) : null;
    if (!start) continue;
    const said = text
      .slice(start.index + start[0].length)
      .split(/[.;,]|\b(?:levels?|heights?|h[öo]hen|unless|u\.?n\.?o)\b/i)[0]!;
    if (
      /\d/.test(said) ||
      !/(?:^|\s|:|-)(?:in|en|all|are|shown|given|:)(?:\s|$)|^\s*[:(=-]?\s*\(?\s*(?:mm|cm|m)\b/i.test(said)
    )
      continue;
    const units = UNIT_WORD.filter(([word]) => word.test(said)).map(([, unit]) => unit);
    if (units.length === 1) found.add(units[0]!);
    else if (units.length > 1) return undefined;
  }
  return found.size === 1 ? [...found][0] : undefined;
};

import type { PaperPoint } from '../geometry/point.ts';
import { signedTurnRad } from '../geometry/turn.ts';
import { distanceBetween } from '../geometry/vector.ts';
import { lengthUncertaintyMm } from '../scale/lengthUncertainty.ts';
import {
  mmPerUserUnit,
  pickUncertaintyUnits,
  type SheetScale,
  straightCountOf,
  straightLineOf,
  type TracedRun,
} from './tracedRun.ts';

/** One straight of a run: the traced front before any deduction. */
export interface MeasuredStraight {
  readonly index: number;
  readonly startPaper: PaperPoint;
  readonly endPaper: PaperPoint;
  readonly lengthMm: number;
  /** Half-width of the interval at k = 2. */
  readonly plusMinusMm: number;
}

/** A length with its +/- at k = 2. */
export interface MeasuredLength {
  readonly lengthMm: number;
  readonly plusMinusMm: number;
}

/**
 * The straights of a run in the order in which they were traced; none for fewer than two points. A site measure takes
 * the place of the traced length.
 */
export function straightsOf(run: TracedRun, scale: SheetScale): readonly MeasuredStraight[] {
  const mm = mmPerUserUnit(scale);
  const picks = { userUnit: scale.userUnit, pickUncertaintyPt: pickUncertaintyUnits(run, scale.userUnit) };
  return run.frontLine.slice(1).map((endPaper, index) => {
    const startPaper = run.frontLine[index]!;
    const onSite = run.measured?.[index];
    const lengthMm = onSite?.lengthMm ?? distanceBetween(startPaper, endPaper) * mm;
    const plusMinusMm = onSite?.plusMinusMm ?? lengthUncertaintyMm(lengthMm, scale, picks);
    return { index, startPaper, endPaper, lengthMm, plusMinusMm };
  });
}

/**
 * The whole front of a run. The straights are not independent: the scale moves all of them alike, so its part grows
 * with the whole length; and a corner pick that lengthens one straight may shorten the next. The sensitivity to a pick
 * is 1 at either end and 2 sin(|turn|/2) at a corner, the size of the gradient of the length with that point
 * (JCGM 100:2008, 5.1.2, eq. (10)). Straights measured on site bring their own +/-, each for itself, and of the others
 * both ends count in full.
 */
export function wholeLengthOf(run: TracedRun, scale: SheetScale): MeasuredLength {
  const count = straightCountOf(run);
  if (count === 0) return { lengthMm: 0, plusMinusMm: 0 };
  const lines = Array.from({ length: count }, (_, index) => straightLineOf(run, index));
  const straights = straightsOf(run, scale);
  const lengthMm = straights.reduce((sum, straight) => sum + straight.lengthMm, 0);
  const pickMm = pickUncertaintyUnits(run, scale.userUnit) * mmPerUserUnit(scale);
  if (run.measured?.some((measure) => measure)) {
    const drawn = straights.filter(({ index }) => !run.measured?.[index]);
    const drawnMm = drawn.reduce((sum, straight) => sum + straight.lengthMm, 0);
    const measuredVariance = run.measured.reduce(
      (sum, measure) => sum + ((measure?.plusMinusMm ?? 0) / 2) ** 2,
      0,
    );
    const drawnVariance = ((scale.relativeUncertainty / 2) * drawnMm) ** 2 + 2 * drawn.length * pickMm ** 2;
    return { lengthMm, plusMinusMm: 2 * Math.sqrt(measuredVariance + drawnVariance) };
  }
  const cornerParts = lines
    .slice(1)
    .map((line, index) => 4 * Math.sin(signedTurnRad(lines[index]!.along, line.along) / 2) ** 2);
  const pickParts = 2 + cornerParts.reduce((sum, part) => sum + part, 0);
  const scaleMm = (scale.relativeUncertainty / 2) * lengthMm;
  return { lengthMm, plusMinusMm: 2 * Math.sqrt(scaleMm ** 2 + pickParts * pickMm ** 2) };
}

import { type PaperPoint, paperPoint } from '../geometry/point.ts';
import { signedTurnRad } from '../geometry/turn.ts';
import { lengthUncertaintyMm } from '../scale/lengthUncertainty.ts';
import { degreesOf } from '../units/angle.ts';
import { pickVariance } from './pickVariance.ts';
import { bendOf, hasBends, partLength, type RunPath } from './runPath.ts';
import {
  backSign,
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
  /** What the front is the arc of; absent where the straight is straight. */
  readonly bend?: MeasuredBend;
}

/** The arc of a bent straight. */
export interface MeasuredBend {
  readonly radiusMm: number;
  /** +/- of the radius at k = 2: of a flat arc it is much larger than that of its length. */
  readonly radiusPlusMinusMm: number;
  /** How far the front turns along it, above 0. */
  readonly sweepDeg: number;
  /** `outside`: the customer stands outside the circle, the back has the centre. */
  readonly front: 'outside' | 'inside';
  /** From end to end, straight across. */
  readonly chordMm: number;
  /** From the middle of the chord to the arc. */
  readonly sagittaMm: number;
  readonly centrePaper: PaperPoint;
}

/** A length with its +/- at k = 2. */
export interface MeasuredLength {
  readonly lengthMm: number;
  readonly plusMinusMm: number;
}

/**
 * A value in user-space units that three picks of an arc give, in mm, with its +/- at k = 2. It depends on the picks in
 * no simple way, so its variance is worked out from how it changes with each (see `pickVariance`); the scale's share is
 * as for any length.
 */
function arcPlusMinusMm(
  run: TracedRun,
  index: number,
  scale: SheetScale,
  measureOf: (path: RunPath) => number,
): number {
  const asPath = ([start, over, end]: readonly PaperPoint[]): RunPath => ({
    frontLine: [start!, end!],
    bends: [over],
  });
  const picks = [run.frontLine[index]!, run.bends![index]!, run.frontLine[index + 1]!];
  const mm = mmPerUserUnit(scale);
  const pickUnits = pickUncertaintyUnits(run, scale.userUnit);
  const fromPicks = pickVariance(picks, pickUnits, (points) => measureOf(asPath(points))) * mm ** 2;
  const fromScaleMm = (scale.relativeUncertainty / 2) * measureOf(asPath(picks)) * mm;
  return 2 * Math.sqrt(fromScaleMm ** 2 + fromPicks);
}

/** The arc that a straight is; undefined where it is straight. A site measure of its length changes its size alone. */
function bendOfStraight(run: TracedRun, index: number, scale: SheetScale): MeasuredBend | undefined {
  const bend = bendOf(run, index);
  if (!bend) return undefined;
  const mm = mmPerUserUnit(scale);
  const sweepRad = Math.abs(bend.sweepRad);
  const onSite = run.measured?.[index];
  const radiusMm = onSite ? onSite.lengthMm / sweepRad : bend.radius * mm;
  return {
    radiusMm,
    radiusPlusMinusMm: arcPlusMinusMm(
      run,
      index,
      scale,
      (path) => bendOf(path, 0)?.radius ?? Number.POSITIVE_INFINITY,
    ),
    sweepDeg: degreesOf(sweepRad),
    front: bend.sweepRad > 0 === backSign(run) > 0 ? 'outside' : 'inside',
    chordMm: 2 * radiusMm * Math.sin(sweepRad / 2),
    sagittaMm: radiusMm * (1 - Math.cos(sweepRad / 2)),
    centrePaper: paperPoint(bend.centre.x, bend.centre.y),
  };
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
    const bend = bendOfStraight(run, index, scale);
    const lengthMm = onSite?.lengthMm ?? partLength(run, index) * mm;
    const drawnPlusMinusMm = bend
      ? arcPlusMinusMm(run, index, scale, (path) => partLength(path, 0))
      : lengthUncertaintyMm(lengthMm, scale, picks);
    const plusMinusMm = onSite?.plusMinusMm ?? drawnPlusMinusMm;
    return { index, startPaper, endPaper, lengthMm, plusMinusMm, ...(bend ? { bend } : {}) };
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
    // Each straight for itself: what remains of its +/- without the scale's share is its picks'.
    const pickVarianceOf = ({ lengthMm: ownMm, plusMinusMm }: MeasuredStraight): number =>
      (plusMinusMm / 2) ** 2 - ((scale.relativeUncertainty / 2) * ownMm) ** 2;
    const picksVariance = drawn.reduce((sum, straight) => sum + pickVarianceOf(straight), 0);
    const drawnVariance = ((scale.relativeUncertainty / 2) * drawnMm) ** 2 + picksVariance;
    return { lengthMm, plusMinusMm: 2 * Math.sqrt(measuredVariance + drawnVariance) };
  }
  if (hasBends(run)) {
    const fromPicks = wholePickVariance(run, scale) * mmPerUserUnit(scale) ** 2;
    return {
      lengthMm,
      plusMinusMm: 2 * Math.sqrt(((scale.relativeUncertainty / 2) * lengthMm) ** 2 + fromPicks),
    };
  }
  const cornerParts = lines
    .slice(1)
    .map((line, index) => 4 * Math.sin(signedTurnRad(lines[index]!.along, line.along) / 2) ** 2);
  const pickParts = 2 + cornerParts.reduce((sum, part) => sum + part, 0);
  const scaleMm = (scale.relativeUncertainty / 2) * lengthMm;
  return { lengthMm, plusMinusMm: 2 * Math.sqrt(scaleMm ** 2 + pickParts * pickMm ** 2) };
}

/** Variance of the whole front in square user-space units where some straights are arcs: every pick moved on its own. */
function wholePickVariance(run: TracedRun, scale: SheetScale): number {
  const { frontLine, bends = [] } = run;
  const count = straightCountOf(run);
  const bent = bends.flatMap((through, index) => (through && index < count ? [{ through, index }] : []));
  return pickVariance(
    [...frontLine, ...bent.map(({ through }) => through)],
    pickUncertaintyUnits(run, scale.userUnit),
    (points) => {
      const moved: (PaperPoint | undefined)[] = Array.from({ length: count });
      for (const [place, { index }] of bent.entries()) moved[index] = points[frontLine.length + place];
      const path = { frontLine: points.slice(0, frontLine.length), bends: moved };
      return moved.reduce((sum, _, index) => sum + partLength(path, index), 0);
    },
  );
}

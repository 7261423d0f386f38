import type { FitAlternative } from '../fitting/fitAnswer.ts';
import type { FitProblem } from '../fitting/problemSchema.ts';
import type { MeasuredCorner } from '../measure/corners.ts';
import { pieceMarks } from './pieceMarks.ts';

/** A dimension to take on site. Lengths in mm, angles in degrees; +/- at k = 2. */
export interface SiteMeasure {
  readonly run: string;
  /** From 1; for a corner, the straight that leads into it; null on the way in. */
  readonly straight: number | null;
  readonly kind: 'straight' | 'opening' | 'blocked' | 'bay' | 'low-section' | 'corner-angle' | 'way-in';
  readonly what: string;
  readonly unit: 'mm' | 'deg';
  readonly drawn: number;
  readonly plusMinus: number;
  /** Whether another value within the drawing's uncertainty would change layout, verdict or order. */
  readonly decides: boolean;
  readonly why: string;
}

/** A fitted run as the site-measure list takes it. */
export interface MeasuredRun {
  readonly name: string;
  readonly number: number;
  readonly problem: FitProblem;
  readonly alternative: FitAlternative;
  readonly corners: readonly Pick<MeasuredCorner, 'innerAngleDeg' | 'plusMinusDeg'>[];
  readonly questions: readonly string[];
}

const figure = (mm: number): string => String(Math.round(mm * 10) / 10);

/** Why a straight's length decides something; empty where it does not. */
const reasonsFor = (run: MeasuredRun, straight: number): readonly string[] => {
  const { alternative, problem } = run;
  const marks = pieceMarks(run.number, alternative);
  const uncertaintyMm = problem.straights[straight]?.uncertaintyMm ?? 0;
  const own = alternative.leftovers
    .map((leftover, index) => ({ leftover, mark: marks.leftovers[index] ?? '' }))
    .filter(({ leftover }) => leftover.straight === straight);
  const unsure = own
    .filter(({ leftover }) => !leftover.confirmed)
    .map(({ leftover, mark }) =>
      leftover.verdict === 'closes'
        ? `${mark}: ${figure(leftover.widthMm)} mm closes only if the length is right`
        : `${mark}: ${figure(leftover.widthMm)} mm ${leftover.verdict === 'filler' ? 'filler' : 'made to measure'} could change in size, verdict or layout`,
    );
  const made = own
    .filter(({ leftover }) => leftover.confirmed && leftover.verdict === 'made-to-measure')
    .map(({ mark }) => `${mark} is made to this length`);
  const hasPieces = alternative.pieces.some((piece) => piece.straight === straight);
  const exact =
    hasPieces && own.length === 0 && uncertaintyMm > 0
      ? ['Its pieces fill it exactly, with nothing to spare']
      : [];
  // The fit's own questions name straights by number; its sentences are kept whole.
  const asked = run.questions.filter((question) =>
    question.startsWith(`Measure straight ${straight + 1} on site`),
  );
  return [...(unsure.length + exact.length > 0 ? [...unsure, ...exact] : asked), ...made];
};

const endWord = (run: MeasuredRun, straight: number, side: 0 | 1): string => {
  const last = run.problem.straights.length - 1;
  if (side === 0 && straight > 0) return `corner ${straight}`;
  if (side === 1 && straight < last) return `corner ${straight + 1}`;
  return { wall: 'wall', exposed: 'exposed end', meets: 'the run that it meets' }[
    run.problem.ends[side].kind
  ];
};

const spanOf = ({ fromMm, toMm }: { readonly fromMm: number; readonly toMm: number }) =>
  [fromMm, toMm] as const;

const straightRows = (run: MeasuredRun): readonly SiteMeasure[] =>
  run.problem.straights.flatMap(
    ({ lengthMm, uncertaintyMm = 0, openings = [], blocked = [], bays = [], columns = [] }, straight) => {
      const why = reasonsFor(run, straight);
      const shared = { run: run.name, straight: straight + 1, unit: 'mm' as const };
      const zone = (kind: SiteMeasure['kind'], word: string, spans: readonly (readonly [number, number])[]) =>
        spans.flatMap(([fromMm, toMm]): SiteMeasure[] => {
          const decides = why.length > 0;
          const reason = 'Pieces stand between it and the datum';
          return [
            { what: `From the datum to the near side of the ${word}`, drawn: fromMm },
            { what: `Width of the ${word}`, drawn: toMm - fromMm },
          ].map(({ what, drawn }) => ({
            ...shared,
            kind,
            what,
            drawn,
            plusMinus: uncertaintyMm,
            decides,
            why: reason,
          }));
        });
      return [
        {
          ...shared,
          kind: 'straight' as const,
          what: `Front line of straight ${straight + 1}${run.problem.straights[straight]?.arc ? ', along the arc' : ''}, ${endWord(run, straight, 0)} to ${endWord(run, straight, 1)}`,
          drawn: lengthMm,
          plusMinus: uncertaintyMm,
          decides: why.length > 0,
          why: why.join('. ') || 'For the record: layout and verdicts hold over the drawing’s uncertainty',
        },
        ...arcRows(run, straight),
        ...zone('opening', 'opening', openings),
        ...zone('blocked', 'blocked zone', [...blocked, ...columns.map(spanOf)]),
        ...zone('bay', 'bay', bays.filter(({ isLow }) => !isLow).map(spanOf)),
        ...zone('low-section', 'low section', bays.filter(({ isLow }) => isLow).map(spanOf)),
      ];
    },
  );

/**
 * What sets an arc out: the chord between its ends and the rise at its middle, from which its radius follows:
 * r = c^2 / 8s + s / 2 (the sagitta formula turned round). Its wedges and its top are made to it.
 */
const arcRows = (run: MeasuredRun, straight: number): readonly SiteMeasure[] => {
  const { arc, lengthMm, uncertaintyMm = 0 } = run.problem.straights[straight]!;
  if (arc === undefined) return [];
  const halfRad = lengthMm / arc.radiusMm / 2;
  const why = 'The wedges and the curved top are made to it; the radius follows from chord and rise';
  return [
    {
      what: `Chord of the arc of straight ${straight + 1}, end to end`,
      drawn: 2 * arc.radiusMm * Math.sin(halfRad),
    },
    {
      what: `Rise of the arc of straight ${straight + 1} at its middle, for a radius of ${figure(arc.radiusMm)} mm`,
      drawn: arc.radiusMm * (1 - Math.cos(halfRad)),
    },
  ].map(({ what, drawn }) => ({
    run: run.name,
    straight: straight + 1,
    kind: 'straight',
    what,
    unit: 'mm',
    drawn,
    plusMinus: uncertaintyMm,
    decides: true,
    why,
  }));
};

const cornerRows = (run: MeasuredRun): readonly SiteMeasure[] =>
  run.corners.flatMap(({ innerAngleDeg, plusMinusDeg }, index): SiteMeasure[] => {
    // A plain joint has no angle to take.
    if (run.alternative.corners[index]?.treatment === 'joint') return [];
    const isWedge = run.alternative.corners[index]?.treatment === 'mitre';
    return [
      {
        run: run.name,
        straight: index + 1,
        kind: 'corner-angle',
        what: `Angle at corner ${index + 1}, between the front lines`,
        unit: 'deg',
        drawn: innerAngleDeg,
        plusMinus: plusMinusDeg,
        decides: isWedge,
        why: isWedge
          ? 'The corner wedge is made to it'
          : 'Pieces and corner units are square: what the walls are out of square opens a gap',
      },
    ];
  });

/**
 * What to take on site: every straight with its zones and corner angles, and of each whether it decides something, by
 * the fit's own confirmed flags and questions; then whatever else is given (the way in's sizes). Those that decide come
 * first; otherwise in the order of the runs.
 */
export const siteMeasureList = (
  runs: readonly MeasuredRun[],
  others: readonly SiteMeasure[] = [],
): readonly SiteMeasure[] => {
  const rows = [...runs.flatMap((run) => [...straightRows(run), ...cornerRows(run)]), ...others];
  return [...rows.filter(({ decides }) => decides), ...rows.filter(({ decides }) => !decides)];
};

import type { RunId, SheetId } from '../../document/ids.ts';
import type { ProjectDocument, Run } from '../../document/projectDocument.ts';
import { runNumberOf } from '../../document/runsInForce.ts';
import type { FitAlternative } from '../../fitting/fitAnswer.ts';
import { type Arc, arcThrough } from '../../geometry/arc.ts';
import type { PaperPoint, Point } from '../../geometry/point.ts';
import type { Vector } from '../../geometry/vector.ts';
import { backLineOf, backPathOf } from '../../measure/backLine.ts';
import { runAsTraced } from '../../measure/runAsTraced.ts';
import { bendOf, flattenedPath, type RunPath } from '../../measure/runPath.ts';
import { paperPointAt } from '../../measure/runPosition.ts';
import { drawnScaleOfRun, type ScaleOfSheet } from '../../measure/scaleOfSheet.ts';
import { type MeasuredStraight, straightsOf } from '../../measure/straights.ts';
import {
  frontMiddleOf,
  mmPerUserUnit,
  type SheetScale,
  straightLineOf,
  type TracedRun,
} from '../../measure/tracedRun.ts';
import { type RunZone, zonesOfRun } from '../../measure/zonesOfRun.ts';
import { isColumnPassed } from '../../quote/isColumnPassed.ts';
import { type PieceMarks, pieceMarks } from '../../quote/pieceMarks.ts';
import type { ServicePoint } from '../../services/servicePoint.ts';
import { servicePoints } from '../../services/servicePoints.ts';
import type { StockRange } from '../../stock/stockSchema.ts';
import { datumLetter } from '../datumLetter.ts';
import { type Span, spansOf } from '../elevation/spansOf.ts';
import { type FitOnPlan, fitOnPlan } from '../fitOnPlan.ts';
import { type ZoneOnPlan, zoneOnPlan } from '../zoneOnPlan.ts';
import { roomFrame } from './roomFrame.ts';

type WithoutPaper<Part> = Part extends unknown ? Omit<Part, 'ring' | 'letterRing' | 'outline'> : never;

/** A part of a fit with its ring in room mm. */
export type FloorPart = WithoutPaper<FitOnPlan> & {
  readonly ring: readonly Point[];
  readonly letterRing: readonly Point[];
  /** What is drawn where that has more than four corners: along an arc. */
  readonly outline?: readonly Point[];
  /** Of a piece or leftover: the straight that it stands on. */
  readonly straight: number | null;
};

/** A zone with what is drawn of it in room mm. */
export type FloorZone = RunZone & ZoneOnPlan;

/** A bent straight as it is set out: from the chord between its ends. */
export interface FloorBend {
  readonly radiusMm: number;
  readonly radiusPlusMinusMm: number;
  readonly sweepDeg: number;
  readonly arcMm: number;
  readonly chordMm: number;
  readonly sagittaMm: number;
  readonly centre: Point;
  readonly middle: Point;
  /** How far the arc bulges beyond the chord towards the customer; negative: towards the back. */
  readonly bulgeMm: number;
}

/** A stretch of a line as points: an arc, with its centre, or what lies between two arcs. */
export type FloorArc =
  | { readonly kind: 'arc'; readonly arc: Arc }
  | { readonly kind: 'line'; readonly points: readonly Point[] };

/** One straight as it is set out on the floor, from the datum at its traced start or corner point. */
export interface FloorStraight {
  readonly index: number;
  /** The name of its datum, such as `1A`: the run's number, then a letter along the front. */
  readonly datum: string;
  readonly start: Point;
  readonly end: Point;
  readonly along: Vector;
  readonly towardsBack: Vector;
  /** Of an arc its chord. */
  readonly lengthMm: number;
  /** At k = 2. */
  readonly plusMinusMm: number;
  /**
   * What takes its length, without gap or overlap; mm along the traced front from the datum. Of an arc along its chord:
   * what is marked on the floor first.
   */
  readonly spans: readonly Span[];
  /** Of an arc: `along` and `towardsBack` are then those of its chord. */
  readonly bend?: FloorBend;
}

/** Something that comes up from the building, with its place in room mm and its tag, such as `1-W2`: not to be taken for a datum, `1B`. */
export type FloorService = ServicePoint & { readonly tag: string; readonly at: Point };

export interface FloorRun {
  readonly runId: RunId;
  /** The run's place in the project's run list, from 1. */
  readonly number: number;
  readonly run: Run;
  readonly alternative: FitAlternative | null;
  readonly marks: PieceMarks | null;
  readonly frontLine: readonly Point[];
  readonly backLine: readonly Point[];
  /** The arcs of front and back line, whose chords the two lines above follow. */
  readonly arcs: { readonly front: readonly FloorArc[]; readonly back: readonly FloorArc[] };
  readonly straights: readonly FloorStraight[];
  readonly parts: readonly FloorPart[];
  readonly zones: readonly FloorZone[];
  readonly services: readonly FloorService[];
  /** The end of the front line, named as a datum too. */
  readonly lastDatum: { readonly name: string; readonly at: Point };
}

/** Runs traced at one scale of a sheet, in mm of the room; origin at the first one's first datum, y up as the sheet is shown. */
export interface FloorPlan {
  readonly origin: string;
  /** Where the origin lies on the sheet. */
  readonly originPaper: PaperPoint;
  /** The scale at which all its runs are traced. */
  readonly scale: ScaleOfSheet;
  readonly runs: readonly FloorRun[];
}

/** The letters by which a service is known on the sheet. */
export const serviceCode: Readonly<Record<ServicePoint['kind'], string>> = {
  'cold-water': 'C',
  'hot-water': 'H',
  waste: 'W',
  power: 'P',
  data: 'D',
  'beer-line': 'B',
  gas: 'G',
  coolant: 'K',
};

const servicesOf = (
  points: readonly ServicePoint[],
  runNumber: number,
  toRoom: (point: Point) => Point,
): readonly FloorService[] => {
  const counts = new Map<string, number>();
  return points.map((point): FloorService => {
    const count = (counts.get(point.kind) ?? 0) + 1;
    counts.set(point.kind, count);
    return { ...point, tag: `${runNumber}-${serviceCode[point.kind]}${count}`, at: toRoom(point.atPaper) };
  });
};

/**
 * Lays the runs of a sheet out on the floor: one plan for each scale at which runs are traced, because places in views
 * of different scale have no distance from one another. None where the sheet has no run with a straight.
 *
 * @param rotationDeg the page's /Rotate: the frame stands as the sheet is shown.
 */
export const floorPlans = (
  document: ProjectDocument,
  sheetId: SheetId,
  given: {
    readonly rotationDeg: number;
    readonly range: StockRange;
    readonly alternatives: ReadonlyMap<RunId, FitAlternative>;
  },
): readonly FloorPlan[] => {
  const groups = new Map<number, { readonly scale: ScaleOfSheet; readonly runs: NumberedRun[] }>();
  for (const runId of document.runIds) {
    const run = document.runs[runId];
    const scale = run && drawnScaleOfRun(document, run);
    if (run?.sheetId !== sheetId || run.frontLine.length < 2 || !scale) continue;
    const group = groups.get(scale.ratio) ?? { scale, runs: [] };
    group.runs.push({ runId, run, number: runNumberOf(document, runId) });
    groups.set(scale.ratio, group);
  }
  return [...groups.values()].flatMap(({ scale, runs }): FloorPlan[] => {
    const plan = planOf(document, runs, scale, given);
    return plan ? [plan] : [];
  });
};

interface NumberedRun {
  readonly runId: RunId;
  readonly run: Run;
  readonly number: number;
}

const planOf = (
  document: ProjectDocument,
  onSheet: readonly NumberedRun[],
  scale: ScaleOfSheet,
  {
    rotationDeg,
    range,
    alternatives,
  }: {
    readonly rotationDeg: number;
    readonly range: StockRange;
    readonly alternatives: ReadonlyMap<RunId, FitAlternative>;
  },
): FloorPlan | null => {
  const first = onSheet[0];
  const origin = first?.run.frontLine[0]?.at;
  if (!first || !origin) return null;
  const { toRoom, turned } = roomFrame(scale, rotationDeg, origin);

  const runs = onSheet.map(({ runId, run, number }): FloorRun => {
    const traced = runAsTraced(run);
    const alternative = alternatives.get(runId) ?? null;
    const marks = alternative && pieceMarks(number, alternative);
    const zones = zonesOfRun(document, runId, scale);
    const straights = straightsOf(traced, scale);
    const spans = spansOf({ run, straights, zones, alternative });
    const straightOfPart = (part: FitOnPlan): number | null => {
      const index = Number(part.part.split(':')[1]);
      if (part.kind === 'corner') return null;
      const list = {
        piece: alternative?.pieces,
        leftover: alternative?.leftovers,
        wedge: alternative?.wedges,
      }[part.kind];
      return list?.[index]?.straight ?? null;
    };
    return {
      runId,
      number,
      run,
      alternative,
      marks,
      frontLine: flattenedPath(traced).map(toRoom),
      arcs: arcsOf(traced, scale, run.allowances.claddingMm, toRoom),
      backLine: backLineOf(traced, scale, run.allowances.claddingMm).map(toRoom),
      straights: straights.map((straight) => {
        const line = straightLineOf(traced, straight.index);
        const bend = bendOnFloor(traced, straight, toRoom);
        const place = { along: turned(line.along), towardsBack: turned(line.towardsBack) };
        return {
          index: straight.index,
          datum: `${number}${datumLetter(straight.index)}`,
          start: toRoom(straight.startPaper),
          end: toRoom(straight.endPaper),
          ...place,
          lengthMm: straight.bend?.chordMm ?? straight.lengthMm,
          plusMinusMm: straight.plusMinusMm,
          spans: alongChord(traced, straight, spans[straight.index]?.spans ?? [], scale),
          ...(bend ? { bend } : {}),
        };
      }),
      parts: (alternative && marks ? fitOnPlan(run, alternative, marks, scale, range) : []).map(
        (part): FloorPart => ({
          ...part,
          ring: part.ring.map(toRoom),
          letterRing: part.letterRing.map(toRoom),
          ...(part.outline ? { outline: part.outline.map(toRoom) } : {}),
          straight: straightOfPart(part),
        }),
      ),
      zones: zones.map((zone) => ({
        ...zone,
        ...zoneOnPlan(zone, run.depthMm, isColumnPassed(zone, alternative), (along, offset) =>
          toRoom(paperPointAt(traced, zone.straight, along, offset, scale)),
        ),
      })),
      services: servicesOf(
        alternative ? servicePoints(run, alternative, range, scale, zones) : [],
        number,
        toRoom,
      ),
      lastDatum: {
        name: `${number}${datumLetter(straights.length)}`,
        at: toRoom(traced.frontLine.at(-1) ?? origin),
      },
    };
  });
  return { origin: `${first.number}A`, originPaper: origin, scale, runs };
};

const bendOnFloor = (
  traced: TracedRun,
  { index, lengthMm, bend }: MeasuredStraight,
  toRoom: (point: Point) => Point,
): FloorBend | null => {
  if (!bend) return null;
  const middle = frontMiddleOf(traced, index);
  const { start, end, towardsBack } = straightLineOf(traced, index);
  const rise = { x: middle.at.x - (start.x + end.x) / 2, y: middle.at.y - (start.y + end.y) / 2 };
  const isTowardsBack = rise.x * towardsBack.x + rise.y * towardsBack.y > 0;
  return {
    ...bend,
    arcMm: lengthMm,
    centre: toRoom(bend.centrePaper),
    middle: toRoom(middle.at),
    bulgeMm: isTowardsBack ? -bend.sagittaMm : bend.sagittaMm,
  };
};

/** The spans of an arc as they project square onto its chord; those of a straight as they are. */
const alongChord = (
  traced: TracedRun,
  { index, bend }: MeasuredStraight,
  spans: readonly Span[],
  scale: SheetScale,
): readonly Span[] => {
  // Beyond half a circle the arc runs back under its own ends: no figures along the chord then.
  if (!bend) return spans;
  if (bend.sweepDeg > 180) return [];
  const { start, along } = straightLineOf(traced, index);
  const mm = mmPerUserUnit(scale);
  const projected = (alongMm: number): number => {
    const { x, y } = paperPointAt(traced, index, alongMm, 0, scale);
    return ((x - start.x) * along.x + (y - start.y) * along.y) * mm;
  };
  return spans.map((span) => ({ ...span, fromMm: projected(span.fromMm), toMm: projected(span.toMm) }));
};

/** Front and back line in stretches, so that a drawing with true arcs can have them. */
const arcsOf = (
  traced: TracedRun,
  scale: SheetScale,
  claddingMm: number,
  toRoom: (point: Point) => Point,
): FloorRun['arcs'] => {
  const stretches = (path: RunPath): readonly FloorArc[] =>
    path.frontLine.slice(1).map((end, index): FloorArc => {
      const start = path.frontLine[index]!;
      const through = path.bends?.[index];
      const arc =
        through && bendOf(path, index) ? arcThrough(toRoom(start), toRoom(through), toRoom(end)) : undefined;
      return arc ? { kind: 'arc', arc } : { kind: 'line', points: [toRoom(start), toRoom(end)] };
    });
  return { front: stretches(traced), back: stretches(backPathOf(traced, scale, claddingMm)) };
};

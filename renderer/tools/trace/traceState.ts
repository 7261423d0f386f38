import type { Run } from '../../../src/document/projectDocument.ts';
import { type PaperPoint, paperPoint } from '../../../src/geometry/point.ts';
import { distanceBetween, movedBy, type Vector } from '../../../src/geometry/vector.ts';
import { arrivingDirection, type RunPath } from '../../../src/measure/runPath.ts';
import type { FollowedCounter } from '../../../src/sheet/followLine.ts';
import type { EarlierPoint, Guides, Hold, Pick } from '../pick.ts';
import type { ToolContext, ToolEvent, ToolStep, ToolView } from '../tool.ts';

/** Where tracing starts. */
export interface TraceIdle {
  readonly at: 'idle';
  readonly pointer: Pick | null;
}

/** The front line is being picked, point by point. */
export interface TraceFront {
  readonly at: 'front';
  readonly points: readonly Pick[];
  /** Points on the arcs by which the front goes on from the point of the same index. */
  readonly bends: Bends;
  /** How the next stretch is bent; null where it is straight. */
  readonly arc: TraceArc | null;
  readonly pointer: Pick;
  readonly hold: Hold | null;
}

export type Bends = readonly (Pick | undefined)[];

/**
 * The arc that is being picked: on from the last straight without a turn, its end alone is picked, on a circle of a
 * typed radius where one was typed; or through a point that is picked before its end.
 */
export type TraceArc =
  | { readonly kind: 'tangent'; readonly radius: number | null }
  | { readonly kind: 'through'; readonly through: Pick | null };

/** The front line is whole; its back line is to be picked. */
export interface TraceBack {
  readonly at: 'back';
  readonly points: readonly Pick[];
  readonly bends: Bends;
  readonly pointer: Pick;
}

/** The drawing was followed; what was found is offered. */
export interface TraceOffer {
  readonly at: 'offer';
  readonly from: Pick;
  readonly counter: FollowedCounter;
  /** What the run would be, with fresh ids, so that the offer and what is taken are one thing. */
  readonly run: Run;
  readonly zoneIds: readonly string[];
}

export type TraceState = TraceIdle | TraceFront | TraceBack | TraceOffer;

export const traceIdle: TraceIdle = { at: 'idle', pointer: null };

/** One state of the tool: what it does with events, and what it shows. */
export interface TraceStateRules<State extends TraceState> {
  readonly next: (state: State, event: ToolEvent, context: ToolContext) => ToolStep<TraceState>;
  readonly view: (state: State, context: ToolContext) => ToolView;
}

const beforeLast = (points: readonly Pick[], bends: Bends): PaperPoint | null => {
  const [before, last] = [points.at(-2)?.at, points.at(-1)?.at];
  const way = lastDirection(points, bends);
  if (!before || !last || !way || !bends[points.length - 2]) return before ?? null;
  const back = movedBy(last, way, -distanceBetween(before, last));
  return paperPoint(back.x, back.y);
};

/** The points of the runs on the sheet in hand: a run may start where another one stops. */
const drawnPoints = ({ document, sheetId }: ToolContext): readonly EarlierPoint[] =>
  Object.values(document.runs).flatMap((run) =>
    run.sheetId === sheetId
      ? run.frontLine.map(({ at }) => ({ at, uncertaintyPt: run.pickUncertaintyPt }))
      : [],
  );

/** Picks as a line with its arcs. */
export const pathOf = (points: readonly Pick[], bends: Bends): RunPath => ({
  frontLine: points.map(({ at }) => at),
  bends: bends.map((through) => through?.at),
});

/** The direction in which a front line arrives at its last point; null before it has a straight. */
export const lastDirection = (points: readonly Pick[], bends: Bends): Vector | null =>
  points.length > 1 ? arrivingDirection(pathOf(points, bends), points.length - 2) : null;

/** What the next pick of a front line may go by. Behind an arc its tangent counts as the last straight. */
export const frontGuides = (
  points: readonly Pick[],
  bends: Bends,
  hold: Hold | null,
  context: ToolContext,
): Guides => ({
  anchor: points.at(-1)?.at ?? null,
  before: beforeLast(points, bends),
  points: [...points.slice(0, -1), ...drawnPoints(context)],
  hold,
});

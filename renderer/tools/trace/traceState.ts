import type { Run } from '../../../src/document/projectDocument.ts';
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
  readonly pointer: Pick;
  readonly hold: Hold | null;
}

/** The front line is whole; its back line is to be picked. */
export interface TraceBack {
  readonly at: 'back';
  readonly points: readonly Pick[];
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

/** The points of the runs on the sheet in hand: a run may start where another one stops. */
const drawnPoints = ({ document, sheetId }: ToolContext): readonly EarlierPoint[] =>
  Object.values(document.runs).flatMap((run) =>
    run.sheetId === sheetId
      ? run.frontLine.map(({ at }) => ({ at, uncertaintyPt: run.pickUncertaintyPt }))
      : [],
  );

/** What the next pick of a front line may go by. */
export const frontGuides = (points: readonly Pick[], hold: Hold | null, context: ToolContext): Guides => ({
  anchor: points.at(-1)?.at ?? null,
  before: points.at(-2)?.at ?? null,
  points: [...points.slice(0, -1), ...drawnPoints(context)],
  hold,
});

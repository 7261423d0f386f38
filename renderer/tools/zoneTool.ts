import type { ZoneId } from '../../src/document/ids.ts';
import type { Zone } from '../../src/document/projectDocument.ts';
import type { PaperPoint } from '../../src/geometry/point.ts';
import { alongOf, footOnStraight, pointAlong, straightFrom } from './footOnStraight.ts';
import { type NearestStraight, nearestStraight } from './nearestStraight.ts';
import {
  arcLengthBetween,
  lengthBetween,
  lengthExample,
  mmPerPaperUnit,
  pointOnTheWay,
  typedLength,
} from './paperLengths.ts';
import { markOf, noGuides, type Pick } from './pick.ts';
import type { Tool, ToolContext, ToolLine, ToolStep, ToolView } from './tool.ts';
import { toolView } from './toolView.ts';

/** Marking a part of a straight as an opening or as blocked: where it starts, then where it ends. */
export type ZoneState =
  | { readonly at: 'idle'; readonly pointer: Pick | null }
  | {
      readonly at: 'second';
      readonly straight: NearestStraight;
      readonly a: PaperPoint;
      readonly pointer: PaperPoint;
    };

const segmentOf = ({ runId, vertexId }: NearestStraight, { document }: ToolContext) => {
  const run = document.runs[runId];
  return run ? straightFrom(run, vertexId) : null;
};

/** The place a typed width away from the first side, along the straight, on the side where the hand points. */
const widthAway = (
  state: Extract<ZoneState, { at: 'second' }>,
  width: number,
  context: ToolContext,
): PaperPoint | null => {
  const segment = segmentOf(state.straight, context);
  if (!segment?.through) return pointOnTheWay(state.a, state.pointer, width);
  const [from, towards] = [alongOf(segment, state.a), alongOf(segment, state.pointer)];
  return from === towards ? null : pointAlong(segment, from + Math.sign(towards - from) * width);
};

/** The line from the first side to the hand, along an arc where the straight is one. */
const zoneLine = (state: Extract<ZoneState, { at: 'second' }>, context: ToolContext): ToolLine => {
  const { a: from, pointer: to } = state;
  const segment = segmentOf(state.straight, context);
  const uncertaintyPt = picksOf(state.straight, context);
  if (!segment?.through) return { from, to, sure: false, ...lengthBetween(from, to, uncertaintyPt, context) };
  const through = pointAlong(segment, (alongOf(segment, from) + alongOf(segment, to)) / 2);
  const { radiusMm: _, ...length } = arcLengthBetween(from, through, to, uncertaintyPt, context);
  return { from, to, through, sure: false, ...length };
};

const footOn = (straight: NearestStraight, point: PaperPoint, context: ToolContext): PaperPoint => {
  const segment = segmentOf(straight, context);
  return segment ? footOnStraight(segment, point) : point;
};

/** How sure the picks of the run are that the zone lies on, in points. */
const picksOf = ({ runId }: NearestStraight, { document }: ToolContext): number =>
  document.runs[runId]?.pickUncertaintyPt ?? 0;

const words = {
  opening: { noun: 'opening', name: 'Opening' },
  blocked: { noun: 'blocked zone', name: 'Blocked' },
  bay: { noun: 'bay', name: 'Bay' },
  low: { noun: 'low section', name: 'Low section' },
} as const;

const zoneFrom = (
  kind: Zone['kind'],
  state: Extract<ZoneState, { at: 'second' }>,
  b: PaperPoint,
  context: ToolContext,
): ToolStep<ZoneState> => {
  if (b.x === state.a.x && b.y === state.a.y)
    return { state, say: `The ${words[kind].noun} has no width yet. Pick its other side.` };
  return {
    state: { at: 'idle', pointer: null },
    select: state.straight.runId,
    done: true,
    command: {
      type: 'add-zone',
      zone: {
        id: `zone-${context.freshId()}` as ZoneId,
        runId: state.straight.runId,
        kind,
        name: words[kind].name,
        vertexId: state.straight.vertexId,
        a: state.a,
        b,
      },
    },
  };
};

/** The tool for openings or for blocked zones. */
export const zoneTool = (kind: Zone['kind']): Tool<ZoneState> => ({
  name: kind,
  start: () => ({ at: 'idle', pointer: null }),

  next(state, event, context): ToolStep<ZoneState> {
    if (state.at === 'idle') {
      if (event.type === 'pointer-move') return { state: { at: 'idle', pointer: event.pick } };
      if (event.type === 'escape' || event.type === 'confirm') return { state, done: true };
      if (event.type !== 'pointer-down') return { state };
      const straight = nearestStraight(context.document, context.sheetId, event.pick.at);
      if (!straight) return { state, say: 'Trace a run first: it lies on a straight of one.', done: true };
      const a = footOn(straight, event.pick.at, context);
      return { state: { at: 'second', straight, a, pointer: a } };
    }
    if (event.type === 'pointer-move')
      return { state: { ...state, pointer: footOn(state.straight, event.pick.at, context) } };
    if (event.type === 'escape') return { state: { at: 'idle', pointer: null } };
    if (event.type === 'pointer-down')
      return zoneFrom(kind, state, footOn(state.straight, event.pick.at, context), context);
    if (event.type !== 'entry') return { state };
    const here = mmPerPaperUnit(context, [state.a, state.pointer]);
    if ('say' in here) return { state, say: here.say };
    const typed = typedLength(event.text, context);
    if ('say' in typed) return { state, say: typed.say };
    const b = widthAway(state, typed.lengthMm / here.mmPerUnit, context);
    return b
      ? zoneFrom(kind, state, footOn(state.straight, b, context), context)
      : { state, say: 'Point the way along the straight, then type the width.' };
  },

  view(state, context): ToolView {
    const { noun } = words[kind];
    if (state.at === 'idle')
      return toolView({
        prompt: `Pick where the ${noun} starts on the front line.`,
        marks: state.pointer ? [markOf(state.pointer)] : [],
      });
    return toolView({
      prompt: `Pick where the ${noun} ends, or type its width.`,
      entry: { label: 'Width', example: lengthExample(context) },
      lines: [zoneLine(state, context)],
      marks: [{ at: state.pointer, relation: null, word: null }],
      guides: { ...noGuides, anchor: state.a },
    });
  },
});

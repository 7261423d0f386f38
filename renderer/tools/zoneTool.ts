import type { VertexId, ZoneId } from '../../src/document/ids.ts';
import type { Zone } from '../../src/document/projectDocument.ts';
import { projectOntoLine } from '../../src/geometry/line.ts';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { type NearestStraight, nearestStraight } from './nearestStraight.ts';
import { lengthBetween, lengthExample, mmPerPaperUnit, pointOnTheWay, typedLength } from './paperLengths.ts';
import type { Pick, Tool, ToolContext, ToolStep, ToolView } from './tool.ts';

/** Marking a part of a straight as an opening or as blocked: where it starts, then where it ends. */
export type ZoneState =
  | { readonly at: 'idle'; readonly pointer: Pick | null }
  | {
      readonly at: 'second';
      readonly straight: NearestStraight;
      readonly a: PaperPoint;
      readonly pointer: PaperPoint;
    };

/** The foot of a pick on the straight that starts at a vertex, held between the straight's two ends. */
const footOn = (straight: NearestStraight, point: PaperPoint, { document }: ToolContext): PaperPoint => {
  const run = document.runs[straight.runId];
  const index = run?.frontLine.findIndex(({ id }) => id === straight.vertexId) ?? -1;
  const start = run?.frontLine[index]?.at;
  const end = run?.frontLine[index + 1]?.at;
  if (!start || !end) return point;
  const { foot, along } = projectOntoLine(point, { start, end });
  const whole = Math.hypot(end.x - start.x, end.y - start.y);
  if (along <= 0) return start;
  return along >= whole ? end : paperPoint(foot.x, foot.y);
};

const words = {
  opening: { noun: 'opening', name: 'Opening' },
  blocked: { noun: 'blocked zone', name: 'Blocked' },
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
        vertexId: state.straight.vertexId as VertexId,
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
    const mmPerUnit = mmPerPaperUnit(context);
    if (mmPerUnit === null)
      return { state, say: 'Set the scale first: a typed length means nothing without it.' };
    const typed = typedLength(event.text, context);
    if ('say' in typed) return { state, say: typed.say };
    const b = pointOnTheWay(state.a, state.pointer, typed.lengthMm / mmPerUnit);
    return b
      ? zoneFrom(kind, state, footOn(state.straight, b, context), context)
      : { state, say: 'Point the way along the straight, then type the width.' };
  },

  view(state, context): ToolView {
    const { noun } = words[kind];
    if (state.at === 'idle')
      return {
        prompt: `Pick where the ${noun} starts on the front line.`,
        entry: null,
        lines: [],
        marks: state.pointer ? [{ at: state.pointer.at, word: state.pointer.relation }] : [],
        acts: [],
        anchor: null,
      };
    return {
      prompt: `Pick where the ${noun} ends, or type its width.`,
      entry: { label: 'Width', example: lengthExample(context) },
      lines: [
        {
          from: state.a,
          to: state.pointer,
          sure: false,
          ...lengthBetween(state.a, state.pointer, 0, context),
        },
      ],
      marks: [{ at: state.pointer, word: null }],
      acts: [],
      anchor: state.a,
    };
  },
});

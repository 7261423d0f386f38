import type { RunId, VertexId } from '../../src/document/ids.ts';
import type { Run } from '../../src/document/projectDocument.ts';
import { nearestOnPolyline } from '../../src/geometry/polyline.ts';
import { cross, vectorBetween } from '../../src/geometry/vector.ts';
import { lengthBetween, lengthExample, mmPerPaperUnit, pointOnTheWay, typedLength } from './paperLengths.ts';
import type { Pick, Tool, ToolContext, ToolStep, ToolView } from './tool.ts';

/** Tracing a run: the front line point by point, then the side and depth of its back line. */
export type TraceState =
  | { readonly at: 'idle'; readonly pointer: Pick | null }
  | { readonly at: 'front'; readonly points: readonly Pick[]; readonly pointer: Pick }
  | { readonly at: 'back'; readonly points: readonly Pick[]; readonly pointer: Pick };

const isSamePlace = (a: Pick, b: Pick) => a.at.x === b.at.x && a.at.y === b.at.y;
const markOf = (pick: Pick) => ({ at: pick.at, word: pick.relation });
const worst = (picks: readonly Pick[]) => Math.max(...picks.map(({ uncertaintyPt }) => uncertaintyPt));

/** Least and most depth of a counter that a pick of its back line may give, in mm; else the depth stays as it was. */
const depthLeastMm = 200;
const depthMostMm = 2000;

interface BackLine {
  readonly backSide: Run['backSide'];
  /** Measured where the pick was caught by the drawing; the run's usual depth elsewhere. */
  readonly depthMm: number;
}

const backLineAt = (points: readonly Pick[], pick: Pick, context: ToolContext): BackLine => {
  const usual = context.runDefaults.depthMm;
  const front = points.map(({ at }) => at);
  const nearest = nearestOnPolyline(pick.at, front);
  const from = nearest && front[nearest.segmentIndex];
  const to = nearest && front[nearest.segmentIndex + 1];
  if (!nearest || !from || !to) return { backSide: context.runDefaults.backSide, depthMm: usual };
  const way = vectorBetween(from, to);
  const across = cross(way, vectorBetween(from, pick.at));
  const mmPerUnit = mmPerPaperUnit(context);
  const offset = Math.abs(across) / Math.hypot(way.x, way.y);
  const measuredMm = mmPerUnit === null ? null : Math.round(offset * mmPerUnit);
  const isMeasured =
    pick.relation !== null && measuredMm !== null && measuredMm >= depthLeastMm && measuredMm <= depthMostMm;
  return { backSide: across > 0 ? 'left' : 'right', depthMm: isMeasured ? measuredMm : usual };
};

const nextName = ({ document }: ToolContext): string => {
  const taken = new Set(Object.values(document.runs).map(({ name }) => name));
  let number = document.runIds.length + 1;
  while (taken.has(`Run ${number}`)) number += 1;
  return `Run ${number}`;
};

const finished = (points: readonly Pick[], back: BackLine, context: ToolContext): ToolStep<TraceState> => {
  const id = `run-${context.freshId()}` as RunId;
  return {
    state: { at: 'idle', pointer: null },
    select: id,
    done: true,
    command: {
      type: 'add-run',
      run: {
        ...context.runDefaults,
        ...back,
        id,
        sheetId: context.sheetId,
        name: nextName(context),
        frontLine: points.map(({ at }) => ({
          id: `vertex-${context.freshId()}` as VertexId,
          at,
          treatment: null,
        })),
        pickUncertaintyPt: worst(points),
      },
    },
  };
};

const nextInFront = (state: Extract<TraceState, { at: 'front' }>, pick: Pick): ToolStep<TraceState> => {
  const last = state.points.at(-1);
  if (last && isSamePlace(last, pick)) return { state };
  return { state: { at: 'front', points: [...state.points, pick], pointer: pick } };
};

export const traceTool: Tool<TraceState> = {
  name: 'trace',
  start: () => ({ at: 'idle', pointer: null }),

  next(state, event, context): ToolStep<TraceState> {
    switch (state.at) {
      case 'idle':
        if (event.type === 'pointer-move') return { state: { at: 'idle', pointer: event.pick } };
        if (event.type === 'pointer-down')
          return { state: { at: 'front', points: [event.pick], pointer: event.pick } };
        if (event.type === 'escape' || event.type === 'confirm') return { state, done: true };
        return { state };

      case 'front': {
        if (event.type === 'pointer-move') return { state: { ...state, pointer: event.pick } };
        if (event.type === 'pointer-down') return nextInFront(state, event.pick);
        if (event.type === 'escape' || event.type === 'delete')
          return state.points.length > 1
            ? { state: { ...state, points: state.points.slice(0, -1) } }
            : { state: { at: 'idle', pointer: state.pointer } };
        if (event.type === 'confirm' || (event.type === 'act' && event.name === 'finish'))
          return state.points.length > 1
            ? { state: { at: 'back', points: state.points, pointer: state.pointer } }
            : { state, say: 'A run needs a second point.' };
        if (event.type !== 'entry') return { state };
        const mmPerUnit = mmPerPaperUnit(context);
        if (mmPerUnit === null)
          return { state, say: 'Set the scale first: a typed length means nothing without it.' };
        const typed = typedLength(event.text, context);
        if ('say' in typed) return { state, say: typed.say };
        const last = state.points.at(-1);
        const at = last && pointOnTheWay(last.at, state.pointer.at, typed.lengthMm / mmPerUnit);
        if (!last || !at)
          return { state, say: 'Point the way that the straight goes, then type its length.' };
        return nextInFront(state, { at, uncertaintyPt: last.uncertaintyPt, relation: null });
      }

      case 'back': {
        if (event.type === 'pointer-move') return { state: { ...state, pointer: event.pick } };
        if (event.type === 'escape') return { state: { ...state, at: 'front' } };
        if (event.type === 'pointer-down')
          return finished(state.points, backLineAt(state.points, event.pick, context), context);
        const { backSide } = backLineAt(state.points, state.pointer, context);
        if (event.type === 'confirm')
          return finished(state.points, { backSide, depthMm: context.runDefaults.depthMm }, context);
        if (event.type !== 'entry') return { state };
        const typed = typedLength(event.text, context);
        if ('say' in typed) return { state, say: typed.say };
        if (typed.lengthMm < 50 || typed.lengthMm > 5000)
          return { state, say: 'A counter’s depth lies between 50 mm and 5 m.' };
        return finished(state.points, { backSide, depthMm: typed.lengthMm }, context);
      }
    }
  },

  view(state, context): ToolView {
    if (state.at === 'idle')
      return {
        prompt: 'Pick where the front line, the customer face, starts.',
        entry: null,
        lines: [],
        marks: state.pointer ? [markOf(state.pointer)] : [],
        acts: [],
        anchor: null,
      };
    const uncertaintyPt = worst(state.points);
    const lines: ToolView['lines'][number][] = state.points.slice(1).map((to, index) => {
      const from = state.points[index]?.at ?? to.at;
      return { from, to: to.at, sure: true, ...lengthBetween(from, to.at, uncertaintyPt, context) };
    });
    const last = state.points.at(-1);
    if (state.at === 'front') {
      if (last && !isSamePlace(last, state.pointer))
        lines.push({
          from: last.at,
          to: state.pointer.at,
          sure: false,
          ...lengthBetween(
            last.at,
            state.pointer.at,
            Math.max(uncertaintyPt, state.pointer.uncertaintyPt),
            context,
          ),
        });
      return {
        prompt:
          state.points.length > 1
            ? 'Pick the next corner or the end. Finish when the front line is whole.'
            : 'Pick the next corner or the end, or point the way and type the length.',
        entry: { label: 'Length', example: lengthExample(context) },
        lines,
        marks: [markOf(state.pointer)],
        acts:
          state.points.length > 1 ? [{ name: 'finish', words: 'Finish the front line', key: 'Return' }] : [],
        anchor: last?.at ?? null,
      };
    }
    return {
      prompt: 'Pick the back line, or any place on the working side; or type the depth.',
      entry: { label: 'Depth', example: String(context.runDefaults.depthMm) },
      lines,
      marks: [markOf(state.pointer)],
      acts: [],
      anchor: null,
    };
  },
};

import { lengthBetween } from './paperLengths.ts';
import type { Pick, Tool, ToolStep, ToolView } from './tool.ts';

/** Measuring between two picks. Nothing is kept. */
export type MeasureState =
  | { readonly at: 'idle'; readonly pointer: Pick | null }
  | { readonly at: 'second'; readonly a: Pick; readonly pointer: Pick }
  | { readonly at: 'shown'; readonly a: Pick; readonly b: Pick };

const markOf = (pick: Pick) => ({ at: pick.at, word: pick.relation });

export const measureTool: Tool<MeasureState> = {
  name: 'measure',
  start: () => ({ at: 'idle', pointer: null }),

  next(state, event): ToolStep<MeasureState> {
    if (state.at === 'idle') {
      if (event.type === 'pointer-move') return { state: { at: 'idle', pointer: event.pick } };
      if (event.type === 'escape' || event.type === 'confirm') return { state, done: true };
      return event.type === 'pointer-down'
        ? { state: { at: 'second', a: event.pick, pointer: event.pick } }
        : { state };
    }
    if (state.at === 'second') {
      if (event.type === 'pointer-move') return { state: { ...state, pointer: event.pick } };
      if (event.type === 'escape') return { state: { at: 'idle', pointer: state.pointer } };
      return event.type === 'pointer-down'
        ? { state: { at: 'shown', a: state.a, b: event.pick } }
        : { state };
    }
    if (event.type === 'pointer-down') return { state: { at: 'second', a: event.pick, pointer: event.pick } };
    return event.type === 'escape' ? { state: { at: 'idle', pointer: state.b } } : { state };
  },

  view(state, context): ToolView {
    const nothing = { entry: null, acts: [], anchor: null, lines: [] } as const;
    if (state.at === 'idle')
      return {
        ...nothing,
        prompt: context.scale
          ? 'Pick where to measure from.'
          : 'This sheet has no scale yet: set it before measuring.',
        marks: state.pointer ? [markOf(state.pointer)] : [],
      };
    const to = state.at === 'second' ? state.pointer : state.b;
    const uncertaintyPt = Math.max(state.a.uncertaintyPt, to.uncertaintyPt);
    return {
      ...nothing,
      prompt: state.at === 'second' ? 'Pick where to measure to.' : 'Pick again to measure something else.',
      lines: [
        {
          from: state.a.at,
          to: to.at,
          sure: state.at === 'shown',
          ...lengthBetween(state.a.at, to.at, uncertaintyPt, context),
        },
      ],
      marks: [markOf(state.a), markOf(to)],
      anchor: state.at === 'second' ? state.a.at : null,
    };
  },
};

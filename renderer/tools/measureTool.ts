import { lengthBetween } from './paperLengths.ts';
import { isSamePlace, markOf, noGuides, type Pick } from './pick.ts';
import type { Tool, ToolStep, ToolView } from './tool.ts';
import { toolView } from './toolView.ts';

/** Measuring between two picks. Nothing is kept. */
export type MeasureState =
  | { readonly at: 'idle'; readonly pointer: Pick | null }
  | { readonly at: 'second'; readonly a: Pick; readonly pointer: Pick }
  | { readonly at: 'shown'; readonly a: Pick; readonly b: Pick };

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
      if (event.type !== 'pointer-down') return { state };
      return isSamePlace(state.a, event.pick)
        ? { state, say: 'That is the same point. Pick where to measure to.' }
        : { state: { at: 'shown', a: state.a, b: event.pick } };
    }
    if (event.type === 'pointer-down') return { state: { at: 'second', a: event.pick, pointer: event.pick } };
    return event.type === 'escape' ? { state: { at: 'second', a: state.a, pointer: state.b } } : { state };
  },

  view(state, context): ToolView {
    if (state.at === 'idle')
      return toolView({
        prompt: context.scale
          ? 'Pick where to measure from.'
          : 'This sheet has no scale yet: set it before measuring.',
        marks: state.pointer ? [markOf(state.pointer)] : [],
      });
    const to = state.at === 'second' ? state.pointer : state.b;
    const uncertaintyPt = Math.max(state.a.uncertaintyPt, to.uncertaintyPt);
    return toolView({
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
      guides: state.at === 'second' ? { ...noGuides, anchor: state.a.at } : noGuides,
    });
  },
};

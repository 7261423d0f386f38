import type { ReferenceId } from '../../src/document/ids.ts';
import { lengthExample, typedLength } from './paperLengths.ts';
import { type Guides, isSamePlace, markOf, noGuides, type Pick } from './pick.ts';
import type { Tool, ToolStep, ToolView } from './tool.ts';
import { toolView } from './toolView.ts';

/** Picking a known dimension: its one end, its other end, then its length in the entry line. */
export type DimensionState =
  | { readonly at: 'idle'; readonly pointer: Pick | null }
  | { readonly at: 'second'; readonly a: Pick; readonly pointer: Pick }
  | { readonly at: 'length'; readonly a: Pick; readonly b: Pick };

const idle: DimensionState = { at: 'idle', pointer: null };
const from = (anchor: Pick): Guides => ({ ...noGuides, anchor: anchor.at });

export const dimensionTool: Tool<DimensionState> = {
  name: 'dimension',
  start: () => idle,

  next(state, event, context): ToolStep<DimensionState> {
    switch (state.at) {
      case 'idle':
        if (event.type === 'pointer-move') return { state: { at: 'idle', pointer: event.pick } };
        if (event.type === 'pointer-down')
          return { state: { at: 'second', a: event.pick, pointer: event.pick } };
        if (event.type === 'escape' || event.type === 'confirm') return { state, done: true };
        return { state };
      case 'second':
        if (event.type === 'pointer-move') return { state: { ...state, pointer: event.pick } };
        if (event.type === 'pointer-down')
          return isSamePlace(state.a, event.pick)
            ? { state, say: 'That is the same point. Pick the other end of the dimension.' }
            : { state: { at: 'length', a: state.a, b: event.pick } };
        if (event.type === 'escape') return { state: { at: 'idle', pointer: state.pointer } };
        return { state };
      case 'length': {
        if (event.type === 'escape') return { state: { at: 'second', a: state.a, pointer: state.b } };
        if (event.type === 'confirm') return { state, say: 'Type the length that the drawing gives for it.' };
        if (event.type !== 'entry') return { state };
        const typed = typedLength(event.text, context);
        if ('say' in typed) return { state, say: typed.say };
        return {
          state: idle,
          done: true,
          command: {
            type: 'add-reference',
            reference: {
              id: `reference-${context.freshId()}` as ReferenceId,
              sheetId: context.sheetId,
              a: state.a.at,
              b: state.b.at,
              lengthMm: typed.lengthMm,
              typed: event.text.trim().slice(0, 60),
              pickUncertaintyPt: Math.max(state.a.uncertaintyPt, state.b.uncertaintyPt),
            },
          },
        };
      }
    }
  },

  view(state, context): ToolView {
    switch (state.at) {
      case 'idle':
        return toolView({
          prompt: 'Pick one end of a dimension whose length you know. The longer it is, the surer the scale.',
          marks: state.pointer ? [markOf(state.pointer)] : [],
        });
      case 'second':
        return toolView({
          prompt: 'Pick its other end.',
          lines: [{ from: state.a.at, to: state.pointer.at, sure: false }],
          marks: [markOf(state.a), markOf(state.pointer)],
          guides: from(state.a),
        });
      case 'length':
        return toolView({
          prompt: 'Type the length that the drawing gives for it.',
          entry: { label: 'Its length', example: lengthExample(context) },
          lines: [{ from: state.a.at, to: state.b.at, sure: true }],
          marks: [markOf(state.a), markOf(state.b)],
        });
    }
  },
};

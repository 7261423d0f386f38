import type { ObstacleId, WayInId } from '../../src/document/ids.ts';
import type { SizeName } from '../../src/document/obstacleKinds.ts';
import { lengthBetween } from './paperLengths.ts';
import { isSamePlace, markOf, noGuides, type Pick, worstUncertaintyPt } from './pick.ts';
import type { Tool, ToolStep, ToolView } from './tool.ts';
import { toolView } from './toolView.ts';

/** Picking a clear width of an obstacle on the sheet: its one side, then its other. */
export type WidthState =
  | { readonly at: 'idle'; readonly pointer: Pick | null }
  | { readonly at: 'second'; readonly a: Pick; readonly pointer: Pick };

/** Which size of which obstacle the two picks give, and what it is called. */
export interface WidthTarget {
  readonly wayInId: WayInId;
  readonly obstacleId: ObstacleId;
  readonly sizeName: SizeName;
  /** In a sentence: `the clear width of Yard door`. */
  readonly words: string;
}

/** The tool that picks one size of one obstacle; it is done with the second pick. */
export const widthTool = ({ wayInId, obstacleId, sizeName, words }: WidthTarget): Tool<WidthState> => ({
  name: 'width',
  start: () => ({ at: 'idle', pointer: null }),

  next(state, event, context): ToolStep<WidthState> {
    if (event.type === 'pointer-move')
      return {
        state: state.at === 'idle' ? { at: 'idle', pointer: event.pick } : { ...state, pointer: event.pick },
      };
    if (state.at === 'idle') {
      if (event.type === 'escape' || event.type === 'confirm') return { state, done: true };
      return event.type === 'pointer-down'
        ? { state: { at: 'second', a: event.pick, pointer: event.pick } }
        : { state };
    }
    if (event.type === 'escape') return { state: { at: 'idle', pointer: state.pointer } };
    if (event.type !== 'pointer-down') return { state };
    if (isSamePlace(state.a, event.pick))
      return { state, say: 'That is the same point. Pick the other side.' };
    const { noLength } = lengthBetween(state.a.at, event.pick.at, 0, context);
    if (noLength !== undefined) return { state, say: noLength };
    const obstacle = context.document.waysIn[wayInId]?.obstacles.find(({ id }) => id === obstacleId);
    if (!obstacle) return { state, say: 'That obstacle is no longer part of the way in.', done: true };
    return {
      state,
      done: true,
      command: {
        type: 'change-obstacle',
        wayInId,
        obstacle: {
          ...obstacle,
          confirmOnSite: false,
          sizes: {
            ...obstacle.sizes,
            [sizeName]: {
              from: 'sheet',
              sheetId: context.sheetId,
              a: state.a.at,
              b: event.pick.at,
              pickUncertaintyPt: worstUncertaintyPt([state.a, event.pick]),
            },
          },
        },
      },
    };
  },

  view(state, context): ToolView {
    if (state.at === 'idle')
      return toolView({
        prompt: context.scale
          ? `Pick one side of ${words}.`
          : `This sheet has no scale yet: set it before picking ${words}.`,
        marks: state.pointer ? [markOf(state.pointer)] : [],
      });
    const uncertaintyPt = worstUncertaintyPt([state.a, state.pointer]);
    return toolView({
      prompt: 'Pick its other side.',
      lines: [
        {
          from: state.a.at,
          to: state.pointer.at,
          sure: false,
          ...lengthBetween(state.a.at, state.pointer.at, uncertaintyPt, context),
        },
      ],
      marks: [markOf(state.a), markOf(state.pointer)],
      guides: { ...noGuides, anchor: state.a.at },
    });
  },
});

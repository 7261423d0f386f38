import type { StationId } from '../../src/document/ids.ts';
import { nearestStraight } from './nearestStraight.ts';
import type { Pick } from './pick.ts';
import type { Tool, ToolStep, ToolView } from './tool.ts';
import { toolView } from './toolView.ts';

/** Wanting a station of the stock range near a picked place on a straight. */
export interface StationState {
  readonly pointer: Pick | null;
}

/** How far from the wanted place a station may stand unless the operator says otherwise, in mm. */
export const usualWithinMm = 600;

export const stationTool = (item: { readonly id: string; readonly name: string }): Tool<StationState> => ({
  name: 'station',
  start: () => ({ pointer: null }),

  next(state, event, context): ToolStep<StationState> {
    if (event.type === 'pointer-move') return { state: { pointer: event.pick } };
    if (event.type === 'escape' || event.type === 'confirm') return { state, done: true };
    if (event.type !== 'pointer-down') return { state };
    const straight = nearestStraight(context.document, context.sheetId, event.pick.at);
    if (!straight)
      return { state, say: 'Trace a run first: a station stands on a straight of one.', done: true };
    return {
      state,
      done: true,
      select: straight.runId,
      command: {
        type: 'want-station',
        station: {
          id: `station-${context.freshId()}` as StationId,
          runId: straight.runId,
          item: item.id,
          vertexId: straight.vertexId,
          at: straight.at,
          withinMm: usualWithinMm,
        },
      },
    };
  },

  view(state, context): ToolView {
    const straight = state.pointer && nearestStraight(context.document, context.sheetId, state.pointer.at);
    return toolView({
      prompt: `Pick where the middle of the ${item.name} should be.`,
      lines: straight && state.pointer ? [{ from: state.pointer.at, to: straight.at, sure: false }] : [],
      marks: straight ? [{ at: straight.at, relation: null, word: item.name }] : [],
    });
  },
});

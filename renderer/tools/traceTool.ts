import type { Tool } from './tool.ts';
import { backState } from './trace/backState.ts';
import { frontState } from './trace/frontState.ts';
import { idleState } from './trace/idleState.ts';
import { offerState } from './trace/offerState.ts';
import { type TraceState, traceIdle } from './trace/traceState.ts';

/**
 * Tracing a run: the front line point by point, then the side and depth of its back line; or the lines of the drawing
 * followed, and what was found offered.
 */
export const traceTool: Tool<TraceState> = {
  name: 'trace',
  start: () => traceIdle,

  next(state, event, context) {
    switch (state.at) {
      case 'idle':
        return idleState.next(state, event, context);
      case 'front':
        return frontState.next(state, event, context);
      case 'back':
        return backState.next(state, event, context);
      case 'offer':
        return offerState.next(state, event, context);
    }
  },

  view(state, context) {
    switch (state.at) {
      case 'idle':
        return idleState.view(state, context);
      case 'front':
        return frontState.view(state, context);
      case 'back':
        return backState.view(state, context);
      case 'offer':
        return offerState.view(state, context);
    }
  },
};

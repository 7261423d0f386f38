import { markOf, noGuides } from '../pick.ts';
import type { ToolAct } from '../tool.ts';
import { toolView } from '../toolView.ts';
import { followed } from './offerState.ts';
import { frontGuides, type TraceIdle, type TraceStateRules } from './traceState.ts';

const follow: ToolAct = { name: 'follow', words: 'Follow this line', key: 'f' };

export const idleState: TraceStateRules<TraceIdle> = {
  next(state, event, context) {
    switch (event.type) {
      case 'pointer-move':
        return { state: { at: 'idle', pointer: event.pick } };
      case 'pointer-down':
        return {
          state: { at: 'front', points: [event.pick], bends: [], arc: null, pointer: event.pick, hold: null },
        };
      case 'act':
        return event.name === follow.name ? followed(state, context) : { state };
      case 'escape':
      case 'confirm':
        return { state, done: true };
      default:
        return { state };
    }
  },

  view(state, context) {
    const { pointer } = state;
    const isOnLine = pointer?.line != null;
    return toolView({
      prompt: isOnLine
        ? 'Pick where the front line, the customer face, starts; or let it follow this line.'
        : 'Pick where the front line, the customer face, starts.',
      marks: pointer ? [markOf(pointer)] : [],
      acts: isOnLine ? [follow] : [],
      guides: { ...noGuides, points: frontGuides([], [], null, context).points },
    });
  },
};

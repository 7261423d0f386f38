import { distanceBetween } from '../../../src/geometry/vector.ts';
import { footOnStraight, straightFrom } from '../footOnStraight.ts';
import type { ToolContext } from '../tool.ts';
import { type EditPressed, type EditStateRules, editIdle } from './editState.ts';
import { idleView } from './idleView.ts';
import { placeOf, selectedRunOf } from './part.ts';

/** Where the move starts from: a point or a side at its own place, a length at the place of it that was pressed. */
const startOf = ({ part, hand }: EditPressed, context: ToolContext) => {
  const run = selectedRunOf(context);
  const zone = part.kind === 'zone' ? context.document.zones[part.zoneId] : undefined;
  const vertexId = part.kind === 'straight' ? part.vertexId : zone?.vertexId;
  const straight = run && vertexId ? straightFrom(run, vertexId) : null;
  return straight ? footOnStraight(straight, hand) : (placeOf(part, context) ?? hand);
};

export const pressedState: EditStateRules<EditPressed> = {
  next(state, event, context) {
    switch (event.type) {
      case 'pointer-move':
        return distanceBetween(state.hand, event.pick.hand) > context.touchPt / 2
          ? {
              state: {
                at: 'dragging',
                part: state.part,
                isWhole: state.isWhole,
                from: startOf(state, context),
                to: event.pick,
              },
            }
          : { state };
      case 'pointer-up':
        return { state: { at: 'idle', part: state.part, hover: state.part } };
      case 'escape':
      case 'pointer-cancel':
        return { state: editIdle() };
      default:
        return { state };
    }
  },

  view: (state, context) => ({
    ...idleView({ at: 'idle', part: state.part, hover: state.part }, context),
    hand: 'hold',
  }),
};

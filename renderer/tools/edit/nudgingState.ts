import type { Vector } from '../../../src/geometry/vector.ts';
import { mmPerPaperUnit } from '../paperLengths.ts';
import type { ToolContext, ToolStep } from '../tool.ts';
import { type EditNudging, type EditState, type EditStateRules, editIdle } from './editState.ts';
import { idleView } from './idleView.ts';
import { movePart } from './movePart.ts';
import { type Part, placeOf } from './part.ts';

/** One press or repeat of an arrow key more. */
export const nudged = (
  state: EditState,
  part: Part,
  by: Vector,
  byMm: Vector,
  context: ToolContext,
): ToolStep<EditState> => {
  const place = placeOf(part, context);
  const here = mmPerPaperUnit(context, place ? [place] : []);
  if ('say' in here) return { state, say: here.say };
  const { mmPerUnit } = here;
  const further = { x: by.x + byMm.x / mmPerUnit, y: by.y + byMm.y / mmPerUnit };
  return { state: { at: 'nudging', part, by: further } };
};

const commandOf = ({ part, by }: EditNudging, context: ToolContext) => movePart(part, by, 0, context);

/** Holding a key is one undo step: the move is made when the key is let go. */
export const nudgingState: EditStateRules<EditNudging> = {
  next(state, event, context) {
    switch (event.type) {
      case 'nudge':
        return nudged(state, state.part, state.by, event.byMm, context);
      case 'escape':
      case 'pointer-cancel':
        return { state: editIdle(state.part) };
      case 'pointer-move':
      case 'pointer-up':
        return { state };
      default: {
        const command = commandOf(state, context);
        const after = editIdle(state.part);
        return command ? { state: after, ifRefused: after, command } : { state: after };
      }
    }
  },

  view: (state, context) => ({
    ...idleView(editIdle(state.part), context),
    handles: [],
    preview: commandOf(state, context),
  }),
};

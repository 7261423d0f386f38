import { vectorBetween } from '../../../src/geometry/vector.ts';
import { lengthBetween } from '../paperLengths.ts';
import { markOf, noGuides } from '../pick.ts';
import { toolView } from '../toolView.ts';
import { type EditCarrying, type EditStateRules, editIdle } from './editState.ts';
import { moveRun } from './movePart.ts';

/** Moving the whole run by two picks, which can be caught by the drawing as any pick can. */
export const carryingState: EditStateRules<EditCarrying> = {
  next(state, event, context) {
    switch (event.type) {
      case 'pointer-move':
        return { state: { ...state, pointer: event.pick } };
      case 'pointer-down': {
        if (!state.from) return { state: { ...state, from: event.pick, pointer: event.pick } };
        const command = moveRun(vectorBetween(state.from.at, event.pick.at), context);
        return command ? { state: editIdle(), command } : { state };
      }
      case 'escape':
        return { state: state.from ? { ...state, from: null } : editIdle() };
      default:
        return { state };
    }
  },

  view(state, context) {
    const { from, pointer } = state;
    if (!from || !pointer)
      return toolView({
        prompt: 'Pick a place of the run to carry it by.',
        marks: pointer ? [markOf(pointer)] : [],
      });
    const uncertaintyPt = Math.max(from.uncertaintyPt, pointer.uncertaintyPt);
    return toolView({
      prompt: 'Pick where that place goes.',
      lines: [
        {
          from: from.at,
          to: pointer.at,
          sure: false,
          ...lengthBetween(from.at, pointer.at, uncertaintyPt, context),
        },
      ],
      marks: [markOf(pointer)],
      guides: { ...noGuides, anchor: from.at },
      preview: moveRun(vectorBetween(from.at, pointer.at), context),
    });
  },
};

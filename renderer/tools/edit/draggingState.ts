import { vectorBetween } from '../../../src/geometry/vector.ts';
import { type Guides, markOf, noGuides } from '../pick.ts';
import type { ToolContext } from '../tool.ts';
import { toolView } from '../toolView.ts';
import { type EditDragging, type EditStateRules, editIdle } from './editState.ts';
import { movePart, moveRun } from './movePart.ts';
import { selectedRunOf } from './part.ts';

const commandOf = ({ part, isWhole, from, to }: EditDragging, context: ToolContext) => {
  const by = vectorBetween(from, to.at);
  return isWhole ? moveRun(by, context) : movePart(part, by, to.uncertaintyPt, context);
};

/** A dragged point may be square to, or in line with, the points around it. */
const guidesOf = ({ part, isWhole }: EditDragging, context: ToolContext): Guides => {
  const run = selectedRunOf(context);
  if (!run || isWhole || part.kind !== 'point') return noGuides;
  const index = run.frontLine.findIndex(({ id }) => id === part.vertexId);
  const step = index > 0 ? -1 : 1;
  const at = (place: number) => (place < 0 ? undefined : run.frontLine[place]?.at);
  return {
    anchor: at(index + step) ?? null,
    before: at(index + 2 * step) ?? null,
    points: run.frontLine
      .filter((_, place) => place !== index && place !== index + step)
      .map((vertex) => ({ at: vertex.at, uncertaintyPt: run.pickUncertaintyPt })),
    hold: null,
  };
};

export const draggingState: EditStateRules<EditDragging> = {
  next(state, event, context) {
    switch (event.type) {
      case 'pointer-move':
        return { state: { ...state, to: event.pick } };
      case 'pointer-up': {
        const command = commandOf({ ...state, to: event.pick }, context);
        const after = { at: 'idle', part: state.part, hover: state.part } as const;
        return command ? { state: after, ifRefused: after, command } : { state: after };
      }
      case 'escape':
      case 'pointer-cancel':
        return { state: editIdle(state.part) };
      default:
        return { state };
    }
  },

  view: (state, context) =>
    toolView({
      prompt: state.isWhole ? 'Let go where the run belongs.' : 'Let go where it belongs; Escape leaves it.',
      marks: [markOf(state.to)],
      guides: guidesOf(state, context),
      preview: commandOf(state, context),
    }),
};

import { holdAct, nextHold } from '../holds.ts';
import { lengthBetween, lengthExample } from '../paperLengths.ts';
import { isSamePlace, markOf, type Pick } from '../pick.ts';
import type { ToolAct, ToolLine } from '../tool.ts';
import { toolView } from '../toolView.ts';
import { frontGuides, type TraceFront, type TraceStateRules } from './traceState.ts';
import { traceUncertaintyPt } from './traceUncertainty.ts';
import { typedStraight } from './typedStraight.ts';

const withPoint = (state: TraceFront, pick: Pick): TraceFront => {
  const last = state.points.at(-1);
  if (last && isSamePlace(last, pick)) return state;
  const hold = state.hold?.kind === 'direction' ? null : state.hold;
  return { ...state, points: [...state.points, pick], pointer: pick, hold };
};

const finish: ToolAct = { name: 'finish', words: 'Finish the front line', key: 'Return' };
const likeLine: ToolAct = { name: 'like-line', words: 'Parallel to this line', key: 'l' };

/** Placed straights of a trace, with their lengths. */
export const placedLines = (
  points: readonly Pick[],
  context: Parameters<typeof lengthBetween>[3],
): readonly ToolLine[] => {
  const uncertaintyPt = traceUncertaintyPt(points);
  return points.slice(1).map((to, index) => {
    const from = points[index]?.at ?? to.at;
    return { from, to: to.at, sure: true, ...lengthBetween(from, to.at, uncertaintyPt, context) };
  });
};

export const frontState: TraceStateRules<TraceFront> = {
  next(state, event, context) {
    const guides = frontGuides(state.points, state.hold, context);
    switch (event.type) {
      case 'pointer-move':
        return { state: { ...state, pointer: event.pick } };
      case 'pointer-down':
        return { state: withPoint(state, event.pick) };
      case 'escape':
        if (state.hold) return { state: { ...state, hold: null } };
        return state.points.length > 1
          ? { state: { ...state, points: state.points.slice(0, -1) } }
          : { state: { at: 'idle', pointer: state.pointer } };
      case 'delete':
        return state.points.length > 1
          ? { state: { ...state, points: state.points.slice(0, -1) } }
          : { state: { at: 'idle', pointer: state.pointer } };
      case 'confirm':
        return state.points.length > 1
          ? { state: { at: 'back', points: state.points, pointer: state.pointer } }
          : { state, say: 'A run needs a second point.' };
      case 'act': {
        if (event.name === finish.name) return frontState.next(state, { type: 'confirm' }, context);
        if (event.name === 'hold') return { state: { ...state, hold: nextHold(state.hold, guides) } };
        if (event.name !== likeLine.name) return { state };
        const alongRad = state.pointer.line?.alongRad ?? null;
        return alongRad === null
          ? { state, say: 'Point at a line first: the straight is then held parallel to it.' }
          : { state: { ...state, hold: { kind: 'direction', alongRad } } };
      }
      case 'entry': {
        const typed = typedStraight(event.text, guides, state.pointer.at, context);
        if (typed.kind === 'refused') return { state, say: typed.say };
        if (typed.kind === 'direction')
          return { state: { ...state, hold: { kind: 'direction', alongRad: typed.alongRad } } };
        const uncertaintyPt = state.points.at(-1)?.uncertaintyPt ?? 0;
        return {
          state: withPoint(state, {
            at: typed.at,
            hand: typed.at,
            uncertaintyPt,
            relation: null,
            line: null,
          }),
        };
      }
      default:
        return { state };
    }
  },

  view(state, context) {
    const { points, pointer, hold } = state;
    const last = points.at(-1);
    const guides = frontGuides(points, hold, context);
    const following: readonly ToolLine[] =
      last && !isSamePlace(last, pointer)
        ? [
            {
              from: last.at,
              to: pointer.at,
              sure: false,
              ...lengthBetween(last.at, pointer.at, traceUncertaintyPt([...points, pointer]), context),
            },
          ]
        : [];
    return toolView({
      prompt:
        points.length > 1
          ? 'Pick the next corner or the end. Finish when the front line is whole.'
          : 'Pick the next corner or the end, or point the way and type the length.',
      entry: { label: 'Length', example: `${lengthExample(context)}  or  3600 at 30` },
      lines: [...placedLines(points, context), ...following],
      marks: [markOf(pointer)],
      acts: [...(points.length > 1 ? [finish] : []), holdAct(hold), ...(pointer.line ? [likeLine] : [])],
      guides,
    });
  },
};

import { holdAct, nextHold } from '../holds.ts';
import { arcLengthBetween, lengthBetween, lengthExample } from '../paperLengths.ts';
import { isSamePlace, markOf, type Pick } from '../pick.ts';
import type { ToolAct, ToolContext, ToolLine, ToolStep } from '../tool.ts';
import { toolView } from '../toolView.ts';
import { arcTo, isTypedArc, type NextArc, typedArc } from './arcs.ts';
import {
  type Bends,
  frontGuides,
  type TraceArc,
  type TraceFront,
  type TraceState,
  type TraceStateRules,
} from './traceState.ts';
import { traceUncertaintyPt } from './traceUncertainty.ts';
import { typedStraight } from './typedStraight.ts';

const withPoint = (state: TraceFront, pick: Pick, through?: Pick): TraceFront => {
  const last = state.points.at(-1);
  if (last && isSamePlace(last, pick)) return state;
  const hold = state.hold?.kind === 'direction' ? null : state.hold;
  const bends = Array.from({ length: state.points.length }, (_, index) =>
    index === state.points.length - 1 ? through : state.bends[index],
  );
  return { ...state, points: [...state.points, pick], bends, arc: null, pointer: pick, hold };
};

const withoutLast = (state: TraceFront): TraceFront => ({
  ...state,
  points: state.points.slice(0, -1),
  bends: state.bends.slice(0, state.points.length - 2),
});

/** A place that follows from picks and typed measures: as sure as the last pick, caught by nothing. */
const placed = (at: Pick['at'], uncertaintyPt: number): Pick => ({
  at,
  hand: at,
  uncertaintyPt,
  relation: null,
  line: null,
});

const withArc = (state: TraceFront, { end, through }: NextArc, pick: Pick): TraceFront => {
  const { uncertaintyPt } = pick;
  const isAtPick = end.x === pick.at.x && end.y === pick.at.y;
  const over =
    state.arc?.kind === 'through' && state.arc.through ? state.arc.through : placed(through, uncertaintyPt);
  return withPoint(state, isAtPick ? pick : placed(end, uncertaintyPt), over);
};

/** A pick while an arc is being made: the point that it goes through, or its end. */
const arcPicked = (state: TraceFront, arc: TraceArc, pick: Pick): ToolStep<TraceState> => {
  if (arc.kind === 'through' && arc.through === null) {
    const last = state.points.at(-1);
    if (last && isSamePlace(last, pick)) return { state };
    return { state: { ...state, arc: { kind: 'through', through: pick }, pointer: pick } };
  }
  const next = arcTo(state, pick);
  return next
    ? { state: withArc(state, next, pick) }
    : { state, say: 'That lies straight ahead: pick beside it, or go on without the arc.' };
};

const finish: ToolAct = { name: 'finish', words: 'Finish the front line', key: 'Return' };
const likeLine: ToolAct = { name: 'like-line', words: 'Parallel to this line', key: 'l' };

/** The ways in which the next stretch can be bent, the one after the one in hand first. */
const nextArc = ({ arc, points }: TraceFront): TraceArc | null => {
  if (arc === null)
    return points.length > 1 ? { kind: 'tangent', radius: null } : { kind: 'through', through: null };
  return arc.kind === 'tangent' ? { kind: 'through', through: null } : null;
};

const arcAct = ({ arc }: TraceFront): ToolAct => ({
  name: 'arc',
  words: arc === null ? 'Arc' : arc.kind === 'tangent' ? 'Arc on from the last' : 'Arc through a point',
  key: 'a',
});

const lineTo = (
  from: Pick,
  through: Pick['at'] | undefined,
  to: Pick['at'],
  uncertaintyPt: number,
  context: ToolContext,
) =>
  through
    ? { from: from.at, to, through, ...arcLengthBetween(from.at, through, to, uncertaintyPt, context) }
    : { from: from.at, to, ...lengthBetween(from.at, to, uncertaintyPt, context) };

/** Placed straights of a trace, with their lengths. */
export const placedLines = (
  points: readonly Pick[],
  bends: Bends,
  context: ToolContext,
): readonly ToolLine[] => {
  const uncertaintyPt = traceUncertaintyPt(points, bends);
  return points.slice(1).map((to, index) => {
    const from = points[index] ?? to;
    return { ...lineTo(from, bends[index]?.at, to.at, uncertaintyPt, context), sure: true };
  });
};

/** What follows the pointer: a straight, or the arc that a pick would end. */
const following = (state: TraceFront, context: ToolContext): readonly ToolLine[] => {
  const { points, bends, pointer, arc } = state;
  const last = points.at(-1);
  if (!last || isSamePlace(last, pointer)) return [];
  const uncertaintyPt = traceUncertaintyPt([...points, pointer], bends);
  const next = arc && arcTo(state, pointer);
  const line = lineTo(last, next?.through, next?.end ?? pointer.at, uncertaintyPt, context);
  return [{ ...line, sure: false }];
};

const typedNext = (state: TraceFront, text: string, context: ToolContext): ToolStep<TraceState> => {
  const uncertaintyPt = state.points.at(-1)?.uncertaintyPt ?? 0;
  if (isTypedArc(text)) {
    const typed = typedArc(text, state, context);
    if (typed.kind === 'refused') return { state, say: typed.say };
    if (typed.kind === 'radius')
      return { state: { ...state, arc: { kind: 'tangent', radius: typed.radius } } };
    const asTangent: TraceFront = { ...state, arc: { kind: 'tangent', radius: null } };
    return { state: withArc(asTangent, typed.arc, placed(typed.arc.end, uncertaintyPt)) };
  }
  const guides = frontGuides(state.points, state.bends, state.hold, context);
  const typed = typedStraight(text, guides, state.pointer.at, context);
  if (typed.kind === 'refused') return { state, say: typed.say };
  if (typed.kind === 'direction')
    return { state: { ...state, hold: { kind: 'direction', alongRad: typed.alongRad } } };
  return { state: withPoint(state, placed(typed.at, uncertaintyPt)) };
};

const promptOf = ({ points, arc }: TraceFront): string => {
  if (arc?.kind === 'tangent')
    return arc.radius === null
      ? 'Pick where the arc ends: it goes on from the last straight without a turn. Or type r 1200 sweep 90.'
      : 'Pick how far the arc goes, and to which side.';
  if (arc) return arc.through ? 'Pick where the arc ends.' : 'Pick a point that the arc goes through.';
  return points.length > 1
    ? 'Pick the next corner or the end. Finish when the front line is whole.'
    : 'Pick the next corner or the end, or point the way and type the length.';
};

export const frontState: TraceStateRules<TraceFront> = {
  next(state, event, context) {
    const { arc } = state;
    switch (event.type) {
      case 'pointer-move':
        return { state: { ...state, pointer: event.pick } };
      case 'pointer-down':
        return arc ? arcPicked(state, arc, event.pick) : { state: withPoint(state, event.pick) };
      case 'escape':
        if (arc?.kind === 'through' && arc.through)
          return { state: { ...state, arc: { kind: 'through', through: null } } };
        if (arc) return { state: { ...state, arc: null } };
        if (state.hold) return { state: { ...state, hold: null } };
        return state.points.length > 1
          ? { state: withoutLast(state) }
          : { state: { at: 'idle', pointer: state.pointer } };
      case 'delete':
        return state.points.length > 1
          ? { state: { ...withoutLast(state), arc: null } }
          : { state: { at: 'idle', pointer: state.pointer } };
      case 'confirm':
        return state.points.length > 1
          ? { state: { at: 'back', points: state.points, bends: state.bends, pointer: state.pointer } }
          : { state, say: 'A run needs a second point.' };
      case 'act': {
        if (event.name === finish.name) return frontState.next(state, { type: 'confirm' }, context);
        if (event.name === 'arc') return { state: { ...state, arc: nextArc(state) } };
        const guides = frontGuides(state.points, state.bends, state.hold, context);
        if (event.name === 'hold') return { state: { ...state, hold: nextHold(state.hold, guides) } };
        if (event.name !== likeLine.name) return { state };
        const alongRad = state.pointer.line?.alongRad ?? null;
        return alongRad === null
          ? { state, say: 'Point at a line first: the straight is then held parallel to it.' }
          : { state: { ...state, hold: { kind: 'direction', alongRad } } };
      }
      case 'entry':
        return typedNext(state, event.text, context);
      default:
        return { state };
    }
  },

  view(state, context) {
    const { points, bends, pointer, hold, arc } = state;
    const guides = frontGuides(points, bends, hold, context);
    const over = arc?.kind === 'through' && arc.through ? [markOf(arc.through)] : [];
    const byDirection = arc ? [] : [holdAct(hold), ...(pointer.line?.alongRad == null ? [] : [likeLine])];
    return toolView({
      prompt: promptOf(state),
      entry: arc
        ? { label: 'Radius', example: 'r 1200 sweep 90  or  r 1200 long 1885 left' }
        : { label: 'Length', example: `${lengthExample(context)}  or  3600 at 30` },
      lines: [...placedLines(points, bends, context), ...following(state, context)],
      marks: [...over, markOf(pointer)],
      acts: [...(points.length > 1 ? [finish] : []), arcAct(state), ...byDirection],
      guides: arc ? { ...guides, hold: null } : guides,
    });
  },
};

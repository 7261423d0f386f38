import type { VertexId } from '../../../src/document/ids.ts';
import type { Run } from '../../../src/document/projectDocument.ts';
import { nearestStraight } from '../nearestStraight.ts';
import type { Pick } from '../pick.ts';
import type { ToolContext, ToolStep } from '../tool.ts';
import { arcCut, bentAtFirst, straightened } from './bends.ts';
import { type EditIdle, type EditState, type EditStateRules, editIdle } from './editState.ts';
import { idleView } from './idleView.ts';
import { nudged } from './nudgingState.ts';
import { isSamePart, partStillThere, partsOf, partUnder, placeOf, selectedRunOf } from './part.ts';
import { typedCommand, usualRadius } from './typedPart.ts';

const insertedAt = (run: Run, index: number, at: Pick['at'], context: ToolContext): ToolStep<EditState> => {
  const id = `vertex-${context.freshId()}` as VertexId;
  const cut = arcCut(run, index, at, id);
  if (cut)
    return {
      state: editIdle({ kind: 'point', vertexId: id }),
      command: { type: 'together', label: 'Insert a point', commands: [...cut] },
    };
  return {
    state: editIdle({ kind: 'point', vertexId: id }),
    command: { type: 'insert-vertex', runId: run.id, index: index + 1, vertex: { id, at, treatment: null } },
  };
};

const pressed = (
  state: EditIdle,
  event: { readonly pick: Pick; readonly shift: boolean; readonly ctrl: boolean },
  context: ToolContext,
): ToolStep<EditState> => {
  const { hand } = event.pick;
  const run = selectedRunOf(context);
  const part = partUnder(hand, state.part, context);
  if (run && event.shift && part?.kind !== 'point') {
    // A zone that lies there does not stand in the way of a point on the front line.
    const near = nearestStraight(context.document, context.sheetId, hand, run.id);
    if (near && near.distance <= context.touchPt) return insertedAt(run, near.index, near.at, context);
  }
  if (part) return { state: { at: 'pressed', part, isWhole: event.ctrl, hand } };
  const near = nearestStraight(context.document, context.sheetId, hand);
  return near && near.distance <= context.touchPt
    ? { state: editIdle(), select: near.runId }
    : { state: editIdle() };
};

const removed = (state: EditIdle, context: ToolContext): ToolStep<EditState> => {
  const run = selectedRunOf(context);
  const part = partStillThere(state.part, context);
  if (!run || !part) return { state };
  switch (part.kind) {
    case 'point':
      return {
        state: editIdle(),
        ifRefused: state,
        command: { type: 'remove-vertex', runId: run.id, vertexId: part.vertexId },
      };
    case 'zone':
    case 'zone-side':
      return { state: editIdle(), command: { type: 'remove-zone', zoneId: part.zoneId } };
    case 'station':
      return { state: editIdle(), command: { type: 'remove-station', stationId: part.stationId } };
    case 'bend':
      return {
        state: editIdle({ kind: 'straight', vertexId: part.vertexId }),
        command: straightened(run, part.vertexId),
      };
    case 'straight':
      return { state, say: 'A straight goes when one of its points is removed.' };
  }
};

const stepped = (state: EditIdle, by: 1 | -1, context: ToolContext): ToolStep<EditState> => {
  const run = selectedRunOf(context);
  if (!run) {
    const { document, sheetId } = context;
    const onSheet = document.runIds.filter((id) => document.runs[id]?.sheetId === sheetId);
    const runId = by > 0 ? onSheet[0] : onSheet.at(-1);
    return runId ? { state: editIdle(), select: runId } : { state };
  }
  const parts = partsOf(context.document, run);
  const place = parts.findIndex((part) => isSamePart(part, state.part));
  const next = place < 0 ? (by > 0 ? 0 : parts.length - 1) : (place + by + parts.length) % parts.length;
  return { state: editIdle(parts[next] ?? null) };
};

const acted = (state: EditIdle, name: string, context: ToolContext): ToolStep<EditState> => {
  const run = selectedRunOf(context);
  const part = partStillThere(state.part, context);
  if (!run) return { state };
  switch (name) {
    case 'remove':
      return removed(state, context);
    case 'move-run':
      return { state: { at: 'carrying', from: null, pointer: null } };
    case 'insert-point': {
      const index = run.frontLine.findIndex(({ id }) => part?.kind === 'straight' && id === part.vertexId);
      const at = part && placeOf(part, context);
      return index >= 0 && at
        ? insertedAt(run, index, at, context)
        : { state, say: 'Choose a straight first: the point is put into its middle.' };
    }
    case 'bend': {
      const command = part?.kind === 'straight' ? bentAtFirst(run, part.vertexId) : null;
      return part?.kind === 'straight' && command
        ? { state: editIdle({ kind: 'bend', vertexId: part.vertexId }), command }
        : { state, say: 'Choose a straight first: it is the one that is bent.' };
    }
    case 'straighten':
      return part?.kind === 'bend' || part?.kind === 'straight'
        ? {
            state: editIdle({ kind: 'straight', vertexId: part.vertexId }),
            command: straightened(run, part.vertexId),
          }
        : { state };
    case 'round': {
      if (part?.kind !== 'point') return { state, say: 'Choose a corner between two straights first.' };
      const typed = typedCommand(part, usualRadius(context), context);
      if ('say' in typed) return { state, say: typed.say };
      const rounded = editIdle({ kind: 'bend', vertexId: part.vertexId });
      return typed.command ? { state: rounded, ifRefused: state, command: typed.command } : { state };
    }
    case 'turn-end': {
      const [first, last] = run.ends;
      const other = (end: Run['ends'][0]): Run['ends'][0] => ({
        ...end,
        kind: end.kind === 'wall' ? 'exposed' : 'wall',
      });
      const isFirst = part?.kind === 'point' && part.vertexId === run.frontLine[0]?.id;
      const ends: Run['ends'] = isFirst ? [other(first), last] : [first, other(last)];
      return { state, command: { type: 'change-run', runId: run.id, changes: { ends } } };
    }
    default:
      return { state };
  }
};

export const idleState: EditStateRules<EditIdle> = {
  next(state, event, context) {
    switch (event.type) {
      case 'pointer-move': {
        const hover = partUnder(event.pick.hand, state.part, context);
        return { state: isSamePart(hover, state.hover) ? state : { ...state, hover } };
      }
      case 'pointer-down':
        return pressed(state, event, context);
      case 'escape':
        return state.part ? { state: editIdle() } : { state, select: null };
      case 'delete':
        return removed(state, context);
      case 'step':
        return stepped(state, event.by, context);
      case 'nudge': {
        const part = partStillThere(state.part, context);
        return part ? nudged(state, part, { x: 0, y: 0 }, event.byMm, context) : { state };
      }
      case 'entry': {
        const part = partStillThere(state.part, context);
        if (!part) return { state };
        const typed = typedCommand(part, event.text, context);
        if ('say' in typed) return { state, say: typed.say };
        return typed.command ? { state, command: typed.command } : { state };
      }
      case 'act':
        return acted(state, event.name, context);
      default:
        return { state };
    }
  },

  view: idleView,
};

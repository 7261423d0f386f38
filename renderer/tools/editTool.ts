import type { RunId, VertexId } from '../../src/document/ids.ts';
import type { Run } from '../../src/document/projectDocument.ts';
import type { PaperPoint } from '../../src/geometry/point.ts';
import { distanceBetween } from '../../src/geometry/vector.ts';
import { nearestStraight } from './nearestStraight.ts';
import { lengthBetween } from './paperLengths.ts';
import type { Pick, Tool, ToolContext, ToolStep, ToolView } from './tool.ts';

/** Selecting runs and moving, inserting and removing the points of the selected one. */
export type EditState =
  | { readonly at: 'idle'; readonly vertexId: VertexId | null }
  | { readonly at: 'pressed'; readonly vertexId: VertexId; readonly from: PaperPoint }
  | { readonly at: 'dragging'; readonly vertexId: VertexId; readonly to: Pick };

const selectedRun = ({ document, selectedRunId }: ToolContext): Run | null =>
  (selectedRunId && document.runs[selectedRunId]) || null;

const touchedVertex = (run: Run | null, point: PaperPoint, touchPt: number): VertexId | null => {
  let best: { readonly id: VertexId; readonly distance: number } | null = null;
  for (const { id, at } of run?.frontLine ?? []) {
    const distance = distanceBetween(at, point);
    if (distance <= touchPt && (!best || distance < best.distance)) best = { id, distance };
  }
  return best?.id ?? null;
};

const insertAt = (run: Run, pick: Pick, context: ToolContext): ToolStep<EditState> | null => {
  const near = nearestStraight(context.document, context.sheetId, pick.at, run.id);
  if (!near || near.distance > context.touchPt) return null;
  const id = `vertex-${context.freshId()}` as VertexId;
  return {
    state: { at: 'idle', vertexId: id },
    command: {
      type: 'insert-vertex',
      runId: run.id,
      index: near.index + 1,
      vertex: { id, at: near.at, treatment: null },
    },
  };
};

const touchedRun = (pick: Pick, context: ToolContext): RunId | null => {
  const near = nearestStraight(context.document, context.sheetId, pick.at);
  return near && near.distance <= context.touchPt ? near.runId : null;
};

export const editTool: Tool<EditState> = {
  name: 'edit',
  start: () => ({ at: 'idle', vertexId: null }),

  next(state, event, context): ToolStep<EditState> {
    const run = selectedRun(context);
    switch (state.at) {
      case 'idle': {
        if (event.type === 'pointer-down') {
          const vertexId = touchedVertex(run, event.pick.at, context.touchPt);
          if (vertexId) return { state: { at: 'pressed', vertexId, from: event.pick.at } };
          if (run && event.shift) {
            const inserted = insertAt(run, event.pick, context);
            if (inserted) return inserted;
          }
          const touched = touchedRun(event.pick, context);
          return { state: { at: 'idle', vertexId: null }, ...(touched ? { select: touched } : {}) };
        }
        if (event.type === 'escape')
          return state.vertexId ? { state: { at: 'idle', vertexId: null } } : { state, select: null };
        const wantsRemoval =
          event.type === 'delete' || (event.type === 'act' && event.name === 'remove-point');
        if (wantsRemoval && run && state.vertexId)
          return {
            state: { at: 'idle', vertexId: null },
            command: { type: 'remove-vertex', runId: run.id, vertexId: state.vertexId },
          };
        return { state };
      }
      case 'pressed':
        if (event.type === 'pointer-move' && distanceBetween(state.from, event.pick.at) > context.touchPt / 2)
          return { state: { at: 'dragging', vertexId: state.vertexId, to: event.pick } };
        if (event.type === 'pointer-up' || event.type === 'escape')
          return { state: { at: 'idle', vertexId: state.vertexId } };
        return { state };
      case 'dragging':
        if (event.type === 'pointer-move') return { state: { ...state, to: event.pick } };
        if (event.type === 'escape') return { state: { at: 'idle', vertexId: state.vertexId } };
        if (event.type === 'pointer-up' && run)
          return {
            state: { at: 'idle', vertexId: state.vertexId },
            command: { type: 'move-vertex', runId: run.id, vertexId: state.vertexId, to: event.pick.at },
          };
        return { state };
    }
  },

  view(state, context): ToolView {
    const run = selectedRun(context);
    const vertex = run?.frontLine.find(({ id }) => id === state.vertexId);
    const nothing = { entry: null, lines: [], acts: [], anchor: null, marks: [] } as const;
    if (!run)
      return {
        ...nothing,
        prompt: context.document.runIds.length
          ? 'Pick a run to work on it.'
          : context.scale
            ? 'Trace the first run.'
            : 'Set the scale of this sheet, then trace.',
      };
    if (state.at === 'dragging' && vertex) {
      const index = run.frontLine.indexOf(vertex);
      const neighbours = [run.frontLine[index - 1], run.frontLine[index + 1]].filter(
        (one) => one !== undefined,
      );
      return {
        ...nothing,
        prompt: 'Let go where the point belongs.',
        lines: neighbours.map((neighbour) => ({
          from: neighbour.at,
          to: state.to.at,
          sure: false,
          ...lengthBetween(neighbour.at, state.to.at, run.pickUncertaintyPt, context),
        })),
        marks: [{ at: state.to.at, word: state.to.relation }],
      };
    }
    return {
      ...nothing,
      prompt: vertex
        ? 'Drag the point, or remove it.'
        : `${run.name}: drag its points; hold Shift and pick on its front line to put a point in.`,
      marks: vertex ? [{ at: vertex.at, word: null }] : [],
      acts:
        vertex && run.frontLine.length > 2
          ? [{ name: 'remove-point', words: 'Remove the point', key: 'Del' }]
          : [],
    };
  },
};

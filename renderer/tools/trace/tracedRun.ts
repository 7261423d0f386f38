import type { RunId, VertexId } from '../../../src/document/ids.ts';
import type { Run } from '../../../src/document/projectDocument.ts';
import type { PaperPoint } from '../../../src/geometry/point.ts';
import { nearestOnPolyline } from '../../../src/geometry/polyline.ts';
import { cross, vectorBetween } from '../../../src/geometry/vector.ts';
import { mmPerPaperUnit } from '../paperLengths.ts';
import type { Pick } from '../pick.ts';
import type { ToolContext } from '../tool.ts';
import { traceUncertaintyPt } from './traceUncertainty.ts';

/** Least and most depth of a counter that a pick of its back line may give, in mm; else the depth stays as it was. */
export const pickedDepthMm = { least: 200, most: 2000 } as const;

export interface BackLine {
  readonly backSide: Run['backSide'];
  readonly depthMm: number;
  /** Whether a drawn line gave the depth. */
  readonly isMeasured: boolean;
}

/**
 * The side on which a pick lies of the front line, and the depth: measured, to the millimetre, where the pick was caught
 * by the drawing, else the run's usual depth.
 */
export const backLineAt = (points: readonly Pick[], pick: Pick, context: ToolContext): BackLine => {
  const { backSide, depthMm } = context.runDefaults;
  const front = points.map(({ at }) => at);
  const nearest = nearestOnPolyline(pick.at, front);
  const from = nearest && front[nearest.segmentIndex];
  const to = nearest && front[nearest.segmentIndex + 1];
  if (!from || !to) return { backSide, depthMm, isMeasured: false };
  const way = vectorBetween(from, to);
  const across = cross(way, vectorBetween(from, pick.at));
  const here = mmPerPaperUnit(context, [...front, pick.at]);
  const measuredMm =
    'say' in here ? 0 : Math.round((Math.abs(across) / Math.hypot(way.x, way.y)) * here.mmPerUnit);
  const isMeasured =
    pick.relation?.isDrawn === true && measuredMm >= pickedDepthMm.least && measuredMm <= pickedDepthMm.most;
  return {
    backSide: across > 0 ? 'left' : across < 0 ? 'right' : backSide,
    depthMm: isMeasured ? measuredMm : depthMm,
    isMeasured,
  };
};

const nextName = ({ document }: ToolContext): string => {
  const taken = new Set(Object.values(document.runs).map(({ name }) => name));
  let number = document.runIds.length + 1;
  while (taken.has(`Run ${number}`)) number += 1;
  return `Run ${number}`;
};

/** A new run with fresh ids. */
export const newRun = (
  frontLine: readonly PaperPoint[],
  more: { readonly pickUncertaintyPt: number } & Partial<Run>,
  context: ToolContext,
): Run => ({
  ...context.runDefaults,
  id: `run-${context.freshId()}` as RunId,
  sheetId: context.sheetId,
  name: nextName(context),
  frontLine: frontLine.map((at) => ({ id: `vertex-${context.freshId()}` as VertexId, at, treatment: null })),
  ...more,
});

/** The run through picked points. */
export const runThrough = (
  points: readonly Pick[],
  { backSide, depthMm }: Omit<BackLine, 'isMeasured'>,
  context: ToolContext,
): Run =>
  newRun(
    points.map(({ at }) => at),
    { backSide, depthMm, pickUncertaintyPt: traceUncertaintyPt(points) },
    context,
  );

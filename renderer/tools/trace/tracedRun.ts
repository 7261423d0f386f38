import type { RunId, VertexId } from '../../../src/document/ids.ts';
import type { Run } from '../../../src/document/projectDocument.ts';
import { nearestOnPath, projectOntoPart, type RunPath } from '../../../src/measure/runPath.ts';
import { mmPerPaperUnit } from '../paperLengths.ts';
import type { Pick } from '../pick.ts';
import type { ToolContext } from '../tool.ts';
import { type Bends, pathOf } from './traceState.ts';
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
export const backLineAt = (path: RunPath, pick: Pick, context: ToolContext): BackLine => {
  const { backSide, depthMm } = context.runDefaults;
  const nearest = nearestOnPath(path, pick.at);
  if (!nearest) return { backSide, depthMm, isMeasured: false };
  const { offset: across } = projectOntoPart(path, nearest.index, pick.at);
  const here = mmPerPaperUnit(context, [...path.frontLine, pick.at]);
  const measuredMm = 'say' in here ? 0 : Math.round(Math.abs(across) * here.mmPerUnit);
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
  { frontLine, bends = [] }: RunPath,
  more: { readonly pickUncertaintyPt: number } & Partial<Run>,
  context: ToolContext,
): Run => ({
  ...context.runDefaults,
  id: `run-${context.freshId()}` as RunId,
  sheetId: context.sheetId,
  name: nextName(context),
  frontLine: frontLine.map((at, index) => ({
    id: `vertex-${context.freshId()}` as VertexId,
    at,
    treatment: null,
    ...(bends[index] && index < frontLine.length - 1 ? { through: bends[index] } : {}),
  })),
  ...more,
});

/** The run through picked points. */
export const runThrough = (
  points: readonly Pick[],
  bends: Bends,
  { backSide, depthMm }: Omit<BackLine, 'isMeasured'>,
  context: ToolContext,
): Run =>
  newRun(
    pathOf(points, bends),
    { backSide, depthMm, pickUncertaintyPt: traceUncertaintyPt(points, bends) },
    context,
  );

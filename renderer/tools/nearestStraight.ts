import type { RunId, SheetId, VertexId } from '../../src/document/ids.ts';
import type { ProjectDocument, Run } from '../../src/document/projectDocument.ts';
import type { PaperPoint } from '../../src/geometry/point.ts';
import { runAsTraced } from '../../src/measure/runAsTraced.ts';
import { nearestOnPath } from '../../src/measure/runPath.ts';

/** The place on a straight of a run that lies nearest to a picked point. */
export interface NearestStraight {
  readonly runId: RunId;
  readonly vertexId: VertexId;
  readonly index: number;
  readonly at: PaperPoint;
  /** In paper units. */
  readonly distance: number;
}

const nearestOf = (run: Run, point: PaperPoint): NearestStraight | null => {
  const nearest = nearestOnPath(runAsTraced(run), point);
  const vertex = nearest && run.frontLine[nearest.index];
  return nearest && vertex ? { runId: run.id, vertexId: vertex.id, ...nearest } : null;
};

/** The nearest straight among the runs of a sheet, or of one run; null where there is none. */
export const nearestStraight = (
  document: ProjectDocument,
  sheetId: SheetId,
  point: PaperPoint,
  onlyRun: RunId | null = null,
): NearestStraight | null => {
  let best: NearestStraight | null = null;
  for (const runId of document.runIds) {
    const run = document.runs[runId];
    if (!run || run.sheetId !== sheetId || (onlyRun !== null && runId !== onlyRun)) continue;
    const nearest = nearestOf(run, point);
    if (nearest && (!best || nearest.distance < best.distance)) best = nearest;
  }
  return best;
};

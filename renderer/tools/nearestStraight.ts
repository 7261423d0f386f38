import type { RunId, SheetId, VertexId } from '../../src/document/ids.ts';
import type { ProjectDocument, Run } from '../../src/document/projectDocument.ts';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { nearestOnPolyline } from '../../src/geometry/polyline.ts';

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
  const nearest = nearestOnPolyline(
    point,
    run.frontLine.map(({ at }) => at),
  );
  const vertex = nearest && run.frontLine[nearest.segmentIndex];
  if (!nearest || !vertex) return null;
  return {
    runId: run.id,
    vertexId: vertex.id,
    index: nearest.segmentIndex,
    at: paperPoint(nearest.point.x, nearest.point.y),
    distance: nearest.distance,
  };
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

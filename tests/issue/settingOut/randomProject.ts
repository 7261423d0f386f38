import type { RunId, SheetId, StationId, VertexId, ZoneId } from '../../../src/document/ids.ts';
import type { ProjectDocument } from '../../../src/document/projectDocument.ts';
import type { FitAlternative } from '../../../src/fitting/fitAnswer.ts';
import { fitRun } from '../../../src/fitting/fitRun.ts';
import { poseProblem } from '../../../src/fitting/poseProblem.ts';
import { boxAround } from '../../../src/geometry/box.ts';
import { type PaperPoint, paperPoint } from '../../../src/geometry/point.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { documentOf, type Scene } from '../elevation/elevationScenes.ts';
import { randomScene, seeded } from '../elevation/randomScene.ts';

export const projectSheetId = 'sheet-1' as SheetId;

export interface FittedProject {
  readonly document: ProjectDocument;
  readonly alternatives: ReadonlyMap<RunId, FitAlternative>;
}

/** Several scenes as the runs of one sheet at 1:50, one above the other, `clearPt` points of paper apart. */
export const projectOf = (scenes: readonly Scene[], clearPt: number): FittedProject => {
  let project: ProjectDocument | null = null;
  let foot = 0;
  for (const [index, scene] of scenes.entries()) {
    const own = documentOf(scene);
    const run = own.runs['run-1' as RunId]!;
    const box = boxAround(run.frontLine.map(({ at }) => at))!;
    const depthPt = (run.depthMm * 72) / 25.4 / 50;
    const shift = foot + clearPt + depthPt - box.minY;
    foot = box.maxY + shift + depthPt;
    const moved = ({ x, y }: PaperPoint) => paperPoint(x, y + shift);
    const runId = `run-${index + 1}` as RunId;
    const vertexId = (id: string) => `vertex-${index}-${id}` as VertexId;
    const records = <Value>(
      list: Readonly<Record<string, Value>>,
      change: (value: Value, id: string) => Value,
    ) =>
      Object.fromEntries(
        Object.entries(list).map(([id, value]) => [`${id}-${index}`, change(value, `${id}-${index}`)]),
      );
    const base: ProjectDocument = project ?? { ...own, runIds: [], runs: {}, zones: {}, stations: {} };
    project = {
      ...base,
      runIds: [...base.runIds, runId],
      runs: {
        ...base.runs,
        [runId]: {
          ...run,
          id: runId,
          frontLine: run.frontLine.map((vertex) => ({
            ...vertex,
            id: vertexId(vertex.id),
            at: moved(vertex.at),
            ...(vertex.through ? { through: moved(vertex.through) } : {}),
          })),
        },
      },
      zones: {
        ...base.zones,
        ...records(own.zones, (zone, id) => ({
          ...zone,
          id: id as ZoneId,
          runId,
          vertexId: vertexId(zone.vertexId),
          a: moved(zone.a),
          b: moved(zone.b),
        })),
      },
      stations: {
        ...base.stations,
        ...records(own.stations, (station, id) => ({
          ...station,
          id: id as StationId,
          runId,
          vertexId: vertexId(station.vertexId),
          at: moved(station.at),
        })),
      },
    };
  }
  const document = project!;
  const alternatives = new Map<RunId, FitAlternative>();
  for (const runId of document.runIds) {
    const posed = poseProblem(document, runId, demoRange);
    if (!posed.ok) throw new Error(posed.message);
    const best = fitRun(posed.problem, { order: posed.order }).alternatives[0];
    if (best) alternatives.set(runId, best);
  }
  return { document, alternatives };
};

/** One to three random runs on one sheet. */
export const randomProject = (seed: number): FittedProject => {
  const random = seeded(seed + 77_000);
  const scenes = Array.from({ length: 1 + Math.floor(random() * 3) }, (_, index) =>
    randomScene(seed * 3 + index),
  );
  return projectOf(scenes, 30 + random() * 90);
};

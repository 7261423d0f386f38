import type { RunId } from '../../document/ids.ts';
import type { ProjectDocument } from '../../document/projectDocument.ts';
import { runAsTraced } from '../../measure/runAsTraced.ts';
import type { SheetScale } from '../../measure/tracedRun.ts';
import { zoneOn } from '../../measure/zones.ts';
import type { NamedZone } from './elevationInput.ts';

/** The zones of a run in the order of their ids, each placed on its straight. */
export const namedZonesOf = (
  document: ProjectDocument,
  runId: RunId,
  scale: SheetScale,
): readonly NamedZone[] => {
  const run = document.runs[runId];
  if (!run) return [];
  const traced = runAsTraced(run);
  return Object.values(document.zones)
    .filter((zone) => zone.runId === runId)
    .sort((one, other) => (one.id < other.id ? -1 : 1))
    .flatMap(({ id, kind, name, vertexId, a, b }): NamedZone[] => {
      const straight = run.frontLine.findIndex((vertex) => vertex.id === vertexId);
      if (straight < 0 || straight >= run.frontLine.length - 1) return [];
      const { fromMm, toMm } = zoneOn(traced, straight, [a, b], scale);
      return [{ id, kind, name, straight, fromMm, toMm }];
    });
};

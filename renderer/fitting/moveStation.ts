import type { Command } from '../../src/document/command.ts';
import type { Run, WantedStation } from '../../src/document/projectDocument.ts';
import { runAsTraced } from '../../src/measure/runAsTraced.ts';
import { paperPointAt } from '../../src/measure/runPosition.ts';
import { straightsOf } from '../../src/measure/straights.ts';
import type { SheetScale } from '../../src/measure/tracedRun.ts';

/**
 * "Move it there": wants a station where a fit has room for it. Null where the run has no such straight.
 *
 * @param to its centre along the front of a straight, in mm on site.
 */
export const moveStationCommand = (
  run: Run,
  station: WantedStation,
  to: { readonly straight: number; readonly atMm: number },
  scale: SheetScale,
): Command | null => {
  const vertexId = run.frontLine[to.straight]?.id;
  if (!vertexId || to.straight >= run.frontLine.length - 1) return null;
  const { measured, ...front } = runAsTraced(run);
  const drawnMm = straightsOf(front, scale)[to.straight]?.lengthMm ?? 0;
  // What is marked on a straight keeps its share of the length where that was measured.
  const share = drawnMm / (measured?.[to.straight]?.lengthMm ?? drawnMm);
  const at = paperPointAt(front, to.straight, to.atMm * share, 0, scale);
  return { type: 'change-station', stationId: station.id, changes: { vertexId, at } };
};

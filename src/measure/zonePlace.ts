import type { ProjectDocument, Zone } from '../document/projectDocument.ts';
import type { PaperPoint } from '../geometry/point.ts';
import { documentAsMeasured } from './documentAsMeasured.ts';
import { runAsTraced } from './runAsTraced.ts';
import { paperPointAt, positionAlong } from './runPosition.ts';
import { drawnScaleOfRun } from './scaleOfSheet.ts';
import { type ZoneOnStraight, zoneOn } from './zones.ts';

const straightOf = (document: ProjectDocument, zone: Zone): number => {
  const line = document.runs[zone.runId]?.frontLine ?? [];
  const straight = line.findIndex(({ id }) => id === zone.vertexId);
  return straight < line.length - 1 ? straight : -1;
};

/** The same in a document that `documentAsMeasured` gave: for many zones of one document. */
export const placeAsMeasured = (document: ProjectDocument, zone: Zone): ZoneOnStraight | null => {
  const run = document.runs[zone.runId];
  const scale = run && drawnScaleOfRun(document, run);
  const placed = document.zones[zone.id];
  const straight = straightOf(document, zone);
  if (!run || !scale || !placed || straight < 0) return null;
  return zoneOn(runAsTraced(run), straight, [placed.a, placed.b], scale);
};

/**
 * Where a zone lies on its straight, in mm along the front as it is on site. Null without a scale, or where its straight
 * is gone.
 */
export const placeOfZone = (traced: ProjectDocument, zone: Zone): ZoneOnStraight | null =>
  placeAsMeasured(documentAsMeasured(traced), zone);

/**
 * The two points on the sheet that give a zone another start and width, in mm on site; null where it has no place, or
 * no width would be left. A zone of a straight that was measured on site keeps to the drawing's own scale there.
 */
export const zoneMovedTo = (
  document: ProjectDocument,
  zone: Zone,
  to: { readonly fromMm: number; readonly widthMm: number },
): { readonly a: PaperPoint; readonly b: PaperPoint } | null => {
  const run = document.runs[zone.runId];
  const scale = run && drawnScaleOfRun(document, run);
  const shown = placeOfZone(document, zone);
  const straight = straightOf(document, zone);
  if (!run || !scale || !shown || straight < 0 || !(to.widthMm > 0)) return null;
  const { measured, ...front } = runAsTraced(run);
  const drawn = [zone.a, zone.b].map((point) => positionAlong(front, straight, point, scale));
  const drawnMm = Math.abs((drawn[1] ?? 0) - (drawn[0] ?? 0));
  const shownMm = shown.toMm - shown.fromMm;
  const share = measured?.[straight] && shownMm > 0 ? drawnMm / shownMm : 1;
  const at = (mm: number) => paperPointAt(front, straight, mm * share, 0, scale);
  return { a: at(to.fromMm), b: at(to.fromMm + to.widthMm) };
};

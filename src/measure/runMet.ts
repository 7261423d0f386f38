import type { ProjectDocument, Run } from '../document/projectDocument.ts';
import type { Point } from '../geometry/point.ts';
import { isInPolygon } from '../geometry/polygon.ts';
import { nearestOnPolyline } from '../geometry/polyline.ts';
import { lengthUncertaintyMm } from '../scale/lengthUncertainty.ts';
import { backLineOf } from './backLine.ts';
import { runAsTraced } from './runAsTraced.ts';
import { drawnScaleOfRun } from './scaleOfSheet.ts';
import { mmPerUserUnit } from './tracedRun.ts';

/** Ends are drawn to a line's middle or its edge: this far off still counts as on it, in mm (common practice, no source). */
const drawnOffMm = 40;

/**
 * The run on whose outline an end of another lies, within the picks' uncertainty: the one that it may be said to meet.
 * Null where there is none. The nearest of several.
 */
export const runMetAt = (document: ProjectDocument, run: Run, end: 'start' | 'finish'): Run | null => {
  const scale = drawnScaleOfRun(document, run);
  if (!scale) return null;
  const mm = mmPerUserUnit(scale);
  const traced = runAsTraced(run);
  const back = backLineOf(traced, scale);
  const at = end === 'start' ? 0 : -1;
  const sides = [traced.frontLine.at(at), back.at(at)].filter((point) => point !== undefined);
  let best: { readonly run: Run; readonly distanceMm: number } | null = null;
  for (const id of document.runIds) {
    const other = document.runs[id];
    if (!other || other.id === run.id || other.sheetId !== run.sheetId) continue;
    const otherTraced = runAsTraced(other);
    const ring: readonly Point[] = [...otherTraced.frontLine, ...backLineOf(otherTraced, scale).toReversed()];
    const closed = ring[0] ? [...ring, ring[0]] : ring;
    const pickUncertaintyPt = Math.max(run.pickUncertaintyPt, other.pickUncertaintyPt) / scale.userUnit;
    const withinMm =
      drawnOffMm + lengthUncertaintyMm(0, scale, { userUnit: scale.userUnit, pickUncertaintyPt });
    for (const side of sides) {
      const distanceMm = isInPolygon(side, ring)
        ? 0
        : (nearestOnPolyline(side, closed)?.distance ?? 1e9) * mm;
      if (distanceMm <= withinMm && (!best || distanceMm < best.distanceMm))
        best = { run: other, distanceMm };
    }
  }
  return best?.run ?? null;
};

import type { ProjectDocument, Zone } from '../document/projectDocument.ts';
import type { StockService } from '../stock/stockSchema.ts';
import { backLineOf } from './backLine.ts';
import { clearBehind } from './clearBehind.ts';
import { documentAsMeasured } from './documentAsMeasured.ts';
import { floorAt, type RangeHeights, topOf } from './floorLevels.ts';
import { runAsTraced } from './runAsTraced.ts';
import { drawnScaleOfRun } from './scaleOfSheet.ts';
import { straightsOf } from './straights.ts';
import { placeOfZone } from './zonePlace.ts';

/** What a bay's equipment asks of the place that it has. Lengths in mm. */
export interface BayChecks {
  /** The whole length that is kept free: the equipment's own and the clearances on both sides. */
  readonly keptFreeMm: number;
  /** Null where no door swing is given. `clearMm` is null where nothing that is traced lies behind the bay. */
  readonly doorSwing: {
    readonly swingMm: number;
    readonly clearMm: number | null;
    /** What is left to pass by with the door open. */
    readonly leftMm: number | null;
    readonly isTooFar: boolean;
  } | null;
  /** Null where no height is given. */
  readonly height: {
    readonly neededMm: number;
    /** From the floor at the bay to the underside of the top. */
    readonly underTopMm: number;
    readonly marginMm: number;
  } | null;
  /** Services that are set out beside the equipment or higher than the top's underside, with its own width. */
  readonly astray: readonly { readonly service: StockService; readonly widthMm: number }[];
}

/** What is typed is no finer than a millimetre; a bay's picks are. */
const roundedMm = 0.5;

/**
 * Holds a bay against the working aisle behind it and the top over it. What stands in the aisle is known as far as it is
 * traced: other runs, and the same run's other straights. Null where the zone has no place yet.
 */
export const bayChecks = (
  traced: ProjectDocument,
  zone: Zone,
  heights: RangeHeights & { readonly topThicknessMm: number },
): BayChecks | null => {
  const place = placeOfZone(traced, zone);
  const document = documentAsMeasured(traced);
  const run = document.runs[zone.runId];
  const scale = run && drawnScaleOfRun(document, run);
  if (!place || !run || !scale) return null;
  const clearance = zone.clearance ?? { beforeMm: 0, afterMm: 0, heightMm: 0, doorSwingMm: 0 };
  const lines = document.runIds.flatMap((id) => {
    const other = document.runs[id];
    if (!other || other.sheetId !== run.sheetId) return [];
    const front = runAsTraced(other);
    return [front.frontLine, backLineOf(front, scale)];
  });
  const front = runAsTraced(run);
  const clearMm = clearBehind(front, place, lines, scale);
  const { doorSwingMm, heightMm } = clearance;
  const widthMm = place.toMm - place.fromMm;

  const straights = straightsOf(front, scale);
  const wholeMm = straights.reduce((sum, { lengthMm }) => sum + lengthMm, 0);
  const beforeMm = straights
    .slice(0, place.straight)
    .reduce((sum, { lengthMm }) => sum + lengthMm, (place.fromMm + place.toMm) / 2);
  const floorMm = run.levels ? floorAt(run.levels, wholeMm > 0 ? beforeMm / wholeMm : 0) : 0;
  const underTopMm = topOf(run.levels, heights) - heights.topThicknessMm - floorMm;
  return {
    keptFreeMm: widthMm + clearance.beforeMm + clearance.afterMm,
    doorSwing:
      doorSwingMm > 0
        ? {
            swingMm: doorSwingMm,
            clearMm,
            leftMm: clearMm === null ? null : clearMm - doorSwingMm,
            isTooFar: clearMm !== null && doorSwingMm > clearMm,
          }
        : null,
    height: heightMm > 0 ? { neededMm: heightMm, underTopMm, marginMm: underTopMm - heightMm } : null,
    astray: (zone.services ?? [])
      .filter((service) => service.offsetMm > widthMm + roundedMm || service.heightMm > underTopMm)
      .map((service) => ({ service, widthMm })),
  };
};

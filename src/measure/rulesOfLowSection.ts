import type { ProjectDocument, Zone } from '../document/projectDocument.ts';
import { documentAsMeasured } from './documentAsMeasured.ts';
import { type LowSectionRule, lowSectionRules } from './lowSectionRules.ts';
import { runAsTraced } from './runAsTraced.ts';
import { drawnScaleOfRun } from './scaleOfSheet.ts';
import { wholeLengthOf } from './straights.ts';
import { placeAsMeasured } from './zonePlace.ts';

/**
 * The rules that a low section of a project is held against, as it lies on site; none while it has no place.
 *
 * @param heights of the stock range: a low section without a height of its own has the range's.
 */
export const rulesOfLowSection = (
  traced: ProjectDocument,
  zone: Zone,
  heights: { readonly lowSectionTopMm: number; readonly topThicknessMm: number },
): readonly LowSectionRule[] => {
  const document = documentAsMeasured(traced);
  const run = document.runs[zone.runId];
  const scale = run && drawnScaleOfRun(document, run);
  const place = placeAsMeasured(document, zone);
  if (!run || !scale || !place) return [];
  return lowSectionRules({
    lengthMm: place.toMm - place.fromMm,
    lengthPlusMinusMm: place.plusMinusMm,
    topHeightMm: zone.topHeightMm ?? heights.lowSectionTopMm,
    topThicknessMm: heights.topThicknessMm,
    depthMm: run.depthMm,
    runLengthMm: wholeLengthOf(runAsTraced(run), scale).lengthMm,
  });
};

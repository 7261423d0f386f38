import type { RunId } from '../document/ids.ts';
import type { ProjectDocument, Zone } from '../document/projectDocument.ts';
import { bayChecks } from '../measure/bayChecks.ts';
import { feetOf } from '../measure/floorLevels.ts';
import { rulesOfLowSection } from '../measure/rulesOfLowSection.ts';
import { drawnScaleOfRun } from '../measure/scaleOfSheet.ts';
import { placeOfZone } from '../measure/zonePlace.ts';
import { serviceWord } from '../services/servicePoint.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { type DisplayUnit, formatLength } from '../units/formatLength.ts';

/**
 * What somebody has to decide before a run is built as it is described: a bay whose door or height does not go, a floor
 * that falls more than the feet can take up, and which rule a low section is held to. Sentences, in the order of the
 * zones' ids.
 */
export const partWarnings = (
  document: ProjectDocument,
  runId: RunId,
  range: StockRange,
  unit: DisplayUnit = 'mm',
): readonly string[] => {
  const run = document.runs[runId];
  const scale = run && drawnScaleOfRun(document, run);
  if (!run || !scale) return [];
  const length = (mm: number) => formatLength(Math.abs(mm), { unit });

  const ofBay = (zone: Zone): readonly string[] => {
    const checks = bayChecks(document, zone, range.heights);
    const { doorSwing, height, astray = [] } = checks ?? {};
    return [
      ...(doorSwing?.isTooFar
        ? [
            `${zone.name}: its door swings ${length(doorSwing.swingMm)}, the aisle behind is ${length(doorSwing.clearMm ?? 0)}.`,
          ]
        : []),
      ...(height && height.marginMm < 0
        ? [
            `${zone.name}: needs ${length(height.neededMm)} under the top, where ${length(height.underTopMm)} are.`,
          ]
        : []),
      ...astray.map(
        ({ service, widthMm }) =>
          `${zone.name}: its ${serviceWord[service.kind].toLowerCase()} is set out ${length(service.offsetMm)} from its left end and ${length(service.heightMm)} high; the equipment is ${length(widthMm)} wide, under the top.`,
      ),
    ];
  };
  const ofLowSection = (zone: Zone): readonly string[] => {
    const place = placeOfZone(document, zone);
    if (!place) return [];
    const topHeightMm = zone.topHeightMm ?? range.heights.lowSectionTopMm;
    const rules = rulesOfLowSection(document, zone, range.heights);
    const missed = rules.filter(({ verdict }) => verdict !== 'met').map(({ source }) => source);
    const which =
      missed.length === 0 ? 'It meets all that were checked' : `It does not surely meet ${missed.join('; ')}`;
    return [
      `${zone.name}: ${length(place.toMm - place.fromMm)} long, top at ${length(topHeightMm)}. ${which}. Which rule holds is for the local code and the access officer.`,
    ];
  };
  const feet = run.levels ? feetOf(run.levels, range.heights) : null;
  return [
    ...Object.values(document.zones)
      .filter((zone) => zone.runId === runId)
      .sort((one, other) => (one.id < other.id ? -1 : 1))
      .flatMap((zone) => (zone.kind === 'bay' ? ofBay(zone) : zone.kind === 'low' ? ofLowSection(zone) : [])),
    ...(feet && feet.shortByMm > 0
      ? [
          `${run.name}: its floor asks ${length(feet.shortByMm)} more of the feet than they turn (${length(feet.adjustMm)} each way).`,
        ]
      : []),
  ];
};

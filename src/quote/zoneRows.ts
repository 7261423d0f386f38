import type { RunZone } from '../measure/zonesOfRun.ts';
import { serviceWord } from '../services/servicePoint.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { bayMarks, zonesAlongTheFront } from './bayMarks.ts';
import { leftoverPrice } from './leftoverPrice.ts';
import type { ScheduleRow } from './schedule.ts';

const figure = (mm: number): string => String(Math.round(mm * 10) / 10);

const bayNote = ({ clearance, services = [] }: RunZone): string => {
  const kinds = [...new Set(services.map(({ kind }) => serviceWord[kind].toLowerCase()))];
  const served =
    kinds.length === 0 ? [] : [`comes up: ${kinds.join(', ')}, see the services; check with the supplier`];
  if (!clearance) return ['By others; check its size and clearances with the supplier', ...served].join('; ');
  const { beforeMm, afterMm, heightMm, doorSwingMm } = clearance;
  const parts = [
    ...(beforeMm || afterMm ? [`kept clear ${figure(beforeMm)} and ${figure(afterMm)} mm beside it`] : []),
    ...(heightMm ? [`${figure(heightMm)} mm high`] : []),
    ...(doorSwingMm ? [`door swings ${figure(doorSwingMm)} mm into the aisle`] : []),
  ];
  return ['By others', ...parts, ...served].join('; ');
};

/**
 * Bays and low sections as rows of the schedule, with marks that count by themselves (`1.Q1`, `1.T1`: L is a leftover’s): what
 * comes from others, so that somebody orders it, and what is made at another height.
 */
export const zoneRows = (
  run: { readonly name: string; readonly number: number },
  zones: readonly RunZone[],
  range: StockRange,
): readonly ScheduleRow[] => {
  const marks = bayMarks(run.number, zones);
  let lowSections = 0;
  return zonesAlongTheFront(zones).flatMap((zone): ScheduleRow[] => {
    const { kind, name, straight, fromMm, toMm } = zone;
    if (kind !== 'bay' && kind !== 'low') return [];
    if (kind === 'low') lowSections += 1;
    const widthMm = Math.round((toMm - fromMm) * 1000) / 1000;
    const shared = { run: run.name, straight: straight + 1, count: 1, item: '', fromMm, toMm, widthMm };
    return [
      kind === 'bay'
        ? {
            ...shared,
            mark: marks.get(zone.id) ?? '',
            kind: 'by-others',
            name,
            price: null,
            massKg: null,
            note: bayNote(zone),
          }
        : {
            ...shared,
            mark: `${run.number}.T${lowSections}`,
            kind: 'low-section',
            name,
            price: leftoverPrice(range, 'made-to-measure', widthMm),
            massKg: null,
            note: `Made to measure, top at ${figure(zone.topHeightMm ?? range.heights.lowSectionTopMm)} mm above the floor`,
          },
    ];
  });
};

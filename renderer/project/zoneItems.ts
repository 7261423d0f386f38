import type { ProjectDocument, Run } from '../../src/document/projectDocument.ts';
import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import type { PaperPoint } from '../../src/geometry/point.ts';
import { zoneOnPlan } from '../../src/issue/zoneOnPlan.ts';
import { runAsTraced } from '../../src/measure/runAsTraced.ts';
import { paperPointAt } from '../../src/measure/runPosition.ts';
import { mmPerUserUnit, type SheetScale } from '../../src/measure/tracedRun.ts';
import { type RunZone, zonesOfRun } from '../../src/measure/zonesOfRun.ts';
import { isColumnPassed } from '../../src/quote/isColumnPassed.ts';
import type { DisplayItem, LineStyle } from '../board/displayList.ts';
import { zoneWords } from '../rail/zoneWords.ts';
import { directionOf, middleOf, widthOf } from './ringMeasures.ts';

const hatches = { opening: 'opening', blocked: 'blocked', bay: 'bay', low: 'low-section' } as const;

const itemsOf = (
  run: Run,
  zone: RunZone,
  scale: SheetScale,
  alternative: FitAlternative | null,
): readonly DisplayItem[] => {
  const traced = runAsTraced(run);
  const at = (along: number, offset: number): PaperPoint =>
    paperPointAt(traced, zone.straight, along, offset, scale);
  const drawn = zoneOnPlan(zone, run.depthMm, isColumnPassed(zone, alternative), at);
  const tone = zone.kind === 'blocked' ? 'blocked' : 'opening';
  const id = `zone/${zone.id}`;
  const dashed: LineStyle = { tone, widthPx: 1, dashPx: [5, 3] };
  const line = (which: string, points: readonly PaperPoint[], look: LineStyle): DisplayItem => ({
    kind: 'polyline',
    id: `${id}/${which}`,
    points,
    isHittable: false,
    line: look,
  });
  const alongRad = directionOf(at(0, 0), at(1000, 0));
  const isReadBackwards = Math.cos(alongRad) < -1e-9 || (Math.abs(Math.cos(alongRad)) < 1e-9 && alongRad < 0);
  // The letter stands where the name finds no room.
  const lettering = (which: string, text: string, upPx: number): DisplayItem => ({
    kind: 'label',
    id: `${id}/${which}`,
    at: middleOf(drawn.ring),
    text,
    sizePx: 11,
    isStrong: which === 'letter',
    alongRad,
    shift: { directionRad: alongRad + Math.PI / 2, px: isReadBackwards ? -upPx : upPx },
    roomUnits: widthOf(drawn.ring),
    // Two lines share the depth, with a little air.
    roomAcrossUnits: run.depthMm / mmPerUserUnit(scale) / 2.4,
    isHittable: false,
  });
  const closed = (ring: readonly PaperPoint[]) => (ring[0] ? [...ring, ring[0]] : ring);
  return [
    {
      kind: 'polygon',
      id,
      points: drawn.ring,
      hatch: { kind: hatches[zone.kind], tone },
      line: zone.column ? { tone, widthPx: 1.5 } : dashed,
    },
    ...(drawn.columnRing ? [line('column', closed(drawn.columnRing), { tone, widthPx: 1.5 })] : []),
    ...(drawn.equipment ? [line('equipment', closed(drawn.equipment), dashed)] : []),
    ...(drawn.door
      ? [
          line('door', drawn.door.leaf, { tone, widthPx: 1.5 }),
          line('swing', drawn.door.arc, { tone, widthPx: 1, dashPx: [2, 3] }),
        ]
      : []),
    lettering('letter', zoneWords[zone.kind].letter, 7),
    lettering('name', zone.name, -7),
  ];
};

/** The zones of a run between front and back line, each hatched for its kind, with its letter and name. */
export const zoneItems = (
  document: ProjectDocument,
  run: Run,
  scale: SheetScale,
  alternative: FitAlternative | null,
): readonly DisplayItem[] =>
  zonesOfRun(document, run.id, scale).flatMap((zone) => itemsOf(run, zone, scale, alternative));

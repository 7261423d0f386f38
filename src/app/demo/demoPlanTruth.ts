import { type PaperPoint, paperPoint } from '../../geometry/point.ts';
import { demoPlanOrigin, demoRatio, pointsPerMm } from './demoPlacement.ts';
import { bar } from './demoVenue.ts';
import type { XY } from './planPen.ts';

/** Where a place of the room, in millimetres from grid 1 and grid A, lies on the sheet, in points. */
export const demoPaperPoint = ([x, y]: XY): PaperPoint =>
  paperPoint(
    (demoPlanOrigin[0] + x / demoRatio) * pointsPerMm,
    (demoPlanOrigin[1] + y / demoRatio) * pointsPerMm,
  );

const dimension = (from: XY, to: XY, text: string) => ({
  from: demoPaperPoint(from),
  to: demoPaperPoint(to),
  lengthMm: Number(text),
  text,
});

/**
 * What is true of the demo plan, for the demo project and for tests: its scale, dimensions that stand on it, and its
 * front bar as a careful estimator would trace it. Points are paper points; everything along a straight is in
 * millimetres along its traced front, from its start.
 */
export const demoPlanTruth = {
  /** Real millimetres in one millimetre of paper. */
  ratio: demoRatio,
  scaleNote: '1:50',
  unit: 'mm',
  /** Good references to pick: long, and at right angles to one another. */
  dimensions: [
    dimension([-180, -2_500], [24_180, -2_500], '24360'),
    dimension([-1_750, -180], [-1_750, 14_580], '14760'),
    dimension([0, -2_050], [9_000, -2_050], '9000'),
    dimension([5_200, 5_700], [13_900, 5_700], '8700'),
    dimension([4_300, 7_100], [4_300, 9_780], '2680'),
  ],
  frontBar: {
    name: 'Front bar',
    /** From the wall end by the corner to the exposed end; the front is on the outside of the corner. */
    frontLine: [demoPaperPoint(bar.wallEnd), demoPaperPoint(bar.corner), demoPaperPoint(bar.exposedEnd)],
    /** Which side of the front line the bartender is on, walking along it. */
    backSide: 'left',
    depthMm: bar.depthMm,
    straightsMm: [2_680, 8_700],
    corner: { turnDeg: 90, front: 'outside' },
    ends: ['wall', 'exposed'],
    /** The column bites 200 mm into the back of the run. */
    blockedZones: [{ straight: 1, ...bar.columnBite, why: 'Column C/2' }],
    openings: [{ straight: 1, ...bar.flap, why: 'Lifting flap' }],
    bays: [{ straight: 1, ...bar.glasswasherBay, equipment: 'Glasswasher, by others' }],
    /** Stations of the demo range where the architect shows their symbols, or where they work best. */
    wantedStations: [
      { id: 'beer', item: 'beer-station-600', straight: 1, nearMm: 2_000, withinMm: 500 },
      { id: 'baskets', item: 'basket-unit-650', straight: 1, nearMm: 4_900, withinMm: 600 },
      { id: 'cocktails', item: 'cocktail-station-1200', straight: 1, nearMm: 7_800, withinMm: 500 },
      { id: 'hand-basin', item: 'hand-basin-11l', straight: 0, nearMm: 1_280, withinMm: 500 },
    ],
  },
  backBar: {
    name: 'Back bar',
    /** Its front faces the aisle; walking along it, its back is on the left, against the wall. */
    frontLine: [
      demoPaperPoint([bar.backBar.x0, bar.backBar.y0]),
      demoPaperPoint([bar.backBar.x1, bar.backBar.y0]),
    ],
    backSide: 'left',
    depthMm: 600,
    straightsMm: [6_400],
    ends: ['exposed', 'exposed'],
  },
  /** Clear distance between the front bar's back line and the back bar's front line. */
  aisleMm: 1_380,
} as const;

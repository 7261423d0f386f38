import type { ObstacleId, SheetId, WayInId } from '../../document/ids.ts';
import type { DrawnObstacle, DrawnSize, DrawnWayIn } from '../../document/wayInRecords.ts';
import { demoPaperPoint } from './demoPlanTruth.ts';
import type { XY } from './planPen.ts';

interface Fresh {
  readonly freshId: () => string;
}

const typed = (lengthMm: number): DrawnSize => ({ from: 'typed', lengthMm });

/**
 * The demo's two ways in. By the yard a piece must turn round the racking outside the cold room, which the longest
 * module can't; by the street door everything passes. Room millimetres, as the demo venue has them.
 */
export const demoWaysIn = (
  sheetId: SheetId,
  pickUncertaintyPt: number,
  { freshId }: Fresh,
): readonly DrawnWayIn[] => {
  const picked = (a: XY, b: XY): DrawnSize => ({
    from: 'sheet',
    sheetId,
    a: demoPaperPoint(a),
    b: demoPaperPoint(b),
    pickUncertaintyPt,
  });
  const obstacle = (
    kind: DrawnObstacle['kind'],
    name: string,
    sizes: DrawnObstacle['sizes'],
  ): DrawnObstacle => ({
    id: `obstacle-${freshId()}` as ObstacleId,
    kind,
    name,
    sizes,
    figures: {},
    typedPlusMinusMm: 5,
    confirmOnSite: false,
  });
  const wayIn = (name: string, obstacles: readonly DrawnObstacle[]): DrawnWayIn => ({
    id: `way-in-${freshId()}` as WayInId,
    name,
    obstacles,
  });
  return [
    wayIn('Yard and cellar store', [
      obstacle('doorway', 'Yard door D08', {
        widthMm: picked([6_060, 14_220], [7_260, 14_220]),
        heightMm: typed(2_100),
      }),
      obstacle('turn', 'Cellar turn', {
        fromMm: picked([5_920, 13_200], [7_340, 13_200]),
        // From the racking to the wall, measured on site.
        toMm: typed(1_270),
        heightMm: typed(2_050),
      }),
      obstacle('doorway', 'Store door D06', {
        widthMm: picked([7_340, 10_400], [7_340, 11_300]),
        heightMm: typed(2_040),
        leafMm: typed(45),
      }),
      obstacle('doorway', 'Kitchen door D04', {
        widthMm: picked([13_900, 9_780], [14_800, 9_780]),
        heightMm: typed(2_040),
        leafMm: typed(45),
      }),
    ]),
    wayIn('Street door, by permit', [
      obstacle('doorway', 'Street door D01', {
        widthMm: picked([10_200, -180], [12_000, -180]),
        heightMm: typed(2_300),
      }),
      obstacle('doorway', 'Lobby door D02', {
        widthMm: picked([10_200, 2_380], [12_000, 2_380]),
        heightMm: typed(2_100),
      }),
    ]),
  ];
};

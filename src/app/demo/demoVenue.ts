import type { XY } from './planPen.ts';
import type { Box } from './wallOutline.ts';

/**
 * The demo venue: an invented taproom in an invented town. Room millimetres; grid 1 is x = 0, grid A is y = 0, north
 * is up. Walls are straight along the axes; a wall's openings are given along it.
 */

export interface DoorOpening {
  readonly kind: 'door';
  readonly from: number;
  readonly to: number;
  readonly tag: string;
  /** Single leaf hinged at the lower or the upper end of the opening, or two leaves. */
  readonly hinge: 'from' | 'to' | 'both';
  /** Which side it opens to: +1 towards larger coordinates. */
  readonly side: 1 | -1;
  /** Where the tag stands, if its usual place is taken. */
  readonly tagAt?: XY;
}
export interface WindowOpening {
  readonly kind: 'window';
  readonly from: number;
  readonly to: number;
}
export interface PlainOpening {
  readonly kind: 'opening';
  readonly from: number;
  readonly to: number;
}
export type WallOpening = DoorOpening | WindowOpening | PlainOpening;

export interface Wall {
  /** The axis that the wall runs along. */
  readonly along: 'x' | 'y';
  /** The other coordinate of its centre line. */
  readonly at: number;
  readonly thickness: number;
  readonly from: number;
  readonly to: number;
  readonly build: 'existing' | 'new';
  /** Which side is outdoors, for window sills. */
  readonly outside?: 1 | -1;
  readonly openings: readonly WallOpening[];
}

const window = (from: number, to: number): WindowOpening => ({ kind: 'window', from, to });
const opening = (from: number, to: number): PlainOpening => ({ kind: 'opening', from, to });
const door = (
  tag: string,
  from: number,
  to: number,
  hinge: DoorOpening['hinge'],
  side: 1 | -1,
  more: { readonly tagAt?: XY } = {},
): DoorOpening => ({ kind: 'door', tag, from, to, hinge, side, ...more });

export const walls: readonly Wall[] = [
  {
    along: 'x',
    at: 0,
    thickness: 360,
    from: -180,
    to: 24_180,
    build: 'existing',
    outside: -1,
    openings: [
      window(1_500, 3_900),
      window(5_400, 7_800),
      door('D01', 10_200, 12_000, 'both', -1),
      window(13_500, 15_900),
      window(18_900, 22_500),
    ],
  },
  {
    along: 'y',
    at: 0,
    thickness: 360,
    from: 180,
    to: 14_220,
    build: 'existing',
    outside: -1,
    openings: [window(1_800, 4_200), window(5_700, 8_100), window(12_000, 13_200)],
  },
  {
    along: 'x',
    at: 14_400,
    thickness: 360,
    from: -180,
    to: 24_180,
    build: 'existing',
    outside: 1,
    openings: [
      door('D08', 6_060, 7_260, 'both', 1),
      window(8_700, 11_100),
      door('D09', 12_900, 13_900, 'to', 1),
      window(15_900, 16_500),
      window(18_600, 19_800),
      window(21_900, 23_100),
    ],
  },
  {
    along: 'y',
    at: 24_000,
    thickness: 360,
    from: 180,
    to: 14_220,
    build: 'existing',
    outside: 1,
    openings: [window(1_800, 4_200), window(5_700, 8_100), door('D10', 10_200, 11_200, 'to', 1)],
  },
  {
    along: 'x',
    at: 9_900,
    thickness: 240,
    from: 180,
    to: 23_820,
    build: 'existing',
    openings: [
      door('D03', 2_550, 3_450, 'to', 1),
      door('D04', 13_900, 14_800, 'to', 1, { tagAt: [14_640, 9_540] }),
      door('D05', 15_700, 16_600, 'from', 1),
    ],
  },
  { along: 'y', at: 3_900, thickness: 120, from: 10_020, to: 14_220, build: 'existing', openings: [] },
  {
    along: 'y',
    at: 7_400,
    thickness: 120,
    from: 10_020,
    to: 14_220,
    build: 'new',
    openings: [door('D06', 10_400, 11_300, 'to', -1)],
  },
  {
    along: 'x',
    at: 12_000,
    thickness: 120,
    from: 3_960,
    to: 5_920,
    build: 'new',
    openings: [door('D07', 4_500, 5_400, 'from', -1)],
  },
  { along: 'y', at: 5_860, thickness: 120, from: 12_060, to: 14_220, build: 'new', openings: [] },
  { along: 'y', at: 15_060, thickness: 120, from: 10_020, to: 14_220, build: 'new', openings: [] },
  {
    along: 'x',
    at: 11_460,
    thickness: 120,
    from: 15_120,
    to: 23_820,
    build: 'new',
    openings: [
      door('D11', 16_050, 17_050, 'to', -1),
      door('D12', 18_000, 18_900, 'from', 1),
      door('D13', 21_300, 22_200, 'from', 1),
    ],
  },
  { along: 'y', at: 17_380, thickness: 120, from: 11_520, to: 14_220, build: 'new', openings: [] },
  { along: 'y', at: 20_640, thickness: 120, from: 11_520, to: 14_220, build: 'new', openings: [] },
  {
    along: 'y',
    at: 17_400,
    thickness: 120,
    from: 180,
    to: 9_780,
    build: 'new',
    openings: [opening(5_200, 7_000)],
  },
  { along: 'y', at: 9_840, thickness: 120, from: 180, to: 2_380, build: 'new', openings: [] },
  { along: 'y', at: 12_360, thickness: 120, from: 180, to: 2_380, build: 'new', openings: [] },
  {
    along: 'x',
    at: 2_440,
    thickness: 120,
    from: 9_780,
    to: 12_420,
    build: 'new',
    openings: [door('D02', 10_200, 12_000, 'both', 1)],
  },
];

export const columnSizeMm = 400;
export const columns: readonly XY[] = [
  [9_000, 3_900],
  [9_000, 7_800],
  [15_000, 3_900],
  [15_000, 7_800],
];

/** Grid lines: figures across, letters up. */
export const gridX: readonly (readonly [name: string, x: number])[] = [
  ['1', 0],
  ['2', 9_000],
  ['3', 15_000],
  ['4', 17_400],
  ['5', 24_000],
];
export const gridY: readonly (readonly [name: string, y: number])[] = [
  ['A', 0],
  ['B', 3_900],
  ['C', 7_800],
  ['D', 9_900],
  ['E', 14_400],
];

export interface Room {
  readonly number: string;
  readonly name: string;
  /** Middle of its label. */
  readonly label: XY;
  /** Clear rectangles between wall faces that make it up. */
  readonly floor: readonly Box[];
}

const box = (x0: number, y0: number, x1: number, y1: number): Box => ({ x0, y0, x1, y1 });

export const rooms: readonly Room[] = [
  {
    number: '0.01',
    name: 'TAPROOM',
    label: [6_900, 3_250],
    floor: [box(180, 180, 9_780, 9_780), box(9_780, 2_500, 12_420, 9_780), box(12_420, 180, 17_340, 9_780)],
  },
  { number: '0.02', name: 'LOBBY', label: [11_100, 1_000], floor: [box(9_900, 180, 12_300, 2_380)] },
  { number: '0.03', name: 'SNUG', label: [20_700, 5_000], floor: [box(17_460, 180, 23_820, 9_780)] },
  { number: '0.04', name: 'CELLAR STAIR', label: [3_130, 12_900], floor: [box(180, 10_020, 3_840, 14_220)] },
  {
    number: '0.05',
    name: 'STORE',
    label: [6_600, 12_400],
    floor: [box(3_960, 10_020, 7_340, 11_940), box(5_920, 11_940, 7_340, 14_220)],
  },
  { number: '0.06', name: 'COLD ROOM', label: [4_900, 13_150], floor: [box(3_960, 12_060, 5_800, 14_220)] },
  { number: '0.07', name: 'KITCHEN', label: [10_500, 11_100], floor: [box(7_460, 10_020, 15_000, 14_220)] },
  { number: '0.08', name: 'WC LOBBY', label: [19_800, 10_750], floor: [box(15_120, 10_020, 23_820, 11_400)] },
  {
    number: '0.09',
    name: 'ACCESSIBLE WC',
    label: [15_790, 11_990],
    floor: [box(15_120, 11_520, 17_320, 14_220)],
  },
  { number: '0.10', name: 'WOMEN', label: [19_520, 12_250], floor: [box(17_440, 11_520, 20_580, 14_220)] },
  { number: '0.11', name: 'MEN', label: [22_850, 12_250], floor: [box(20_700, 11_520, 23_820, 14_220)] },
];

/**
 * The front bar. Straight 0 runs south from the wall at grid D to the corner, straight 1 east from the corner to the
 * exposed end; walking so, the bartender is on the left and the customer on the right, outside the corner.
 */
export const bar = {
  depthMm: 700,
  wallEnd: [5_200, 9_780] as XY,
  corner: [5_200, 7_100] as XY,
  exposedEnd: [13_900, 7_100] as XY,
  /** Along straight 1, from the corner. */
  columnBite: { fromMm: 3_600, toMm: 4_000 },
  glasswasherBay: { fromMm: 5_250, toMm: 5_950 },
  flap: { fromMm: 5_950, toMm: 6_750 },
  backBar: box(6_900, 9_180, 13_300, 9_780),
} as const;

/** The boxes that are left of a wall between its openings. */
export const wallBoxes = (wall: Wall): readonly Box[] => {
  const half = wall.thickness / 2;
  const stops = [wall.from, ...wall.openings.flatMap((gap) => [gap.from, gap.to]), wall.to];
  const boxes: Box[] = [];
  for (let index = 0; index < stops.length; index += 2) {
    const from = stops[index]!;
    const to = stops[index + 1]!;
    boxes.push(
      wall.along === 'x'
        ? box(from, wall.at - half, to, wall.at + half)
        : box(wall.at - half, from, wall.at + half, to),
    );
  }
  return boxes;
};

/** A room's area in square metres: the sum of its floor rectangles less the columns that stand in it. */
export const roomAreaM2 = (room: Room): number => {
  const gross = room.floor.reduce((sum, part) => sum + (part.x1 - part.x0) * (part.y1 - part.y0), 0);
  const inside = columns.filter(([x, y]) =>
    room.floor.some((part) => x > part.x0 && x < part.x1 && y > part.y0 && y < part.y1),
  ).length;
  return (gross - inside * columnSizeMm ** 2) / 1e6;
};

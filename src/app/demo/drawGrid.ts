import { bar, gridX, gridY, roomAreaM2, rooms } from './demoVenue.ts';
import { type DimensionString, drawDimensionString } from './drawDimensions.ts';
import type { PlanPen, XY } from './planPen.ts';

const chain = { pen: 0.13, dash: [6, 1.2, 0.8, 1.2], grey: 0.35 };
const bubbleRadius = 250;

/** Where a grid line makes room for a figure: from and to along it, in room millimetres. */
type Gap = readonly [from: number, to: number];
const gapsX: Readonly<Record<string, readonly Gap[]>> = {
  '2': [
    [-1_590, -1_430],
    [6_160, 6_320],
  ],
  '4': [[-1_590, -1_430]],
};
const gapsY: Readonly<Record<string, readonly Gap[]>> = { D: [[-1_020, -860]] };

const drawBroken = (
  pen: PlanPen,
  axis: 'x' | 'y',
  at: number,
  [from, to]: Gap,
  gaps: readonly Gap[],
): void => {
  const stops = [from, ...gaps.flat(), to];
  for (let index = 0; index < stops.length; index += 2) {
    const [a, b] = [stops[index]!, stops[index + 1]!];
    if (axis === 'x') pen.line([at, a], [at, b], chain);
    else pen.line([a, at], [b, at], chain);
  }
};

/** Grid lines through the plan with their bubbles: figures below, letters at the left. */
export const drawGrid = (pen: PlanPen): void => {
  const bubbleY = -3_150;
  const bubbleX = -2_650;
  pen.layer('Grid', () => {
    for (const [name, x] of gridX) {
      drawBroken(pen, 'x', x, [bubbleY + bubbleRadius, 15_000], gapsX[name] ?? []);
      pen.circle([x, bubbleY], bubbleRadius, { pen: 0.25 });
      pen.letter(name, [x, bubbleY], { cap: 3, align: 'centre', vertical: 'middle', bold: true });
    }
    for (const [name, y] of gridY) {
      drawBroken(pen, 'y', y, [bubbleX + bubbleRadius, 24_600], gapsY[name] ?? []);
      pen.circle([bubbleX, y], bubbleRadius, { pen: 0.25 });
      pen.letter(name, [bubbleX, y], { cap: 3, align: 'centre', vertical: 'middle', bold: true });
    }
  });
};

/** Every dimension string of the plan. Outside: openings, grid, overall. Inside: the front bar. */
export const drawPlanDimensions = (pen: PlanPen): void => {
  const [cornerX, frontY] = bar.corner;
  const string = (dimensions: DimensionString): void => drawDimensionString(pen, dimensions);
  pen.layer('Dimensions', () => {
    const southOpenings = [
      -180, 1_500, 3_900, 5_400, 7_800, 10_200, 12_000, 13_500, 15_900, 18_900, 22_500, 24_180,
    ];
    string({ along: 'x', at: -1_600, stops: southOpenings, object: -230 });
    string({ along: 'x', at: -2_050, stops: gridX.map(([, x]) => x), object: -1_675 });
    string({ along: 'x', at: -2_500, stops: [-180, 24_180], object: -1_675 });
    const northOpenings = [
      -180, 6_060, 7_260, 8_700, 11_100, 12_900, 13_900, 15_900, 16_500, 18_600, 19_800, 21_900, 23_100,
      24_180,
    ];
    string({ along: 'x', at: 15_950, stops: northOpenings, object: 14_630 });
    string({
      along: 'x',
      at: 16_400,
      stops: [0, 3_900, 7_400, 15_060, 17_380, 20_640, 24_000],
      object: 16_130,
    });
    const westOpenings = [-180, 1_800, 4_200, 5_700, 8_100, 12_000, 13_200, 14_580];
    string({ along: 'y', at: -850, stops: westOpenings, object: -230 });
    string({ along: 'y', at: -1_300, stops: gridY.map(([, y]) => y), object: -925 });
    string({ along: 'y', at: -1_750, stops: [-180, 14_580], object: -925 });
    string({
      along: 'y',
      at: 25_550,
      stops: [-180, 1_800, 4_200, 5_700, 8_100, 10_200, 11_200, 14_580],
      object: 24_230,
    });

    const along = [
      0,
      bar.columnBite.fromMm,
      bar.columnBite.toMm,
      bar.glasswasherBay.fromMm,
      bar.flap.fromMm,
      bar.flap.toMm,
    ];
    const end = bar.exposedEnd[0];
    string({ along: 'x', at: 6_150, stops: [...along.map((mm) => cornerX + mm), end], object: frontY });
    string({ along: 'x', at: 5_700, stops: [cornerX, end], object: 6_075 });
    string({ along: 'y', at: 4_300, stops: [frontY, bar.wallEnd[1]], object: cornerX });
    const back = bar.backBar;
    string({
      along: 'y',
      at: 14_250,
      stops: [frontY, frontY + bar.depthMm, back.y0, back.y1],
      object: [end, end, back.x1, back.x1],
    });
  });
};

/** Level mark: a circle with two filled quarters. */
export const drawLevelMark = (pen: PlanPen, at: XY, text: string): void => {
  const radius = 75;
  pen.circle(at, radius, { pen: 0.18 });
  pen.area(
    [
      at,
      [at[0] + radius, at[1]],
      [at[0] + radius * Math.SQRT1_2, at[1] + radius * Math.SQRT1_2],
      [at[0], at[1] + radius],
    ],
    { grey: 0 },
  );
  pen.area(
    [
      at,
      [at[0] - radius, at[1]],
      [at[0] - radius * Math.SQRT1_2, at[1] - radius * Math.SQRT1_2],
      [at[0], at[1] - radius],
    ],
    { grey: 0 },
  );
  pen.letter(text, [at[0] + 130, at[1]], { cap: 1.8, vertical: 'middle' });
};

/** Room name in capitals, its number in a box, its clear area. */
export const letterRooms = (pen: PlanPen): void => {
  pen.layer('Text', () => {
    for (const room of rooms) {
      const [x, y] = room.label;
      const big = room.floor.reduce((sum, part) => sum + (part.x1 - part.x0) * (part.y1 - part.y0), 0) > 4e7;
      const cap = big ? 3 : 1.9;
      pen.letter(room.name, [x, y], { cap, align: 'centre', bold: true });
      const line = (big ? 5 : 3.6) * pen.ratio;
      const text = `${room.number}   ${roomAreaM2(room).toFixed(1)} m²`;
      pen.letter(text, [x, y - line], { cap: big ? 2 : 1.6, align: 'centre' });
    }
    drawLevelMark(pen, [6_500, 2_520], '±0.00');
    drawLevelMark(pen, [20_350, 4_350], '±0.00');
    drawLevelMark(pen, [3_000, 12_200], '-2.97');
    drawLevelMark(pen, [10_250, 10_480], '±0.00');
  });
};

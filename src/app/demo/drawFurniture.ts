import { bar } from './demoVenue.ts';
import type { PlanPen, XY } from './planPen.ts';

const table = { pen: 0.18 };
const seat = { pen: 0.13, grey: 0.15 };
/** A table hides what stands under it. */
const onTop = { grey: 1 };
const seam = { pen: 0.1, grey: 0.45 };

/** A chair 420 square with a bowed back, facing `towardsDeg`. */
const drawChair = (pen: PlanPen, [x, y]: XY, towardsDeg: number): void => {
  const angle = (towardsDeg / 180) * Math.PI;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const at = (ahead: number, across: number): XY => [
    x + ahead * cos - across * sin,
    y + ahead * sin + across * cos,
  ];
  pen.polyline([at(-150, -200), at(190, -190), at(190, 190), at(-150, 200)], seat, true);
  pen.polyline([at(-150, -215), at(-200, -150), at(-215, 0), at(-200, 150), at(-150, 215)], {
    pen: 0.25,
    grey: 0.1,
  });
};

const drawRoundTable = (
  pen: PlanPen,
  centre: XY,
  diameter: number,
  chairs: number,
  startDeg: number,
): void => {
  for (let index = 0; index < chairs; index += 1) {
    const angleDeg = startDeg + (index * 360) / chairs;
    const angle = (angleDeg / 180) * Math.PI;
    const reach = diameter / 2 + 170;
    drawChair(
      pen,
      [centre[0] + reach * Math.cos(angle), centre[1] + reach * Math.sin(angle)],
      angleDeg + 180,
    );
  }
  pen.circle(centre, diameter / 2, table, onTop);
};

/** A table with chairs along its two long sides, which run along x. */
const drawLongTable = (
  pen: PlanPen,
  [x, y]: XY,
  width: number,
  depth: number,
  chairsPerSide: number,
): void => {
  for (let index = 0; index < chairsPerSide; index += 1) {
    const cx = x - width / 2 + (width * (index + 0.5)) / chairsPerSide;
    drawChair(pen, [cx, y + depth / 2 + 150], -90);
    drawChair(pen, [cx, y - depth / 2 - 150], 90);
  }
  pen.rectangle(x - width / 2, y - depth / 2, width, depth, table, onTop);
};

/** A fixed bench along a wall: seat, back, and seams between the cushions. */
const drawBench = (
  pen: PlanPen,
  from: XY,
  size: { readonly along: 'x' | 'y'; readonly length: number; readonly back: 'low' | 'high' },
): void => {
  const [x, y] = from;
  const depth = 550;
  const backAt = size.back === 'low' ? 110 : depth - 110;
  const cushions = Math.round(size.length / 650);
  if (size.along === 'y') {
    pen.rectangle(x, y, depth, size.length, table);
    pen.line([x + backAt, y], [x + backAt, y + size.length], seat);
    for (let index = 1; index < cushions; index += 1) {
      const at = y + (size.length * index) / cushions;
      pen.line([x, at], [x + depth, at], seam);
    }
  } else {
    pen.rectangle(x, y, size.length, depth, table);
    pen.line([x, y + backAt], [x + size.length, y + backAt], seat);
    for (let index = 1; index < cushions; index += 1) {
      const at = x + (size.length * index) / cushions;
      pen.line([at, y], [at, y + depth], seam);
    }
  }
};

const drawStool = (pen: PlanPen, centre: XY): void => {
  pen.circle(centre, 180, table);
  pen.circle(centre, 120, seam);
};

/** Loose and fixed seating of the taproom and the snug, and the stools along the front bar. */
export const drawFurniture = (pen: PlanPen): void => {
  pen.layer('Furniture', () => {
    const [cornerX, frontY] = bar.corner;
    for (const along of [450, 1_150, 1_850, 2_550, 3_250, 4_700, 7_250, 7_900, 8_450])
      drawStool(pen, [cornerX + along, frontY - 330]);
    for (const y of [7_550, 8_250, 8_950]) drawStool(pen, [cornerX - 330, y]);

    drawBench(pen, [180, 900], { along: 'y', length: 4_550, back: 'low' });
    for (const y of [1_450, 2_590, 3_730, 4_870]) {
      drawChair(pen, [1_600, y], 180);
      pen.rectangle(830, y - 325, 650, 650, table, onTop);
    }
    drawBench(pen, [180, 5_950], { along: 'y', length: 2_600, back: 'low' });
    for (const y of [6_600, 7_900]) {
      drawChair(pen, [1_600, y], 180);
      pen.rectangle(830, y - 325, 650, 650, table, onTop);
    }

    for (const x of [3_600, 6_000, 8_300]) drawLongTable(pen, [x, 1_250], 1_400, 750, 2);
    for (const x of [13_700, 16_000]) drawLongTable(pen, [x, 1_250], 1_400, 750, 2);
    drawRoundTable(pen, [3_350, 4_300], 900, 4, 45);
    drawRoundTable(pen, [6_600, 4_650], 900, 4, 45);
    drawRoundTable(pen, [11_100, 4_550], 1_200, 6, 30);
    drawRoundTable(pen, [13_500, 3_650], 900, 4, 45);
    drawRoundTable(pen, [16_200, 3_200], 700, 3, 90);

    drawBench(pen, [23_270, 900], { along: 'y', length: 8_000, back: 'high' });
    for (const y of [1_700, 3_300, 4_900, 6_500, 8_100]) {
      drawChair(pen, [22_300, y - 225], 0);
      drawChair(pen, [22_300, y + 225], 0);
      pen.rectangle(22_420, y - 400, 750, 800, table, onTop);
    }
    drawBench(pen, [18_100, 9_230], { along: 'x', length: 3_900, back: 'high' });
    for (const x of [18_750, 20_050, 21_350]) {
      drawChair(pen, [x, 8_340], 90);
      pen.rectangle(x - 350, 8_480, 700, 650, table, onTop);
    }
    drawRoundTable(pen, [19_300, 6_500], 1_000, 4, 0);
    drawLongTable(pen, [19_700, 2_400], 1_800, 800, 3);
    drawRoundTable(pen, [18_700, 4_250], 700, 3, 150);
  });
};

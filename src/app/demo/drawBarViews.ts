import { bar } from './demoVenue.ts';
import { drawDimensionString } from './drawDimensions.ts';
import type { PlanPen, XY } from './planPen.ts';

const cut = { pen: 0.5 };
const seen = { pen: 0.25 };
const fine = { pen: 0.18 };
const faint = { pen: 0.1, grey: 0.35 };
const hidden = { pen: 0.13, dash: [1.8, 1.2] };

const topMm = 900;
const shelfMm = 1_140;
const ceilingMm = 3_000;

/** A stool in elevation, standing at x. */
const drawStoolSide = (pen: PlanPen, x: number): void => {
  pen.rectangle(x - 180, 740, 360, 55, fine, { grey: 1 });
  pen.line([x, 740], [x, 40], fine);
  pen.line([x - 140, 260], [x + 140, 260], fine);
  pen.line([x - 190, 0], [x + 190, 0], fine);
  pen.polyline(
    [
      [x - 190, 0],
      [x - 40, 40],
      [x + 40, 40],
      [x + 190, 0],
    ],
    fine,
  );
};

const drawBottle = (pen: PlanPen, x: number, y: number, height: number): void => {
  const half = 38;
  pen.polyline(
    [
      [x - half, y],
      [x - half, y + height * 0.6],
      [x - 13, y + height * 0.76],
      [x - 13, y + height],
      [x + 13, y + height],
      [x + 13, y + height * 0.76],
      [x + half, y + height * 0.6],
      [x + half, y],
    ],
    faint,
  );
};

/**
 * Section across the front bar, looking east: x is the distance from grid D's wall face, to the left; the customer
 * stands at the left. Millimetres from finished floor.
 */
export const drawBarSection = (pen: PlanPen): void => {
  const wallFace = 4_400;
  const backBarFront = wallFace - 600;
  const counterBack = backBarFront - 1_380;
  const counterFront = counterBack - bar.depthMm;
  pen.layer('Elevations', () => {
    pen.area(
      [
        [0, 0],
        [wallFace + 240, 0],
        [wallFace + 240, -180],
        [0, -180],
      ],
      { grey: 0.8 },
    );
    pen.area(
      [
        [wallFace, 0],
        [wallFace + 240, 0],
        [wallFace + 240, ceilingMm],
        [wallFace, ceilingMm],
      ],
      { grey: 0.8 },
    );
    pen.line([0, 0], [wallFace, 0], cut);
    pen.line([0, -180], [wallFace + 240, -180], cut);
    pen.line([wallFace, 0], [wallFace, ceilingMm], cut);
    pen.line([wallFace + 240, -180], [wallFace + 240, ceilingMm], cut);
    pen.line([0, ceilingMm], [wallFace, ceilingMm], cut);
    pen.line([0, ceilingMm + 25], [wallFace, ceilingMm + 25], fine);

    // Front bar: cladding on the frame, top, upstand, serving shelf on brackets, feet.
    pen.rectangle(counterFront, 100, 25, topMm - 100, seen);
    pen.rectangle(counterFront, topMm - 40, bar.depthMm, 40, cut, { grey: 0.25 });
    pen.rectangle(counterFront, topMm, 20, 200, seen);
    pen.rectangle(counterFront - 50, shelfMm - 40, 300, 40, cut, { grey: 0.25 });
    for (const x of [counterFront + 60, counterBack - 150]) {
      pen.rectangle(x, 160, 30, topMm - 200, seen);
      pen.line([x + 15, 160], [x + 15, 30], seen);
      pen.line([x - 20, 0], [x + 50, 0], { pen: 0.5 });
      pen.polyline(
        [
          [x - 20, 0],
          [x - 10, 30],
          [x + 40, 30],
          [x + 50, 0],
        ],
        fine,
      );
    }
    pen.rectangle(counterFront + 60, 260, bar.depthMm - 210, 25, fine);
    pen.line([counterFront - 120, 190], [counterFront - 120, 190], fine);
    pen.circle([counterFront - 130, 200], 22, seen);
    pen.line([counterFront - 108, 200], [counterFront, 200], fine);
    pen.rectangle(counterBack - 120, 40, 120, topMm - 110, hidden);
    drawStoolSide(pen, counterFront - 420);

    // Back bar: coolers under, shelves with bottles over.
    pen.rectangle(backBarFront, 100, 600, topMm - 140, seen);
    pen.rectangle(backBarFront - 20, topMm - 40, 620, 40, cut, { grey: 0.25 });
    pen.line([backBarFront + 45, 100], [backBarFront + 45, topMm - 40], fine);
    for (const y of [1_350, 1_750, 2_150]) {
      pen.rectangle(wallFace - 260, y, 260, 25, seen);
      for (const x of [wallFace - 190, wallFace - 80]) drawBottle(pen, x, y + 25, 290);
    }
  });
  pen.layer('Dimensions', () => {
    drawDimensionString(pen, {
      along: 'x',
      at: -600,
      stops: [counterFront, counterBack, backBarFront, wallFace],
      object: -200,
    });
    drawDimensionString(pen, { along: 'y', at: -250, stops: [0, shelfMm], object: [0, counterFront - 60] });
    drawDimensionString(pen, { along: 'y', at: -700, stops: [0, ceilingMm], object: -325 });
    drawDimensionString(pen, { along: 'y', at: counterBack + 400, stops: [0, topMm], object: counterBack });
  });
};

/** Elevation of the front bar from the customer side, along straight 1; x runs from the corner. */
export const drawFrontElevation = (pen: PlanPen): void => {
  const { fromMm, toMm } = bar.flap;
  const length = bar.exposedEnd[0] - bar.corner[0];
  pen.layer('Elevations', () => {
    pen.line([-500, 0], [length + 600, 0], { pen: 0.7 });
    pen.line([-500, ceilingMm], [length + 600, ceilingMm], seen);
    for (const [from, to] of [
      [0, fromMm],
      [toMm, length],
    ] as const) {
      pen.rectangle(from, 100, to - from, shelfMm - 140, seen);
      pen.line([from, 0], [from, 100], fine);
      pen.line([to, 0], [to, 100], fine);
      const boards = Math.round((to - from) / 125);
      for (let index = 1; index < boards; index += 1) {
        const x = from + ((to - from) * index) / boards;
        pen.line([x, 100], [x, shelfMm - 40], faint);
      }
      pen.rectangle(from - (from === 0 ? 50 : 0), shelfMm - 40, to - from + 50, 40, seen, { grey: 1 });
      pen.rectangle(from + 40, 185, to - from - 80, 38, fine, { grey: 1 });
    }
    pen.rectangle(fromMm, topMm - 40, toMm - fromMm, 40, seen);
    pen.line([fromMm, topMm], [toMm, topMm + 780], hidden);
    pen.line([toMm, topMm], [toMm, topMm + 790], hidden);
    // The fount on the serving side of the shelf.
    pen.rectangle(1_960, shelfMm, 80, 260, fine, { grey: 1 });
    pen.rectangle(1_740, shelfMm + 260, 520, 90, fine, { grey: 1 });
    for (let tap = 0; tap < 6; tap += 1) {
      const x = 1_800 + tap * 80;
      pen.rectangle(x - 14, shelfMm + 350, 28, 130, fine, { grey: 1 });
    }
    for (const x of [450, 1_150, 1_850, 2_550, 3_250, 4_700, 7_250, 7_900]) drawStoolSide(pen, x);
    for (const x of [1_200, 3_200, 5_200, 7_200]) {
      pen.line([x, ceilingMm], [x, 2_250], fine);
      pen.polyline(
        [
          [x - 170, 2_080],
          [x - 60, 2_250],
          [x + 60, 2_250],
          [x + 170, 2_080],
        ],
        fine,
        true,
      );
    }
  });
  pen.layer('Dimensions', () => {
    drawDimensionString(pen, { along: 'x', at: -600, stops: [0, fromMm, toMm, length], object: 0 });
  });
};

/** Elevation of the back bar as the customer sees it; x runs from its west end. */
export const drawBackElevation = (pen: PlanPen): void => {
  const length = bar.backBar.x1 - bar.backBar.x0;
  const doors = Math.round(length / 800);
  pen.layer('Elevations', () => {
    pen.line([-400, 0], [length + 400, 0], { pen: 0.7 });
    pen.line([-400, ceilingMm], [length + 400, ceilingMm], seen);
    pen.rectangle(0, 100, length, topMm - 140, seen);
    pen.rectangle(-20, topMm - 40, length + 40, 40, seen, { grey: 1 });
    for (let index = 0; index < doors; index += 1) {
      const x = (length * index) / doors;
      pen.rectangle(x + 30, 140, length / doors - 60, topMm - 230, fine);
      pen.line([x + 90, 420], [x + 90, 640], { pen: 0.35 });
      pen.polyline(
        [
          [x + 30, 140],
          [x + length / doors - 30, 475],
          [x + 30, topMm - 90],
        ],
        { pen: 0.1, grey: 0.35, dash: [2.4, 1.2] },
      );
    }
    for (const y of [1_350, 1_750, 2_150]) pen.rectangle(0, y, length, 25, seen);
    for (let index = 0; index <= doors; index += 2) {
      const x = Math.min(length - 20, (length * index) / doors);
      pen.rectangle(x, 1_100, 20, 1_500, seen, { grey: 1 });
    }
    for (const [row, y] of [1_375, 1_775, 2_175].entries())
      for (let index = 0; index < 44; index += 1) {
        const x = 90 + index * 142;
        if ((index * 7 + row * 3) % 11 === 0 || Math.abs(((x + 800) % 1_600) - 800) < 75 || x > length - 90)
          continue;
        drawBottle(pen, x, y, 240 + ((index * 5 + row * 2) % 4) * 20);
      }
  });
  pen.layer('Dimensions', () => {
    drawDimensionString(pen, { along: 'x', at: -600, stops: [0, length], object: 0 });
  });
};

/** Where the section cuts the plan, and where the elevations are taken from. */
export const drawViewMarks = (pen: PlanPen): void => {
  const mark = (at: XY, letter: string, towards: XY): void => {
    const radius = 165;
    const [dx, dy] = towards;
    // The pointer's sides touch the ring at 45 degrees, so that it stands clear of the letter.
    const reach = radius * Math.SQRT1_2;
    pen.area(
      [
        [at[0] + dx * 2 * reach, at[1] + dy * 2 * reach],
        [at[0] + (dx - dy) * reach, at[1] + (dy + dx) * reach],
        [at[0] + (dx + dy) * reach, at[1] + (dy - dx) * reach],
      ],
      { grey: 0 },
    );
    pen.circle(at, radius, { pen: 0.25 }, { grey: 1 });
    pen.letter(letter, at, { cap: 2, align: 'centre', vertical: 'middle', bold: true });
  };
  pen.layer('Text', () => {
    const x = 8_050;
    for (const [from, to] of [
      [5_350, 5_050],
      [10_180, 10_480],
    ] as const) {
      pen.line([x, from], [x, to], { pen: 0.5 });
      mark([x, to + Math.sign(to - from) * 165], 'A', [1, 0]);
    }
    mark([11_550, 6_640], 'B', [0, 1]);
    mark([10_100, 8_560], 'C', [0, 1]);
  });
};

import type { PlanPen, XY } from './planPen.ts';

const object = { pen: 0.18 };
const detail = { pen: 0.13, grey: 0.2 };
const hidden = { pen: 0.13, dash: [1.8, 1.2] };

/** The cellar stair: two flights of eight treads with a half landing, going down; the lower flight behind a break line. */
const drawStair = (pen: PlanPen): void => {
  const treads = 8;
  const going = 250;
  const foot = 11_120;
  const landing = foot + treads * going;
  pen.layer('Stairs', () => {
    for (let index = 0; index <= treads; index += 1) {
      const y = foot + index * going;
      pen.line([1_380, y], [2_480, y], object);
      if (index > 3 || index === 0) pen.line([180, y], [1_280, y], index === 0 ? hidden : object);
      else pen.line([180, y], [1_280, y], hidden);
    }
    pen.rectangle(1_280, foot, 100, landing - foot, { pen: 0.25 });
    pen.line([2_480, foot], [2_480, 14_220], { pen: 0.25 });
    pen.line([180, landing], [2_480, landing], object);
    const breakAt = foot + 3.5 * going;
    for (const shift of [0, 70])
      pen.polyline(
        [
          [180, breakAt - 180 + shift],
          [620, breakAt - 20 + shift],
          [660, breakAt - 150 + shift],
          [780, breakAt + 130 + shift],
          [820, breakAt + 20 + shift],
          [1_280, breakAt + 200 + shift],
        ],
        detail,
      );
    const turn = landing + 550;
    pen.circle([1_930, foot - 60], 45, object);
    pen.polyline(
      [
        [1_930, foot - 15],
        [1_930, turn],
        [730, turn],
        [730, foot + 4.6 * going],
      ],
      object,
    );
    pen.area(
      [
        [730, foot + 4.2 * going],
        [660, foot + 4.75 * going],
        [800, foot + 4.75 * going],
      ],
      { grey: 0 },
    );
  });
  pen.layer('Text', () => {
    pen.letter('DN 18R', [2_560, foot + 60], { cap: 1.6 });
  });
};

const drawBasin = (pen: PlanPen, x: number, y: number, width: number, depth: number): void => {
  pen.rectangle(x, y, width, depth, object);
  pen.circle([x + width / 2, y + depth / 2], Math.min(width, depth) * 0.34, detail);
  pen.dot([x + width / 2, y + depth / 2], 18, 0.2);
};

/** A pan with its cistern against a wall; `facing` is the way that its front points. */
const drawPan = (pen: PlanPen, [x, y]: XY, facing: 1 | -1): void => {
  pen.rectangle(x - 190, facing === 1 ? y : y - 180, 380, 180, object);
  const cy = y + facing * 420;
  pen.polyline(
    [
      [x - 130, y + facing * 180],
      [x - 180, cy - facing * 90],
    ],
    object,
  );
  pen.polyline(
    [
      [x + 130, y + facing * 180],
      [x + 180, cy - facing * 90],
    ],
    object,
  );
  pen.arc([x, cy - facing * 90], 180, facing === 1 ? 0 : 180, facing === 1 ? 180 : 360, object);
  pen.circle([x, cy - facing * 90], 120, detail);
};

/** A sink of the kitchen: bowl with rounded look and waste. */
const drawSink = (pen: PlanPen, x: number, y: number, size: number): void => {
  pen.rectangle(x, y, size, size, detail);
  pen.rectangle(x + 35, y + 35, size - 70, size - 70, detail);
  pen.dot([x + size / 2, y + size / 2], 25, 0.2);
};

const drawKitchen = (pen: PlanPen): void => {
  pen.layer('Equipment', () => {
    pen.rectangle(7_460, 13_520, 4_900, 700, { pen: 0.25 });
    for (const x of [8_060, 8_660]) drawSink(pen, x, 13_620, 480);
    for (const x of [9_700, 10_500, 11_400]) pen.line([x, 13_520], [x, 14_220], detail);
    pen.rectangle(7_460, 11_800, 700, 1_720, { pen: 0.25 });
    pen.line([7_460, 12_660], [8_160, 12_660], detail);

    const rangeX = 9_500;
    pen.rectangle(rangeX, 11_750, 3_300, 800, { pen: 0.25 });
    for (const x of [900, 1_700, 2_500]) pen.line([rangeX + x, 11_750], [rangeX + x, 12_550], detail);
    for (const x of [250, 650])
      for (const y of [11_950, 12_350]) {
        pen.circle([rangeX + x, y], 130, detail);
        pen.circle([rangeX + x, y], 60, detail);
      }
    for (let bar = 1; bar < 9; bar += 1)
      pen.line([rangeX + 1_700 + bar * 89, 11_830], [rangeX + 1_700 + bar * 89, 12_470], detail);
    pen.rectangle(rangeX + 2_580, 11_830, 270, 640, detail);
    pen.rectangle(rangeX + 2_950, 11_830, 270, 640, detail);
    pen.rectangle(rangeX - 150, 11_600, 3_600, 1_100, hidden);

    pen.rectangle(14_300, 10_900, 700, 2_400, { pen: 0.25 });
    pen.line([14_300, 11_700], [15_000, 11_700], detail);
    pen.line([14_300, 12_500], [15_000, 12_500], detail);
    drawBasin(pen, 7_460, 11_400, 350, 300);
    pen.rectangle(11_350, 10_020, 1_500, 600, { pen: 0.25 });
    pen.line([12_100, 10_020], [12_100, 10_620], detail);
  });
  pen.layer('Equipment', () => {
    for (const y of [10_060, 10_560, 11_060]) pen.rectangle(3_990, y, 450, 460, detail);
    pen.rectangle(5_950, 13_520, 100, 660, detail);
    for (const x of [4_250, 4_750, 5_250]) pen.circle([x, 13_850], 210, object);
    pen.rectangle(3_990, 12_560, 400, 900, detail);
  });
  pen.layer('Text', () => {
    pen.letter('FALL 1:80', [13_350, 11_100], { cap: 1.5, align: 'centre' });
    pen.rectangle(13_200, 11_330, 300, 300, { pen: 0.18 });
    pen.line([13_200, 11_330], [13_500, 11_630], { pen: 0.13 });
    pen.line([13_200, 11_630], [13_500, 11_330], { pen: 0.13 });
  });
};

const drawToilets = (pen: PlanPen): void => {
  pen.layer('Equipment', () => {
    drawPan(pen, [16_800, 14_220], -1);
    pen.line([17_260, 13_000], [17_260, 13_900], { pen: 0.35 });
    pen.line([16_350, 13_600], [16_350, 14_220], { pen: 0.35 });
    drawBasin(pen, 15_160, 13_250, 400, 500);
    pen.circle([16_150, 12_950], 750, hidden);

    for (const x of [17_960, 19_010, 20_060]) drawPan(pen, [x, 14_220], -1);
    for (const x of [18_485, 19_535]) pen.line([x, 12_750], [x, 14_220], { pen: 0.25 });
    for (const x of [17_440, 18_485, 19_535]) {
      pen.line([x, 12_750], [x + 180, 12_750], { pen: 0.25 });
      pen.line([x + 830, 12_750], [x + 1_045, 12_750], { pen: 0.25 });
      pen.line([x + 180, 12_750], [x + 180, 13_400], { pen: 0.18 });
      pen.arc([x + 180, 12_750], 650, 0, 90, { pen: 0.1, grey: 0.3 });
    }
    for (const y of [11_750, 12_250]) drawBasin(pen, 20_130, y, 430, 420);

    for (const x of [22_180, 23_250]) drawPan(pen, [x, 14_220], -1);
    for (const x of [21_650, 22_720]) pen.line([x, 12_750], [x, 14_220], { pen: 0.25 });
    for (const x of [21_650, 22_720]) {
      pen.line([x, 12_750], [x + 180, 12_750], { pen: 0.25 });
      pen.line([x + 830, 12_750], [x + 1_080, 12_750], { pen: 0.25 });
      pen.line([x + 180, 12_750], [x + 180, 13_400], { pen: 0.18 });
      pen.arc([x + 180, 12_750], 650, 0, 90, { pen: 0.1, grey: 0.3 });
    }
    for (const y of [12_900, 13_500]) {
      pen.rectangle(20_700, y, 330, 360, object);
      pen.circle([20_880, y + 180], 110, detail);
    }
    drawBasin(pen, 23_390, 11_700, 430, 420);
  });
};

/** Everything behind the bar room: stair, kitchen, stores, toilets. */
export const drawBackOfHouse = (pen: PlanPen): void => {
  drawStair(pen);
  drawKitchen(pen);
  drawToilets(pen);
};

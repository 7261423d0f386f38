import type { FitProblem } from '../../src/fitting/problemSchema.ts';

const widths = [600, 900, 1200, 1500, 1800, 2100, 2400];

/**
 * An invented 30 m run with 4 corners, 12 wanted stations, 3 blocked zones and 2 openings, of the kind that the
 * benchmark times. `shiftMm` moves its lengths and wishes a little, so that no two timed problems are the same.
 */
export const longRun = (shiftMm = 0, joint = 2): FitProblem => {
  const station = (id: string, item: string, straight: number, nearMm: number) => ({
    id,
    item,
    straight,
    nearMm: nearMm + shiftMm,
    withinMm: 250,
  });
  return {
    depthMm: 700,
    straights: [
      { lengthMm: 7_420 + shiftMm, uncertaintyMm: 18, blocked: [[3_100, 3_420]] },
      { lengthMm: 4_385 - shiftMm, uncertaintyMm: 12 },
      {
        lengthMm: 9_610 + 2 * shiftMm,
        uncertaintyMm: 22,
        blocked: [[5_200, 5_560]],
        openings: [[2_400, 3_150]],
      },
      { lengthMm: 3_240, uncertaintyMm: 10 },
      {
        lengthMm: 5_345 - 2 * shiftMm,
        uncertaintyMm: 15,
        blocked: [[1_100, 1_280]],
        openings: [[3_600, 4_400]],
      },
    ],
    corners: [{ turnDeg: 90 }, { turnDeg: -90 }, { turnDeg: 90 }, { turnDeg: 90 }],
    ends: [{ kind: 'wall' }, { kind: 'exposed', giveMm: [30, 30] }],
    stock: [
      ...widths.map((widthMm) => ({
        id: `M${widthMm}`,
        widthMm,
        support: 'standing' as const,
        price: 200 + widthMm / 2,
      })),
      { id: 'beer-450', widthMm: 450, support: 'carried', price: 900 },
      { id: 'cocktail-1000', widthMm: 1_000, support: 'standing', fill: false, price: 1_450 },
      { id: 'basket-650', widthMm: 650, support: 'standing', fill: false, price: 700 },
      { id: 'basin-320', widthMm: 320, support: 'drop-in', price: 210 },
      { id: 'blender-300', widthMm: 300, support: 'countertop', price: 120 },
    ],
    cornerUnits: [
      { id: 'C900', sizeMm: 900, price: 800 },
      { id: 'C1000', sizeMm: 1_000, price: 850 },
    ],
    wanted: [
      station('w01', 'beer-450', 0, 1_500),
      station('w02', 'cocktail-1000', 0, 5_200),
      station('w03', 'basin-320', 0, 4_200),
      station('w04', 'beer-450', 1, 1_900),
      station('w05', 'basket-650', 1, 3_100),
      station('w06', 'cocktail-1000', 2, 1_400),
      station('w07', 'beer-450', 2, 7_100),
      station('w08', 'basin-320', 2, 8_300),
      station('w09', 'basket-650', 2, 4_000),
      station('w10', 'blender-300', 3, 1_600),
      station('w11', 'basket-650', 4, 2_400),
      station('w12', 'basin-320', 4, 3_000),
    ],
    allowances: { jointMm: joint, scribeMm: 10, endPanelMm: 20, claddingMm: 18 },
    fillerMaxMm: 150,
    hostMarginMm: 30,
  };
};

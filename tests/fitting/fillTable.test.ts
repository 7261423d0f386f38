import { describe, expect, it } from 'vitest';
import type { FillItem } from '../../src/fitting/fillStock.ts';
import { fillTables } from '../../src/fitting/fillTable.ts';
import { nodeBudget } from '../../src/fitting/nodeBudget.ts';
import {
  DISPLACEMENT,
  FILLERS,
  LEFTOVER,
  MADE_TO_MEASURE,
  PIECES,
  PRICE,
  UNPLACED,
} from '../../src/fitting/scoreVector.ts';
import { type Station, stationEvents } from '../../src/fitting/stationEvents.ts';
import { solveStretch } from '../../src/fitting/stretchSolver.ts';

const standing = (widthUm: number, price = 0): FillItem => ({
  id: `${widthUm}`,
  widthUm,
  carried: false,
  price,
});

const tableOf = (widths: readonly number[], max: number) =>
  fillTables(
    widths.toSorted((a, b) => b - a).map((width) => standing(width)),
    0,
    max,
    false,
    nodeBudget(1e9),
  ).table(true, true);

describe('the fill table', () => {
  it('knows that 43 is the largest sum that 6, 9 and 20 do not make', () => {
    // The Frobenius number of 6, 9, 20: a textbook example, value from memory.
    const table = tableOf([6, 9, 20], 200);
    const missing = Array.from({ length: 200 }, (_, index) => index + 1).filter(
      (sum) => table.indexOf(sum) < 0,
    );
    expect(missing.at(-1)).toBe(43);
  });

  it("misses exactly (a-1)(b-1)/2 sums of two coprime widths, the last of them ab-a-b (Sylvester's theorem)", () => {
    for (const [a, b] of [
      [2, 3],
      [5, 8],
      [7, 12],
      [11, 13],
    ] as const) {
      const table = tableOf([a, b], a * b);
      const missing = Array.from({ length: a * b }, (_, index) => index + 1).filter(
        (sum) => table.indexOf(sum) < 0,
      );
      expect(missing.length).toBe(((a - 1) * (b - 1)) / 2);
      expect(missing.at(-1)).toBe(a * b - a - b);
    }
  });

  it('reaches every multiple of 300 from 600 on with as few modules as number theory says', () => {
    // Widths 600..2400 x 300: minimum modules = ceil(floor(L / 300) / 8), best gap = L mod 300, for L >= 600.
    const table = tableOf([600, 900, 1200, 1500, 1800, 2100, 2400], 20_000);
    for (let length = 600; length <= 20_000; length += 1) {
      const at = table.floorIndex(length);
      expect(length - table.sums[at]!).toBe(length % 300);
      expect(table.pieces[at]).toBe(Math.ceil(Math.floor(length / 300) / 8));
    }
  });

  it('never puts two carried pieces side by side, nor one where a standing piece must be', () => {
    const items = [standing(5), { ...standing(3), id: 'c', carried: true }];
    const tables = fillTables(items, 0, 40, false, nodeBudget(1e9));
    expect(tables.table(true, true).indexOf(3)).toBe(-1);
    expect(tables.table(false, false).indexOf(3)).toBeGreaterThanOrEqual(0);
    expect(tables.table(false, false).indexOf(6)).toBe(-1);
    expect(tables.table(true, true).indexOf(13)).toBeGreaterThanOrEqual(0);
    expect(tables.table(true, false).indexOf(8)).toBeGreaterThanOrEqual(0);
    const at = tables.table(true, true).indexOf(21);
    expect(
      tables
        .table(true, true)
        .itemsAt(at)
        .map(({ id }) => id),
    ).toEqual(['5', 'c', '5', 'c', '5']);
  });
});

/** Items that may each be taken once: as wanted stations that may stand anywhere between two walls. */
const solveOnce = (
  capacity: number,
  weights: readonly number[],
  profits: readonly number[],
  order: readonly number[],
) => {
  const stations = weights.map(
    (widthUm, index): Station => ({
      key: index,
      id: `${index}`,
      item: `${index}`,
      bit: 2 ** index,
      widthUm,
      support: 'standing',
      price: -profits[index]!,
      fromMinUm: 0,
      fromMaxUm: capacity - widthUm,
      twiceWantedFromUm: 0,
      weight: 1,
    }),
  );
  const budget = nodeBudget(1e9);
  const layout = solveStretch(
    {
      straight: 0,
      left: 'wall',
      right: 'wall',
      leftMinUm: 0,
      leftUm: 0,
      leftMaxUm: 0,
      rightMinUm: capacity,
      rightUm: capacity,
      rightMaxUm: capacity,
      uncertaintyUm: 0,
    },
    {
      tables: fillTables([], 0, capacity, false, budget),
      fillerMaxUm: capacity,
      order,
      longestIsBest: false,
      events: stationEvents(stations, [], 0, budget),
      fill: [],
      sharedBits: 0,
      budget,
      pairingSteps: 1e9,
    },
  ).get(0);
  expect(budget.isExhausted()).toBe(false);
  return layout!;
};

const others = [UNPLACED, MADE_TO_MEASURE, FILLERS, PIECES, DISPLACEMENT];

describe('published instances through the same kernel', () => {
  // J. Burkardt, KNAPSACK_01 data sets P01 to P06: capacities and optima as listed there; weights and profits from memory.
  const knapsacks = [
    ['P01', 165, [23, 31, 29, 44, 53, 38, 63, 85, 89, 82], [92, 57, 49, 68, 60, 43, 67, 84, 87, 72], 309],
    ['P02', 26, [12, 7, 11, 8, 9], [24, 13, 23, 15, 16], 51],
    ['P03', 190, [56, 59, 80, 64, 75, 17], [50, 50, 64, 46, 50, 5], 150],
    ['P04', 50, [31, 10, 20, 19, 4, 3, 6], [70, 20, 39, 37, 7, 5, 10], 107],
    ['P05', 104, [25, 35, 45, 5, 25, 3, 2, 2], [350, 400, 450, 20, 70, 8, 5, 5], 900],
    ['P06', 170, [41, 50, 49, 59, 55, 57, 60], [442, 525, 511, 593, 546, 564, 617], 1_735],
  ] as const;
  for (const [name, capacity, weights, profits, optimum] of knapsacks) {
    it(`finds the best profit of knapsack ${name}`, () => {
      const layout = solveOnce(capacity, weights, profits, [PRICE, LEFTOVER, ...others]);
      expect(-layout.score[PRICE]!).toBe(optimum);
    });
  }

  // J. Burkardt, SUBSET_SUM data set P01: values from memory; the target is reachable (15 + 22 + 16).
  for (const [name, target, weights] of [['P01', 53, [15, 22, 14, 26, 32, 9, 16, 8]]] as const) {
    it(`reaches the target of subset sum ${name} exactly`, () => {
      const layout = solveOnce(
        target,
        weights,
        weights.map(() => 0),
        [LEFTOVER, PRICE, ...others],
      );
      expect(layout.score[LEFTOVER]).toBe(0);
      const sum = layout.sequence.reduce((total, { event }) => total + event!.widthUm, 0);
      expect(sum).toBe(target);
    });
  }
});

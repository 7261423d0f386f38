import type { FillItem } from './fillStock.ts';
import type { NodeBudget } from './nodeBudget.ts';

/**
 * The best filling of every length that the fill stock can make exactly. A length here is the sum of width + joint
 * over its pieces, so that lengths add; `sums` is ascending and starts above 0.
 */
export interface FillTable {
  readonly sums: Float64Array;
  readonly pieces: Float64Array;
  readonly prices: Float64Array;
  /** The pieces of entry `index`, the lexicographically widest of the best. */
  readonly itemsAt: (index: number) => readonly FillItem[];
  /** The index of a sum, or -1. */
  readonly indexOf: (sumUm: number) => number;
  /** The index of the greatest sum at most this, or -1. */
  readonly floorIndex: (sumUm: number) => number;
}

/** Fill tables by what stands beside: `table(true, …)` where the first piece must be standing, likewise the last. */
export interface FillTables {
  readonly jointUm: number;
  readonly table: (firstMustStand: boolean, lastMustStand: boolean) => FillTable;
}

/** More sums than this are not kept, and no more than this many pairs of a sum and an item are tried. */
const maxSums = 1_500_000;
const maxTries = 100_000_000;
const maxCells = 4_000_000;

const greatestCommonDivisor = (a: number, b: number): number =>
  b === 0 ? a : greatestCommonDivisor(b, a % b);

/** Every reachable sum up to `maxUm`, ascending; nothing where there are too many to keep or to try. */
const reachableSums = (steps: readonly number[], maxUm: number): Float64Array | undefined => {
  if (steps.length === 0) return new Float64Array(0);
  const unit = steps.reduce(greatestCommonDivisor);
  const cells = Math.floor(maxUm / unit);
  const most = Math.min(maxSums, maxTries / steps.length);
  if (cells > maxCells || cells * steps.length > maxTries) return reachableSumsSparse(steps, maxUm, most);
  const scaled = steps.map((step) => step / unit);
  const reached = new Uint8Array(cells + 1);
  reached[0] = 1;
  let count = 0;
  for (let cell = 1; cell <= cells; cell += 1) {
    if (scaled.some((step) => step <= cell && reached[cell - step] === 1)) {
      reached[cell] = 1;
      count += 1;
    }
  }
  if (count > most) return undefined;
  const sums = new Float64Array(count);
  let at = 0;
  for (let cell = 1; cell <= cells; cell += 1) {
    if (reached[cell] === 1) {
      sums[at] = cell * unit;
      at += 1;
    }
  }
  return sums;
};

const reachableSumsSparse = (
  steps: readonly number[],
  maxUm: number,
  most: number,
): Float64Array | undefined => {
  const seen = new Set<number>([0]);
  for (const from of seen) {
    for (const step of steps) if (from + step <= maxUm) seen.add(from + step);
    if (seen.size > most) return undefined;
  }
  seen.delete(0);
  return Float64Array.from(seen).sort();
};

/**
 * The fill stock that can be tabled in bounded time and memory: all of it, or, for a long run and a range of very many
 * or very odd widths, every other width of it until it can. Then the budget is spent, so that the answer is `stopped`.
 */
const tabledStock = (
  items: readonly FillItem[],
  jointUm: number,
  maxUm: number,
  budget: NodeBudget,
): { readonly items: readonly FillItem[]; readonly sums: Float64Array } => {
  for (let kept = items; ; kept = kept.filter((_, index) => index % 2 === 0)) {
    const sums = reachableSums([...new Set(kept.map((item) => item.widthUm + jointUm))], maxUm);
    if (sums !== undefined) return { items: kept, sums };
    budget.giveUpProof();
    if (kept.length === 1) return { items: [], sums: new Float64Array(0) };
  }
};

const floorIndexIn = (sums: Float64Array, sumUm: number): number => {
  let low = 0;
  let high = sums.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sums[middle]! <= sumUm) low = middle + 1;
    else high = middle;
  }
  return low - 1;
};

/** For each sum and kind of first piece (0 standing, 1 carried): fewest pieces, price and first item. */
interface Layer {
  readonly pieces: Float64Array;
  readonly prices: Float64Array;
  readonly first: Int32Array;
}

const emptyLayer = (count: number): Layer => ({
  pieces: new Float64Array(count).fill(Number.POSITIVE_INFINITY),
  prices: new Float64Array(count).fill(Number.POSITIVE_INFINITY),
  first: new Int32Array(count).fill(-1),
});

/**
 * Builds the layers for one rule about the last piece. An unbounded knapsack over the reachable sums: the classic
 * recurrence best(x) = min over items of best(x - width - joint) + item, once per kind of first piece, because a
 * carried piece may not stand next to another carried one.
 */
const buildLayers = (
  items: readonly FillItem[],
  jointUm: number,
  sums: Float64Array,
  priceFirst: boolean,
  lastMustStand: boolean,
  indexOf: (sumUm: number) => number,
): readonly [Layer, Layer] => {
  const layers = [emptyLayer(sums.length), emptyLayer(sums.length)] as const;
  for (let at = 0; at < sums.length; at += 1) {
    const sum = sums[at]!;
    for (const [itemIndex, item] of items.entries()) {
      const layer = layers[item.carried ? 1 : 0];
      const rest = sum - item.widthUm - jointUm;
      if (rest < 0) continue;
      let pieces = 1;
      let price = item.price;
      if (rest === 0) {
        if (item.carried && lastMustStand) continue;
      } else {
        const from = indexOf(rest);
        if (from < 0) continue;
        const [standing, carried] = layers;
        const next =
          item.carried ||
          !isBetter(
            carried.pieces[from]!,
            carried.prices[from]!,
            standing.pieces[from]!,
            standing.prices[from]!,
            priceFirst,
          )
            ? standing
            : carried;
        if (next.first[from]! < 0) continue;
        pieces += next.pieces[from]!;
        price += next.prices[from]!;
      }
      // Items come widest first, so that of equals the widest stays.
      if (isBetter(pieces, price, layer.pieces[at]!, layer.prices[at]!, priceFirst)) {
        layer.pieces[at] = pieces;
        layer.prices[at] = price;
        layer.first[at] = itemIndex;
      }
    }
  }
  return layers;
};

const isBetter = (
  pieces: number,
  price: number,
  otherPieces: number,
  otherPrice: number,
  priceFirst: boolean,
): boolean =>
  priceFirst
    ? price < otherPrice || (price === otherPrice && pieces < otherPieces)
    : pieces < otherPieces || (pieces === otherPieces && price < otherPrice);

const buildTable = (
  items: readonly FillItem[],
  jointUm: number,
  sums: Float64Array,
  priceFirst: boolean,
  firstMustStand: boolean,
  lastMustStand: boolean,
  indexIn: (sumUm: number) => number,
): FillTable => {
  const layers = buildLayers(items, jointUm, sums, priceFirst, lastMustStand, indexIn);
  const [standing, carried] = layers;
  const carriedWins = (at: number): boolean =>
    isBetter(
      carried.pieces[at]!,
      carried.prices[at]!,
      standing.pieces[at]!,
      standing.prices[at]!,
      priceFirst,
    );
  const kept: number[] = [];
  for (let at = 0; at < sums.length; at += 1) {
    if (standing.first[at]! >= 0 || (!firstMustStand && carried.first[at]! >= 0)) kept.push(at);
  }
  const keptSums = Float64Array.from(kept, (at) => sums[at]!);
  const layerAt = (at: number) => (!firstMustStand && carriedWins(at) ? carried : standing);
  const floorIndex = (sumUm: number) => floorIndexIn(keptSums, sumUm);
  return {
    sums: keptSums,
    pieces: Float64Array.from(kept, (at) => layerAt(at).pieces[at]!),
    prices: Float64Array.from(kept, (at) => layerAt(at).prices[at]!),
    floorIndex,
    indexOf: (sumUm) => {
      const at = floorIndex(sumUm);
      return at >= 0 && keptSums[at] === sumUm ? at : -1;
    },
    itemsAt: (index) => {
      const list: FillItem[] = [];
      let rest = keptSums[index]!;
      let at = kept[index]!;
      let layer = layerAt(at);
      for (;;) {
        const item = items[layer.first[at]!]!;
        list.push(item);
        rest -= item.widthUm + jointUm;
        if (rest === 0) return list;
        at = indexIn(rest);
        layer = item.carried || !carriedWins(at) ? standing : carried;
      }
    },
  };
};

/**
 * Fill tables up to `maxUm` for a fill stock (widest first). `priceFirst` says whether price counts before pieces.
 *
 * @example fillTables(fillStock(problem), 0, 6_248_000, false, budget).table(true, true).floorIndex(6_248_000)
 */
export const fillTables = (
  stock: readonly FillItem[],
  jointUm: number,
  maxUm: number,
  priceFirst: boolean,
  budget: NodeBudget,
): FillTables => {
  const { items, sums } = tabledStock(stock, jointUm, maxUm, budget);
  const index = new Map<number, number>();
  for (let at = 0; at < sums.length; at += 1) index.set(sums[at]!, at);
  const indexIn = (sumUm: number) => index.get(sumUm) ?? -1;
  const hasCarried = items.some((item) => item.carried);
  const made = new Map<string, FillTable>();
  return {
    jointUm,
    table: (firstMustStand, lastMustStand) => {
      const key = hasCarried ? `${firstMustStand}/${lastMustStand}` : '';
      let table = made.get(key);
      if (table === undefined) {
        table = buildTable(items, jointUm, sums, priceFirst, firstMustStand, lastMustStand, indexIn);
        made.set(key, table);
      }
      return table;
    },
  };
};

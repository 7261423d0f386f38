import { fillStock } from './fillStock.ts';
import { fillTables } from './fillTable.ts';
import type { FitWords } from './fitWords.ts';
import { listText } from './lengthText.ts';
import { micrometres } from './micrometre.ts';
import { nodeBudget } from './nodeBudget.ts';
import type { FitProblem } from './problemSchema.ts';
import { type Stretch, stretchesOf } from './stretch.ts';

interface Made {
  readonly madeUm: number;
  readonly awayUm: number;
  readonly nearest: string;
  readonly beside: readonly { readonly id: string; readonly widthUm: number }[];
}

/** "3 x M2400 and M600". */
const counted = (beside: Made['beside']): string => {
  const counts = new Map<string, number>();
  for (const { id } of beside) counts.set(id, (counts.get(id) ?? 0) + 1);
  return listText([...counts].map(([id, count]) => (count > 1 ? `${count} x ${id}` : id)));
};

/** Nearest to a stock width first, then fewest pieces, then the widest stock beside it. */
const isBetter = (a: Made, b: Made): boolean => {
  if (a.awayUm !== b.awayUm) return a.awayUm < b.awayUm;
  if (a.beside.length !== b.beside.length) return a.beside.length < b.beside.length;
  for (const [at, { widthUm }] of a.beside.entries()) {
    const other = b.beside[at]!.widthUm;
    if (widthUm !== other) return widthUm > other;
  }
  return false;
};

/**
 * Between exposed ends that the stock can't meet: the made-to-measure module nearest to a stock width, no wider than
 * `maxWidthMm`, with the fewest and widest stock pieces beside it.
 */
export const exposedQuestion = (problem: FitProblem, words: FitWords): string | undefined => {
  if (problem.straights.length !== 1) return undefined;
  const stretches: readonly Stretch[] = stretchesOf(problem, 0, undefined, undefined) ?? [];
  const stretch = stretches.find(({ left, right }) => left === 'exposed' && right === 'exposed');
  if (stretch === undefined) return undefined;
  const fill = fillStock(problem).filter((item) => !item.carried);
  const jointUm = micrometres(problem.allowances?.jointMm ?? 0);
  const lengthUm = stretch.rightUm - stretch.leftUm;
  const shortestUm = stretch.rightMinUm - stretch.leftMaxUm;
  const longestUm = stretch.rightMaxUm - stretch.leftMinUm;
  const widestUm = micrometres(problem.maxWidthMm ?? Number.MAX_SAFE_INTEGER / 1_000_000);
  const table = fillTables(fill, jointUm, longestUm + jointUm, false, nodeBudget(1_000_000)).table(
    true,
    true,
  );
  let best: Made | undefined;
  for (let at = -1; at < table.sums.length; at += 1) {
    const besideUm = at < 0 ? 0 : table.sums[at]!;
    const lowUm = Math.max(1, shortestUm - besideUm);
    const highUm = Math.min(longestUm - besideUm, widestUm);
    if (highUm < lowUm) continue;
    for (const item of fill) {
      // At the nominal length where the ends need not move; the give is spent only to come nearer to a stock width.
      const madeUm = Math.min(Math.max(item.widthUm, lowUm), highUm);
      const awayUm = Math.abs(madeUm - item.widthUm);
      if (best !== undefined && awayUm > best.awayUm) continue;
      const beside = at < 0 ? [] : table.itemsAt(at);
      const made = { madeUm, awayUm, nearest: item.id, beside };
      if (best === undefined || isBetter(made, best)) best = made;
    }
  }
  const all = words.length(Math.max(1, lengthUm));
  if (best === undefined) {
    return lengthUm > widestUm
      ? `Between the two exposed ends no made-to-measure module of up to ${words.length(widestUm)} closes ${all}.`
      : `Between the two exposed ends only one made-to-measure module of ${all} closes ${all}.`;
  }
  const beside = best.beside.length === 0 ? '' : ` beside ${counted(best.beside)}`;
  return `Between the two exposed ends the nearest made-to-measure module is ${words.length(best.madeUm)}${beside} (${words.length(best.awayUm)} from ${best.nearest}); with it the length of ${all} comes out.`;
};

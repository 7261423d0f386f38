import { isConfirmed, layoutAtLength } from './confirmLeftovers.ts';
import { fillStock } from './fillStock.ts';
import { type FillTables, fillTables } from './fillTable.ts';
import { leftoverVerdict } from './leftoverVerdict.ts';
import { lengthText, listText } from './lengthText.ts';
import { micrometres } from './micrometre.ts';
import { nodeBudget } from './nodeBudget.ts';
import type { FitProblem } from './problemSchema.ts';
import type { RunLayout, RunSolution } from './runSolver.ts';
import { MADE_TO_MEASURE } from './scoreVector.ts';
import type { StraightSolver } from './straightSolver.ts';
import { type Stretch, stretchesOf } from './stretch.ts';
import { type StretchLayout, widthOf } from './stretchLayout.ts';

const idOf = (piece: StretchLayout['sequence'][number]): string =>
  piece.event ? piece.event.item : piece.item.id;

/** "M1500", "2 x M900": the pieces that the second layout has and the first has not. */
const addedPieces = (before: StretchLayout, after: StretchLayout): readonly string[] => {
  const left = before.sequence.map(idOf);
  const added = new Map<string, number>();
  for (const id of after.sequence.map(idOf)) {
    const at = left.indexOf(id);
    if (at >= 0) left.splice(at, 1);
    else added.set(id, (added.get(id) ?? 0) + 1);
  }
  return [...added].map(([id, count]) => (count > 1 ? `${count} x ${id}` : id));
};

/** The smallest lengthening at which some gap of the stretch closes with one more or wider piece. */
const lengthenings = (layout: StretchLayout, tables: FillTables): readonly number[] => {
  const joint = tables.jointUm;
  const spareUm = layout.leftUm + layout.rightUm;
  const table = tables.table(false, false);
  const byUm = new Set<number>();
  // Replace any run of fill pieces by another sum: the difference less what is left over is what is missing.
  const gaps = new Set<number>([0]);
  let gapUm = 0;
  for (const piece of layout.sequence) {
    gapUm = piece.event ? 0 : gapUm + widthOf(piece) + joint;
    gaps.add(gapUm);
  }
  for (const gap of gaps) {
    const empty = layout.sequence.length === 0 ? -joint : 0;
    const next = table.sums[table.floorIndex(gap + spareUm - empty) + 1];
    if (next !== undefined) byUm.add(next + empty - gap - spareUm);
  }
  return [...byUm].filter((by) => by > 0).sort((a, b) => a - b);
};

/** "5 mm more on straight 2 and a 1200 replaces the made-to-measure piece", and what less would do. */
const closingLengths = (
  solver: StraightSolver,
  layout: StretchLayout,
  tables: FillTables,
  fillerMaxUm: number,
): string | undefined => {
  const { stretch, leftUm, rightUm } = layout;
  const totalUm = leftUm + rightUm;
  const name = `straight ${stretch.straight + 1}`;
  const what =
    leftoverVerdict(totalUm, totalUm, stretch.uncertaintyUm, fillerMaxUm) === 'made-to-measure' &&
    layout.score[MADE_TO_MEASURE]! > 0
      ? 'made-to-measure piece'
      : 'leftover';
  const options: string[] = [];
  for (const byUm of lengthenings(layout, tables)) {
    const longer = layoutAtLength(solver, layout, byUm);
    if (longer === undefined || longer.leftUm + longer.rightUm > 0) continue;
    const added = listText(addedPieces(layout, longer));
    const removed = listText(addedPieces(longer, layout));
    const instead = removed === '' ? '' : ` instead of ${removed}`;
    const by = added === '' ? `the ${what} goes` : `using ${added}${instead} replaces the ${what}`;
    options.push(`${lengthText(byUm)} mm more on ${name} and ${by}`);
    break;
  }
  options.push(`${lengthText(totalUm)} mm less on ${name} and the ${what} goes`);
  return `${options.join('; ')}.`;
};

const measureQuestion = (
  layout: StretchLayout,
  solver: StraightSolver,
  fillerMaxUm: number,
): string | undefined => {
  const { stretch, leftUm, rightUm } = layout;
  const totalUm = leftUm + rightUm;
  if (stretch.uncertaintyUm === 0) return undefined;
  const within = `+/- ${lengthText(stretch.uncertaintyUm)} mm`;
  if (totalUm === 0) {
    if (layout.sequence.length === 0) return undefined;
    return `Measure straight ${stretch.straight + 1} on site: its pieces fill it exactly, and the drawing is only sure to ${within}.`;
  }
  if (isConfirmed(solver, layout, fillerMaxUm)) return undefined;
  return `Measure straight ${stretch.straight + 1} on site: ${lengthText(totalUm)} mm is left over, and the drawing is only sure to ${within}, which could change the pieces or the verdict.`;
};

/** What would change the answer: nearest lengths that come out, and what to measure because the drawing is not sure. */
export const fitQuestions = (
  problem: FitProblem,
  solution: RunSolution,
  run: RunLayout,
): readonly string[] => {
  const fillerMaxUm = micrometres(problem.fillerMaxMm);
  const closing: string[] = [];
  const measuring: string[] = [];
  for (const layout of run.straights.flatMap((straight) => straight.layouts)) {
    const solver = solution.solvers[layout.stretch.straight]!;
    if (layout.leftUm + layout.rightUm > layout.stretch.uncertaintyUm) {
      const question = closingLengths(solver, layout, solution.tables, fillerMaxUm);
      if (question) closing.push(question);
    }
    const question = measureQuestion(layout, solver, fillerMaxUm);
    if (question) measuring.push(question);
  }
  return [...closing, ...new Set(measuring)];
};

/** Between exposed ends that the stock can't meet: the made-to-measure module nearest to a stock width. */
export const exposedQuestion = (problem: FitProblem): string | undefined => {
  if (problem.straights.length !== 1) return undefined;
  const stretches: readonly Stretch[] = stretchesOf(problem, 0, undefined, undefined) ?? [];
  const stretch = stretches.find(({ left, right }) => left === 'exposed' && right === 'exposed');
  if (stretch === undefined) return undefined;
  const fill = fillStock(problem).filter((item) => !item.carried);
  const jointUm = micrometres(problem.allowances?.jointMm ?? 0);
  const lengthUm = stretch.rightUm - stretch.leftUm;
  const shortestUm = stretch.rightMinUm - stretch.leftMaxUm;
  const longestUm = stretch.rightMaxUm - stretch.leftMinUm;
  const table = fillTables(fill, jointUm, longestUm + jointUm, false, nodeBudget(1_000_000)).table(
    true,
    true,
  );
  let best: { madeUm: number; besides: string; awayUm: number; nearest: string } | undefined;
  for (let at = -1; at < table.sums.length; at += 1) {
    const besideUm = at < 0 ? 0 : table.sums[at]!;
    for (const item of fill) {
      const lowUm = Math.max(1, shortestUm - besideUm);
      const highUm = longestUm - besideUm;
      if (highUm < lowUm) continue;
      // At the nominal length where the ends need not move; the give is spent only to come nearer to a stock width.
      const madeUm = Math.min(Math.max(item.widthUm, lowUm), highUm);
      const awayUm = Math.abs(madeUm - item.widthUm);
      if (best !== undefined && awayUm >= best.awayUm) continue;
      const besides = at < 0 ? '' : ` beside ${listText(table.itemsAt(at).map(({ id }) => id))}`;
      best = { madeUm, besides, awayUm, nearest: item.id };
    }
  }
  const allUm = Math.max(1, lengthUm);
  if (best === undefined) {
    return `Between the two exposed ends only one made-to-measure module of ${lengthText(allUm)} mm closes ${lengthText(allUm)} mm.`;
  }
  return `Between the two exposed ends the nearest made-to-measure module is ${lengthText(best.madeUm)} mm${best.besides} (${lengthText(best.awayUm)} mm from ${best.nearest}); with it the length of ${lengthText(allUm)} mm comes out.`;
};

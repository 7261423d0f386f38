import { isConfirmed, layoutAtLength } from './confirmLeftovers.ts';
import type { FillTables } from './fillTable.ts';
import type { FitWords } from './fitWords.ts';
import { leftoverVerdict } from './leftoverVerdict.ts';
import { listText } from './lengthText.ts';
import { micrometres } from './micrometre.ts';
import type { FitProblem } from './problemSchema.ts';
import type { RunLayout, RunSolution } from './runSolver.ts';
import { MADE_TO_MEASURE } from './scoreVector.ts';
import type { StraightSolver } from './straightSolver.ts';
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
  words: FitWords,
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
    options.push(`${words.length(byUm)} more on ${name} and ${by}`);
    break;
  }
  options.push(`${words.length(totalUm)} less on ${name} and the ${what} goes`);
  return `${options.join('; ')}.`;
};

const measureQuestion = (
  layout: StretchLayout,
  solver: StraightSolver,
  fillerMaxUm: number,
  words: FitWords,
): string | undefined => {
  const { stretch, leftUm, rightUm } = layout;
  const totalUm = leftUm + rightUm;
  if (stretch.uncertaintyUm === 0) return undefined;
  const within = words.plusMinus(stretch.uncertaintyUm);
  if (totalUm === 0) {
    if (layout.sequence.length === 0) return undefined;
    return `Measure straight ${stretch.straight + 1} on site: its pieces fill it exactly, and the drawing is only sure to ${within}.`;
  }
  if (isConfirmed(solver, layout, fillerMaxUm)) return undefined;
  return `Measure straight ${stretch.straight + 1} on site: ${words.length(totalUm)} is left over, and the drawing is only sure to ${within}, which could change the pieces or the verdict.`;
};

/** What would change the answer: nearest lengths that come out, and what to measure because the drawing is not sure. */
export const fitQuestions = (
  problem: FitProblem,
  solution: RunSolution,
  run: RunLayout,
  words: FitWords,
): readonly string[] => {
  const fillerMaxUm = micrometres(problem.fillerMaxMm);
  const closing: string[] = [];
  const measuring: string[] = [];
  for (const layout of run.straights.flatMap((straight) => straight.layouts)) {
    const solver = solution.solvers[layout.stretch.straight]!;
    const { tables } = solution.onStraights[layout.stretch.straight]!;
    if (layout.leftUm + layout.rightUm > layout.stretch.uncertaintyUm) {
      const question = closingLengths(solver, layout, tables, fillerMaxUm, words);
      if (question) closing.push(question);
    }
    const question = measureQuestion(layout, solver, fillerMaxUm, words);
    if (question) measuring.push(question);
  }
  return [...closing, ...new Set(measuring)];
};

import type { FitAlternative, FitPiece } from './fitAnswer.ts';
import type { FitWords } from './fitWords.ts';
import { listText } from './lengthText.ts';
import { micrometres } from './micrometre.ts';
import type { FitProblem } from './problemSchema.ts';
import { ruledItems } from './ruledItems.ts';

interface Widening {
  readonly leftover: number;
  readonly piece: number;
  readonly saved: number;
  readonly words: string;
}

const rounded = (price: number): number => Math.round(price * 10_000) / 10_000;

/** The module beside a made-to-measure leftover that is made wider for the least: the widest of equals. */
const wideningOf = (
  problem: FitProblem,
  fit: FitAlternative,
  index: number,
  sentence: FitWords,
): Widening | undefined => {
  const rule = problem.madeToMeasure!;
  const leftover = fit.leftovers[index]!;
  if (leftover.verdict !== 'made-to-measure' || leftover.widthMm > rule.wideningMaxMm) return undefined;
  // What is left over beside it would close, were it the only leftover of its stretch.
  const { uncertaintyMm = 0 } = problem.straights[leftover.straight]!;
  const hasSmall = fit.leftovers.some(
    (other) =>
      other.straight === leftover.straight && other.widthMm <= uncertaintyMm && other.verdict !== 'closes',
  );
  if (hasSmall) return undefined;
  const stock = new Map(problem.stock.map((item) => [item.id, item]));
  const ruled = ruledItems(problem);
  const touches = (piece: FitPiece) =>
    piece.straight === leftover.straight &&
    (micrometres(piece.toMm) === micrometres(leftover.fromMm) ||
      micrometres(piece.fromMm) === micrometres(leftover.toMm));
  const [best] = fit.pieces
    .map((piece, at) => ({ piece, at, widthMm: piece.toMm - piece.fromMm + leftover.widthMm }))
    .filter(
      ({ piece, widthMm }) =>
        touches(piece) &&
        piece.wanted === undefined &&
        stock.get(piece.item)!.support === 'standing' &&
        !ruled.has(piece.item) &&
        (problem.maxWidthMm === undefined || widthMm <= problem.maxWidthMm),
    )
    .sort((a, b) => b.widthMm - a.widthMm || a.at - b.at);
  if (best === undefined) return undefined;
  const made = rounded(rule.price + rule.pricePerMm * leftover.widthMm);
  const saved = rounded(made - rule.wideningPrice);
  const difference = saved >= 0 ? `${saved} less` : `${-saved} more`;
  return {
    leftover: index,
    piece: best.at,
    saved,
    words: `${best.piece.item} on straight ${leftover.straight + 1} made ${sentence.bare(micrometres(best.widthMm))} wide for ${rule.wideningPrice}, instead of a made-to-measure piece of ${sentence.bare(micrometres(leftover.widthMm))} for ${made}: ${difference}`,
  };
};

/**
 * The same fit with modules made wider in place of the made-to-measure pieces beside them, or nothing where no module
 * serves. A module made wider is made to measure itself and counts as such; what it takes up is no leftover any more.
 * Wanted stations and pieces that rules speak of stay as they are, and so does a straight that passes columns or is an
 * arc.
 */
export const widenedFit = (
  problem: FitProblem,
  fit: FitAlternative,
  sentence: FitWords,
): FitAlternative | undefined => {
  if (problem.madeToMeasure === undefined) return undefined;
  const passed = new Set((fit.passedColumns ?? []).map(({ straight }) => straight));
  const taken = new Set<number>();
  const widenings = fit.leftovers.flatMap(({ straight }, index) => {
    const isArc = problem.straights[straight]!.arc !== undefined;
    const widening = isArc || passed.has(straight) ? undefined : wideningOf(problem, fit, index, sentence);
    if (widening === undefined || taken.has(widening.piece)) return [];
    taken.add(widening.piece);
    return [widening];
  });
  if (widenings.length === 0) return undefined;
  const pieces = fit.pieces.map((piece, at) => {
    const widening = widenings.find((one) => one.piece === at);
    if (widening === undefined) return piece;
    const leftover = fit.leftovers[widening.leftover]!;
    return {
      ...piece,
      fromMm: Math.min(piece.fromMm, leftover.fromMm),
      toMm: Math.max(piece.toMm, leftover.toMm),
      widenedMm: leftover.widthMm,
    };
  });
  const gone = new Set(widenings.map(({ leftover }) => leftover));
  const takenUpMm = widenings.reduce((sum, { leftover }) => sum + fit.leftovers[leftover]!.widthMm, 0);
  return {
    ...fit,
    reason: `No made-to-measure piece beside a module: ${listText(widenings.map(({ words }) => words))}.`,
    pieces,
    leftovers: fit.leftovers.filter((_, index) => !gone.has(index)),
    score: {
      ...fit.score,
      leftoverMm: rounded(fit.score.leftoverMm - takenUpMm),
      price: rounded(fit.score.price + widenings.length * problem.madeToMeasure.wideningPrice),
    },
  };
};

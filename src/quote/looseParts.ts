import { checkWayIn } from '../access/checkWayIn.ts';
import { looseBox, travellingMadeToMeasure } from '../access/travellingPiece.ts';
import type { AccessPiece, Obstacle } from '../access/wayInSchema.ts';
import type { FitAlternative } from '../fitting/fitAnswer.ts';
import type { FitProblem } from '../fitting/problemSchema.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { frontStretches } from './frontStretches.ts';
import { pieceMarks } from './pieceMarks.ts';

/** What comes to site beside the pieces of a fit, without a place of its own among them. */
export interface LoosePart {
  readonly what: string;
  readonly kind: 'filler' | 'end-panel' | 'shelf';
  readonly piece: AccessPiece;
}

/** A loose part on a way in. */
export interface LoosePartVerdict extends LoosePart {
  readonly passes: boolean;
  readonly sure: boolean;
  readonly limitedByName: string | null;
  /** The longest of its section that comes in, packed. */
  readonly longestMm: number;
}

const figure = (mm: number): string => String(Math.round(mm));

/**
 * The loose parts of a fit with their packed sizes: fillers as if they came made up, as wide as the filler, as deep as
 * the run and as high as its top; end panels lying flat; the serving shelf in one length per stretch of front. The
 * range's own depths, heights and thicknesses are taken; that parts are packed so is common practice, no source.
 *
 * Their masses are not judged: none decides a passage, and a lift's load is held against pieces.
 */
export const looseParts = (
  run: { readonly number: number; readonly name: string },
  problem: FitProblem,
  alternative: FitAlternative,
  range: StockRange,
): readonly LoosePart[] => {
  const { heights } = range;
  const { depthMm } = problem;
  const marks = pieceMarks(run.number, alternative);
  const fillers = alternative.leftovers.flatMap(({ verdict, widthMm }, index): LoosePart[] => {
    if (verdict !== 'filler') return [];
    const mark = marks.leftovers[index] ?? '';
    const { piece } = travellingMadeToMeasure(range, widthMm, problem, mark);
    return [{ what: `${mark} Filler ${figure(widthMm)}`, kind: 'filler', piece }];
  });
  const exposed = problem.ends.filter(({ kind }) => kind === 'exposed').length;
  const endPanelMm = problem.allowances?.endPanelMm ?? range.allowances.endPanelMm;
  const panel = `${exposed === 1 ? 'End panel' : `${exposed} end panels`} of ${run.name}`;
  const endPanels: readonly LoosePart[] =
    exposed === 0 || endPanelMm <= 0
      ? []
      : [
          {
            what: panel,
            kind: 'end-panel',
            piece: looseBox(panel, heights.topMm, depthMm, endPanelMm, range.extras.endPanel.massKg ?? 0),
          },
        ];
  const hasShelf = heights.shelfDepthMm > 0 && heights.shelfThicknessMm > 0;
  const shelves = hasShelf
    ? frontStretches(problem, alternative).map(({ straight, fromMm, toMm }): LoosePart => {
        const lengthMm = toMm - fromMm;
        const what = `Serving shelf ${figure(lengthMm)} of ${run.name}, straight ${straight + 1}`;
        const piece = looseBox(what, lengthMm, heights.shelfDepthMm, heights.shelfThicknessMm, 0);
        return { what, kind: 'shelf', piece };
      })
    : [];
  return [...fillers, ...endPanels, ...shelves];
};

/** Judges loose parts on a way in; a lift's rated load is left out of it. */
export const loosePartVerdicts = (
  obstacles: readonly Obstacle[],
  parts: readonly LoosePart[],
): readonly LoosePartVerdict[] => {
  const answers = checkWayIn({
    obstacles,
    pieces: parts.map(({ piece }) => ({ ...piece, massKg: 0 })),
  }).pieces;
  return parts.map((part, index) => {
    const { passes, sure, limitedByName = null, longestMm } = answers[index]!;
    return { ...part, passes, sure, limitedByName, longestMm };
  });
};

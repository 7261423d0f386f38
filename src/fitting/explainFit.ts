import type { CornerChoice } from './cornerChoices.ts';
import { contractWords, type FitWords } from './fitWords.ts';
import { leftoverVerdict } from './leftoverVerdict.ts';
import { micrometres } from './micrometre.ts';
import type { FitProblem } from './problemSchema.ts';
import type { RunLayout } from './runSolver.ts';
import type { StretchSide } from './stretch.ts';
import { type StretchLayout, widthOf } from './stretchLayout.ts';

const sideWords: Readonly<Record<StretchSide, string>> = {
  wall: 'at the wall',
  exposed: 'at the exposed end',
  corner: 'beside the corner',
  zone: 'beside the blocked zone',
  opening: 'beside the opening',
  bay: 'beside the bay',
  column: 'beside the column',
  meets: 'against the run it meets',
};

const bothSides = (left: StretchSide, right: StretchSide): string => {
  if (left !== right) return `${sideWords[left]} and ${sideWords[right]}`;
  return {
    wall: 'at the two walls',
    exposed: '',
    corner: 'at the two corners',
    zone: 'at the two blocked zones',
    opening: 'at the two openings',
    bay: 'at the two bays',
    column: 'at the two columns',
    meets: 'against the two runs it meets',
  }[left];
};

/** What becomes of a stretch's leftover, as the end of a sentence. */
const leftoverWords = (layout: StretchLayout, fillerMaxUm: number, words: FitWords): string => {
  const { leftUm, rightUm, stretch } = layout;
  const totalUm = leftUm + rightUm;
  const total = words.bare(totalUm);
  if (totalUm === 0) return 'nothing is left over';
  if (totalUm <= stretch.uncertaintyUm) {
    return `${total} is within the drawing's uncertainty of ${words.bare(stretch.uncertaintyUm)}, so it closes`;
  }
  if (leftUm > 0 && rightUm > 0) {
    const isTooMuch = totalUm > fillerMaxUm ? `${total} is more than one filler may be, so it` : `${total}`;
    const where = bothSides(stretch.left, stretch.right);
    return `${isTooMuch} is split ${words.bare(leftUm)} + ${words.bare(rightUm)} ${where}`;
  }
  const side = layout.sequence.length === 0 ? '' : ` ${sideWords[leftUm > 0 ? stretch.left : stretch.right]}`;
  return leftoverVerdict(totalUm, totalUm, stretch.uncertaintyUm, fillerMaxUm) === 'filler'
    ? `${total} is one filler${side}`
    : `${total} is made to measure${side}`;
};

const stretchSentence = (
  layout: StretchLayout,
  jointUm: number,
  fillerMaxUm: number,
  words: FitWords,
): string => {
  const { sequence, leftUm, rightUm } = layout;
  const totalUm = leftUm + rightUm;
  if (sequence.length === 0) {
    return totalUm === 0
      ? 'nothing is left over'
      : `no piece stands here; ${leftoverWords(layout, fillerMaxUm, words)}`;
  }
  const joints = Math.max(0, sequence.length - 1);
  const lengthUm = sequence.reduce((sum, piece) => sum + widthOf(piece), joints * jointUm) + totalUm;
  const terms = sequence.map((piece) => words.bare(widthOf(piece)));
  if (joints > 0 && jointUm > 0) terms.push(`${joints} x ${words.bare(jointUm)} joint`);
  if (totalUm > 0) terms.push(words.bare(totalUm));
  const sum = terms.length > 0 ? `${words.bare(lengthUm)} = ${terms.join(' + ')}; ` : '';
  return `${sum}${leftoverWords(layout, fillerMaxUm, words)}`;
};

const cornerWords = (choice: CornerChoice, words: FitWords): string => {
  const kinds: Readonly<Record<string, string>> = {
    'first-through': 'the straight before it runs through',
    'second-through': 'the straight after it runs through',
    'corner-unit': `corner unit ${choice.corner.item ?? ''}`,
    mitre: 'a made-to-measure wedge',
  };
  const off = (um: number) => (um >= 0 ? `${words.bare(um)} off` : `${words.bare(-um)} added to`);
  return `${kinds[choice.corner.treatment]}, ${off(choice.offFirstUm)} the straight before it and ${off(choice.offSecondUm)} the one after`;
};

/**
 * Why a run is filled as it is, in plain sentences: each corner, then each stretch as a sum with what becomes of its
 * leftover. Straights and corners are counted from 1 in words.
 *
 * @example "6 248 = 2 400 + 2 400 + 1 200 + 248; 248 is more than one filler may be, so it is split 124 + 124 at the two walls."
 */
export const explainFit = (problem: FitProblem, run: RunLayout, words: FitWords = contractWords): string => {
  const jointUm = micrometres(problem.allowances?.jointMm ?? 0);
  const fillerMaxUm = micrometres(problem.fillerMaxMm);
  const corners = run.corners.map((choice, index) => `Corner ${index + 1}: ${cornerWords(choice, words)}.`);
  const layouts = run.straights.flatMap((straight) => straight.layouts);
  const many = problem.straights.length > 1 || layouts.length > 1;
  const stretches = layouts.map((layout) => {
    const name = many ? `Straight ${layout.stretch.straight + 1}: ` : '';
    return `${name}${stretchSentence(layout, jointUm, fillerMaxUm, words)}.`;
  });
  const bays = problem.straights.flatMap(({ bays: kept = [] }, index) =>
    kept.map(({ id, fromMm, toMm }) => {
      const name = id === undefined ? 'A bay' : `Bay ${id}`;
      const where = many || problem.straights.length > 1 ? ` on straight ${index + 1}` : '';
      const [from, to] = [micrometres(fromMm), micrometres(toMm)];
      return `${name} of ${words.bare(to - from)}${where}, from ${words.bare(from)} to ${words.bare(to)}, is kept free under the top.`;
    }),
  );
  const passed = run.straights.flatMap((straight, index) =>
    (straight.passed ?? []).map((at) => {
      const { fromMm, toMm } = problem.straights[index]!.columns![at]!;
      return `It runs on in front of the column from ${words.bare(micrometres(fromMm))} to ${words.bare(micrometres(toMm))} on straight ${index + 1}.`;
    }),
  );
  const unfilled = problem.straights.flatMap((_, index) => {
    if (layouts.some(({ stretch }) => stretch.straight === index)) return [];
    return [`Straight ${index + 1}: its sides and zones leave no length for pieces.`];
  });
  return [...corners, ...stretches, ...unfilled, ...bays, ...passed].join(' ');
};

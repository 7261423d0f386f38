import type { CornerChoice } from './cornerChoices.ts';
import { leftoverVerdict } from './leftoverVerdict.ts';
import { lengthText } from './lengthText.ts';
import { micrometres } from './micrometre.ts';
import type { FitProblem } from './problemSchema.ts';
import type { RunLayout } from './runSolver.ts';
import type { StretchSide } from './stretch.ts';
import { type StretchLayout, widthOf } from './stretchLayout.ts';

const sideWords: Readonly<Record<StretchSide, string>> = {
  wall: 'at the wall',
  exposed: 'at the exposed end',
  corner: 'beside the corner',
  zone: 'beside the zone',
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
    zone: 'at the two zones',
    bay: 'at the two bays',
    column: 'at the two columns',
    meets: 'against the two runs it meets',
  }[left];
};

/** What becomes of a stretch's leftover, as the end of a sentence. */
const leftoverWords = (layout: StretchLayout, fillerMaxUm: number): string => {
  const { leftUm, rightUm, stretch } = layout;
  const totalUm = leftUm + rightUm;
  const total = lengthText(totalUm);
  if (totalUm === 0) return 'nothing is left over';
  if (totalUm <= stretch.uncertaintyUm) {
    return `${total} is within the drawing's uncertainty of ${lengthText(stretch.uncertaintyUm)}, so it closes`;
  }
  if (leftUm > 0 && rightUm > 0) {
    const isTooMuch = totalUm > fillerMaxUm ? `${total} is more than one filler may be, so it` : `${total}`;
    const where = bothSides(stretch.left, stretch.right);
    return `${isTooMuch} is split ${lengthText(leftUm)} + ${lengthText(rightUm)} ${where}`;
  }
  const side = layout.sequence.length === 0 ? '' : ` ${sideWords[leftUm > 0 ? stretch.left : stretch.right]}`;
  return leftoverVerdict(totalUm, totalUm, stretch.uncertaintyUm, fillerMaxUm) === 'filler'
    ? `${total} is one filler${side}`
    : `${total} is made to measure${side}`;
};

const stretchSentence = (layout: StretchLayout, jointUm: number, fillerMaxUm: number): string => {
  const { sequence, leftUm, rightUm } = layout;
  const totalUm = leftUm + rightUm;
  if (sequence.length === 0) {
    return totalUm === 0
      ? 'nothing is left over'
      : `no piece stands here; ${leftoverWords(layout, fillerMaxUm)}`;
  }
  const joints = Math.max(0, sequence.length - 1);
  const lengthUm = sequence.reduce((sum, piece) => sum + widthOf(piece), joints * jointUm) + totalUm;
  const terms = sequence.map((piece) => lengthText(widthOf(piece)));
  if (joints > 0 && jointUm > 0) terms.push(`${joints} x ${lengthText(jointUm)} joint`);
  if (totalUm > 0) terms.push(lengthText(totalUm));
  const sum = terms.length > 0 ? `${lengthText(lengthUm)} = ${terms.join(' + ')}; ` : '';
  return `${sum}${leftoverWords(layout, fillerMaxUm)}`;
};

const cornerWords = (choice: CornerChoice): string => {
  const words: Readonly<Record<string, string>> = {
    'first-through': 'the straight before it runs through',
    'second-through': 'the straight after it runs through',
    'corner-unit': `corner unit ${choice.corner.item ?? ''}`,
    mitre: 'a made-to-measure wedge',
  };
  const off = (um: number) => (um >= 0 ? `${lengthText(um)} off` : `${lengthText(-um)} added to`);
  return `${words[choice.corner.treatment]}, ${off(choice.offFirstUm)} the straight before it and ${off(choice.offSecondUm)} the one after`;
};

/**
 * Why a run is filled as it is, in plain sentences: each corner, then each stretch as a sum with what becomes of its
 * leftover. Straights and corners are counted from 1 in words.
 *
 * @example "6 248 = 2 400 + 2 400 + 1 200 + 248; 248 is more than one filler may be, so it is split 124 + 124 at the two walls."
 */
export const explainFit = (problem: FitProblem, run: RunLayout): string => {
  const jointUm = micrometres(problem.allowances?.jointMm ?? 0);
  const fillerMaxUm = micrometres(problem.fillerMaxMm);
  const corners = run.corners.map((choice, index) => `Corner ${index + 1}: ${cornerWords(choice)}.`);
  const layouts = run.straights.flatMap((straight) => straight.layouts);
  const many = problem.straights.length > 1 || layouts.length > 1;
  const stretches = layouts.map((layout) => {
    const name = many ? `Straight ${layout.stretch.straight + 1}: ` : '';
    return `${name}${stretchSentence(layout, jointUm, fillerMaxUm)}.`;
  });
  const bays = problem.straights.flatMap(({ bays: kept = [] }, index) =>
    kept.map(({ id, fromMm, toMm }) => {
      const name = id === undefined ? 'A bay' : `Bay ${id}`;
      const where = many || problem.straights.length > 1 ? ` on straight ${index + 1}` : '';
      const [from, to] = [micrometres(fromMm), micrometres(toMm)];
      return `${name} of ${lengthText(to - from)}${where}, from ${lengthText(from)} to ${lengthText(to)}, is kept free under the top.`;
    }),
  );
  const passed = run.straights.flatMap((straight, index) =>
    (straight.passed ?? []).map((at) => {
      const { fromMm, toMm } = problem.straights[index]!.columns![at]!;
      return `It runs on in front of the column from ${lengthText(micrometres(fromMm))} to ${lengthText(micrometres(toMm))} on straight ${index + 1}.`;
    }),
  );
  return [...corners, ...stretches, ...bays, ...passed].join(' ');
};

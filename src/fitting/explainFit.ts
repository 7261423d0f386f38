import { type ArcFront, arcFrontOf, jointUmOn } from './arcFront.ts';
import type { CornerChoice } from './cornerChoices.ts';
import { contractWords, type FitWords } from './fitWords.ts';
import { leftoverVerdict } from './leftoverVerdict.ts';
import { listText } from './lengthText.ts';
import { micrometres } from './micrometre.ts';
import type { FitProblem } from './problemSchema.ts';
import type { RunLayout } from './runSolver.ts';
import type { StretchSide } from './stretch.ts';
import { ownWidthOf, type SequencePiece, type StretchLayout, widthOf } from './stretchLayout.ts';

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

/** "3 x 1 200 + 900 as chords on radius 3 200, wedges of 9.4°, the top overhangs up to 28". */
const arcWords = (sequence: readonly SequencePiece[], arc: ArcFront, words: FitWords): string => {
  const modules = sequence.flatMap((piece) => arc.moduleOf(ownWidthOf(piece) / 1000) ?? []);
  const radius = words.bare(micrometres(arc.radiusMm));
  const overhangUm = micrometres(Math.max(...modules.map(({ overhangMm }) => overhangMm)));
  const angles = modules.slice(1).map((module, rank) => {
    const rad = module.halfAngleRad + modules[rank]!.halfAngleRad + arc.jointUm / 1000 / arc.radiusMm;
    return `${(Math.round((rad * 1800) / Math.PI) / 10).toFixed(1)}°`;
  });
  const kinds = [...new Set(angles)];
  const wedges =
    kinds.length === 0
      ? []
      : [`${angles.length === 1 ? 'a wedge' : `${angles.length} wedges`} of ${listText(kinds)}`];
  const count = `${modules.length} ${modules.length === 1 ? 'module' : 'modules'}`;
  const as =
    arc.front === 'outside'
      ? modules.length === 1
        ? 'a chord'
        : 'chords'
      : modules.length === 1
        ? 'a tangent'
        : 'tangents';
  return [
    `${count} as ${as} on radius ${radius}`,
    ...wedges,
    `the top overhangs up to ${words.bare(Math.round(overhangUm / 1000) * 1000)}`,
  ].join(', ');
};

const stretchSentence = (
  layout: StretchLayout,
  jointUm: number,
  fillerMaxUm: number,
  words: FitWords,
  arc: ArcFront | undefined,
): string => {
  const { sequence, leftUm, rightUm } = layout;
  const totalUm = leftUm + rightUm;
  if (sequence.length === 0) {
    return totalUm === 0
      ? 'nothing is left over'
      : `no piece stands here; ${leftoverWords(layout, fillerMaxUm, words)}`;
  }
  if (arc) {
    const widths = sequence.map((piece) => words.bare(ownWidthOf(piece))).join(' + ');
    const left = leftoverWords(layout, fillerMaxUm, words);
    return `${arcWords(sequence, arc, words)}; ${widths} take ${words.bare(takenUm(layout, jointUm))} of the front; ${left}`;
  }
  const joints = Math.max(0, sequence.length - 1);
  const lengthUm = sequence.reduce((sum, piece) => sum + widthOf(piece), joints * jointUm) + totalUm;
  const terms = sequence.map((piece) => words.bare(widthOf(piece)));
  if (joints > 0 && jointUm > 0) terms.push(`${joints} x ${words.bare(jointUm)} joint`);
  if (totalUm > 0) terms.push(words.bare(totalUm));
  const sum = terms.length > 0 ? `${words.bare(lengthUm)} = ${terms.join(' + ')}; ` : '';
  return `${sum}${leftoverWords(layout, fillerMaxUm, words)}`;
};

/** What the pieces of a layout and the joints between them take of the front. */
const takenUm = ({ sequence }: StretchLayout, jointUm: number): number =>
  sequence.reduce((sum, piece) => sum + widthOf(piece), jointUm * (sequence.length - 1));

const cornerWords = (choice: CornerChoice, words: FitWords): string => {
  const kinds: Readonly<Record<string, string>> = {
    'first-through': 'the straight before it runs through',
    'second-through': 'the straight after it runs through',
    'corner-unit': `corner unit ${choice.corner.item ?? ''}`,
    mitre: 'a made-to-measure wedge',
  };
  if (choice.corner.treatment === 'joint') return 'the front goes on without a turn, a plain joint';
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
  const fillerMaxUm = micrometres(problem.fillerMaxMm);
  const corners = run.corners.map((choice, index) => `Corner ${index + 1}: ${cornerWords(choice, words)}.`);
  const layouts = run.straights.flatMap((straight) => straight.layouts);
  const many = problem.straights.length > 1 || layouts.length > 1;
  const stretches = layouts.map((layout) => {
    const name = many ? `Straight ${layout.stretch.straight + 1}: ` : '';
    const { straight } = layout.stretch;
    const sentence = stretchSentence(
      layout,
      jointUmOn(problem, straight),
      fillerMaxUm,
      words,
      arcFrontOf(problem, straight),
    );
    return `${name}${sentence}.`;
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

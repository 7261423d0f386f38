import { cornerChoices } from './cornerChoices.ts';
import type { FitWords } from './fitWords.ts';
import { micrometres } from './micrometre.ts';
import type { FitOrder, FitProblem } from './problemSchema.ts';
import { solveRun } from './runSolver.ts';
import { stretchesOf } from './stretch.ts';

/** Why no fit exists: the smallest set of wishes that clash, as paths into the problem, and a sentence. */
interface FitClash {
  readonly wishes: readonly string[];
  readonly sentence: string;
}

const unpinned = (problem: FitProblem, corner: number): FitProblem => ({
  ...problem,
  corners: problem.corners!.map((one, index) => (index === corner ? { turnDeg: one.turnDeg } : one)),
});

const isFeasible = (problem: FitProblem, order: FitOrder, steps: number): boolean =>
  solveRun(problem, order, steps).best !== undefined;

/** The pins without any of which a fit would exist; empty where the pins are not what stands in the way. */
const clashingPins = (problem: FitProblem, order: FitOrder, steps: number): readonly number[] => {
  const pins = (problem.corners ?? []).flatMap(({ treatment }, index) => (treatment ? [index] : []));
  const without = pins.reduce(unpinned, problem);
  if (pins.length === 0 || !isFeasible(without, order, steps)) return [];
  let kept = problem;
  const clash: number[] = [];
  for (const pin of pins) {
    const tried = unpinned(kept, pin);
    if (isFeasible(tried, order, steps)) clash.push(pin);
    else kept = tried;
  }
  return clash;
};

/** Finds which wishes make a problem infeasible: pinned corners, a straight that is too short, or two exposed ends. */
export const fitClash = (problem: FitProblem, order: FitOrder, steps: number, words: FitWords): FitClash => {
  const pins = clashingPins(problem, order, steps);
  if (pins.length > 0) {
    const names = pins.map((pin) => `corner ${pin + 1} as ${problem.corners![pin]!.treatment}`);
    return {
      wishes: pins.map((pin) => `corners[${pin}].treatment`),
      sentence: `No fit exists with ${names.join(' and ')}: ${
        names.length > 1 ? 'together they take' : 'it takes'
      } more than the straights have, stands in a zone, or has no unit that serves. Any other treatment of ${
        names.length > 1 ? 'one of them' : 'it'
      } gives a fit.`,
    };
  }
  for (const [straight, { lengthMm }] of problem.straights.entries()) {
    const before = straight === 0 ? [undefined] : cornerChoices(problem, straight - 1);
    const after = straight === problem.straights.length - 1 ? [undefined] : cornerChoices(problem, straight);
    const isPossible = before.some((one) =>
      after.some((other) => stretchesOf(problem, straight, one, other) !== undefined),
    );
    if (!isPossible) {
      return {
        wishes: [`straights[${straight}].lengthMm`],
        sentence: `Straight ${straight + 1} is ${words.length(micrometres(lengthMm))}, less than its ends, corners and zones take however they are made.`,
      };
    }
  }
  if (problem.straights.length === 1) {
    return {
      wishes: ['ends', 'stock'],
      sentence:
        'Both ends are exposed, so nothing may be left over, and no sequence of stock pieces has this length within the give of the ends.',
    };
  }
  return {
    wishes: problem.straights.map((_, straight) => `straights[${straight}].lengthMm`),
    sentence: 'The corners take more than the straights between them have, however they are combined.',
  };
};

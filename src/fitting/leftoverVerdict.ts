import type { LeftoverVerdict } from './fitAnswer.ts';

/** The parts of a stretch's leftover, at its left and right, and what they count for. Micrometres. */
interface LeftoverCount {
  readonly madeToMeasure: number;
  readonly fillers: number;
  /** The length to be made to measure. */
  readonly madeLengthUm: number;
}

/**
 * What one part of a leftover asks for (DESIGN section 5): if the whole stretch's leftover is at most the straight's
 * uncertainty all of it closes; otherwise a part up to `fillerMaxUm` is a filler, above it made to measure.
 */
export const leftoverVerdict = (
  partUm: number,
  stretchTotalUm: number,
  uncertaintyUm: number,
  fillerMaxUm: number,
): LeftoverVerdict => {
  if (stretchTotalUm <= uncertaintyUm) return 'closes';
  return partUm <= fillerMaxUm ? 'filler' : 'made-to-measure';
};

/** How many made-to-measure pieces and fillers the two parts of a stretch's leftover make. A part of 0 is none. */
export const countLeftovers = (
  leftUm: number,
  rightUm: number,
  uncertaintyUm: number,
  fillerMaxUm: number,
): LeftoverCount => {
  let madeToMeasure = 0;
  let fillers = 0;
  let madeLengthUm = 0;
  for (const part of [leftUm, rightUm]) {
    if (part <= 0) continue;
    const verdict = leftoverVerdict(part, leftUm + rightUm, uncertaintyUm, fillerMaxUm);
    if (verdict === 'filler') fillers += 1;
    if (verdict === 'made-to-measure') {
      madeToMeasure += 1;
      madeLengthUm += part;
    }
  }
  return { madeToMeasure, fillers, madeLengthUm };
};

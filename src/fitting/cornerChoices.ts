import { arcMitreOffs } from './arcMitre.ts';
import type { FitCorner } from './fitAnswer.ts';
import { micrometres } from './micrometre.ts';
import type { FitProblem } from './problemSchema.ts';
import { MADE_TO_MEASURE, PIECES, PRICE, priceUnits, type ScoreVector, zeroScore } from './scoreVector.ts';

/** One way to make a corner: what it takes off each straight (negative: adds), and what it costs. */
export interface CornerChoice {
  readonly corner: FitCorner;
  /** Off the end of the straight before the corner, in micrometres. */
  readonly offFirstUm: number;
  /** Off the start of the straight after the corner, in micrometres. */
  readonly offSecondUm: number;
  /** The length along each straight that a stock corner unit itself stands on; 0 for the other kinds. */
  readonly standsOnUm: number;
  readonly score: ScoreVector;
}

const rightAngleToleranceDeg = 0.5;

const scoreOf = (parts: { pieces?: number; madeToMeasure?: number; price?: number }): ScoreVector => {
  const score = [...zeroScore];
  score[PIECES] = parts.pieces ?? 0;
  score[MADE_TO_MEASURE] = parts.madeToMeasure ?? 0;
  score[PRICE] = parts.price ?? 0;
  return score;
};

/**
 * Every way to make corner `index`, after DESIGN section 5 "Straights and corners": at a right angle (within 0.5
 * degrees) the through kinds and each corner unit of at least the depth, and a mitre only when pinned; elsewhere a
 * mitre. Beside an arc only a mitre serves, and where the front goes on without a turn there is nothing to make. Cladding moves the carcass line by claddingMm x tan(|turn| / 2) on both sides of every kind.
 *
 * Readings: `maxWidthMm` bounds corner units too ("every piece"), by their size; a wedge has no stock width and is
 * not bounded. The list may be empty, where a pinned corner unit has no unit that serves.
 */
export const cornerChoices = (problem: FitProblem, index: number): readonly CornerChoice[] => {
  const { turnDeg, treatment: pinned } = problem.corners![index]!;
  const outside = turnDeg > 0;
  const halfTan = Math.tan((Math.abs(turnDeg) * Math.PI) / 360);
  const depthUm = micrometres(problem.depthMm);
  const claddingUm = micrometres((problem.allowances?.claddingMm ?? 0) * halfTan) * (outside ? 1 : -1);
  const choice = (
    corner: FitCorner,
    offFirstUm: number,
    offSecondUm: number,
    score: ScoreVector,
    standsOnUm = 0,
  ): CornerChoice => ({
    corner,
    offFirstUm: offFirstUm + claddingUm,
    offSecondUm: offSecondUm + claddingUm,
    standsOnUm,
    score,
  });
  const { arc: arcBefore } = problem.straights[index]!;
  const { arc: arcAfter } = problem.straights[index + 1]!;
  if (arcBefore !== undefined || arcAfter !== undefined) {
    const joint: CornerChoice = {
      corner: { treatment: 'joint' },
      offFirstUm: 0,
      offSecondUm: 0,
      standsOnUm: 0,
      score: zeroScore,
    };
    if (turnDeg === 0) return [joint];
    const offs = arcMitreOffs(problem, index);
    if (offs === undefined) return [];
    const { firstUm: offFirstUm, secondUm: offSecondUm } = offs;
    const score = scoreOf({ pieces: 1, madeToMeasure: 1 });
    return [{ ...joint, corner: { treatment: 'mitre' }, offFirstUm, offSecondUm, score }];
  }
  const mitre = (): CornerChoice => {
    const offUm = outside ? micrometres(problem.depthMm * halfTan) : 0;
    return choice({ treatment: 'mitre' }, offUm, offUm, scoreOf({ pieces: 1, madeToMeasure: 1 }));
  };
  if (Math.abs(Math.abs(turnDeg) - 90) > rightAngleToleranceDeg) return [mitre()];
  const choices: CornerChoice[] = [];
  const allowed = (kind: string) => pinned === undefined || pinned === kind;
  if (allowed('first-through')) {
    choices.push(
      choice({ treatment: 'first-through' }, outside ? 0 : -depthUm, outside ? depthUm : 0, scoreOf({})),
    );
  }
  if (allowed('second-through')) {
    choices.push(
      choice({ treatment: 'second-through' }, outside ? depthUm : 0, outside ? 0 : -depthUm, scoreOf({})),
    );
  }
  if (allowed('corner-unit')) {
    // Of units of one size only the cheapest can be in a best fit.
    const units = (problem.cornerUnits ?? []).toSorted(
      (a, b) => a.sizeMm - b.sizeMm || priceUnits(a.price) - priceUnits(b.price) || (a.id < b.id ? -1 : 1),
    );
    for (const [rank, unit] of units.entries()) {
      if (units[rank - 1]?.sizeMm === unit.sizeMm) continue;
      const sizeUm = micrometres(unit.sizeMm);
      if (sizeUm < depthUm) continue;
      if (problem.maxWidthMm !== undefined && sizeUm > micrometres(problem.maxWidthMm)) continue;
      const offUm = outside ? sizeUm : sizeUm - depthUm;
      const score = scoreOf({ pieces: 1, price: priceUnits(unit.price) });
      choices.push(choice({ treatment: 'corner-unit', item: unit.id }, offUm, offUm, score, offUm));
    }
  }
  if (pinned === 'mitre') choices.push(mitre());
  return choices;
};

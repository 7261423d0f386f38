import { boxCentre, boxCorners } from '../../../src/geometry/box.ts';
import { distanceBetween } from '../../../src/geometry/vector.ts';
import { positionUncertaintyPt } from '../../../src/sheet/registration/registrationUncertainty.ts';
import type { SheetRegistration } from '../../../src/sheet/registration/sheetRegistration.ts';
import { applySimilarity } from '../../../src/sheet/registration/similarity.ts';
import type { RevisedPlan } from '../../fixtures/revisedPlan/revisedPlan.ts';

export interface Judged {
  readonly outcome: 'right' | 'outside' | 'elsewhere' | 'none';
  readonly isSure: boolean;
  /** Most that a corner or the middle of the plan misses its true place by, in new paper points. */
  readonly errorPt: number;
  /** The largest ratio of error over stated uncertainty. */
  readonly errorShare: number;
}

/** Farther off than this is another place, not an inexact one. */
const ELSEWHERE_PT = 1;

/** Compares an answer with the truth that the generator wrote down. */
export const judgeRegistered = (
  answer: SheetRegistration,
  { truth, planBox }: Pick<RevisedPlan, 'truth' | 'planBox'>,
): Judged => {
  if (answer.certainty === 'none') return { outcome: 'none', isSure: false, errorPt: 0, errorShare: 0 };
  const isSure = answer.certainty === 'sure';
  if (!truth) return { outcome: 'elsewhere', isSure, errorPt: Infinity, errorShare: Infinity };
  let [errorPt, errorShare] = [0, 0];
  for (const place of [...boxCorners(planBox), boxCentre(planBox)]) {
    const error = distanceBetween(applySimilarity(answer.transform, place), applySimilarity(truth, place));
    errorPt = Math.max(errorPt, error);
    errorShare = Math.max(errorShare, error / positionUncertaintyPt(answer.uncertainty, place));
  }
  const outcome = errorPt > ELSEWHERE_PT ? 'elsewhere' : errorShare > 1 ? 'outside' : 'right';
  return { outcome, isSure, errorPt, errorShare };
};

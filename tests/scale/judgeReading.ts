import type { ReadAnswer } from '../../src/scale/readContract.ts';
import type { PlanTruth } from '../fixtures/drawPlan/planTruth.ts';

/** A scale is right within this share. */
export const WITHIN = 0.001;

export type Outcome = 'right' | 'missed' | 'wrong' | 'other-status' | 'other-axes';

/** A reading against the truth: `wrong` is a scale that is not so, `missed` an honest "none" where there is one. */
export const judgeReading = ({ scale }: ReadAnswer, truth: PlanTruth): Outcome => {
  if (scale.ratio === null) return truth.expectedStatus === 'none' ? 'right' : 'missed';
  if (truth.expectedStatus === 'none') return 'wrong';
  const { ratio } = truth;
  if (ratio === null) {
    const { ratioX = 0, ratioY = 0 } = truth;
    const isBetween =
      scale.ratio > Math.min(ratioX, ratioY) * (1 - WITHIN) &&
      scale.ratio < Math.max(ratioX, ratioY) * (1 + WITHIN);
    if (!isBetween) return 'wrong';
    const areAxesRight = isClose(scale.ratioX ?? 0, ratioX) && isClose(scale.ratioY ?? 0, ratioY);
    if (!areAxesRight) return 'other-axes';
  } else if (!isClose(scale.ratio, ratio)) return 'wrong';
  return scale.status === truth.expectedStatus ? 'right' : 'other-status';
};

const isClose = (found: number, wanted: number): boolean => Math.abs(found / wanted - 1) <= WITHIN;

import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';

/** Whether two fits lay a run out alike, whatever reason each is shown for. */
export const sameLayout = (one: FitAlternative | null | undefined, other: FitAlternative): boolean => {
  if (!one) return false;
  const { reason: _one, leftOut: _out, ...layout } = one;
  const { reason: _other, leftOut: _left, ...otherLayout } = other;
  return JSON.stringify(layout) === JSON.stringify(otherLayout);
};

import type { Supporter } from './voter.ts';

/** A scale fitted to the dimensions that agree. */
export interface RefinedScale {
  /** Units of the text per user-space unit. */
  readonly unitsPerPoint: number;
  /** Expanded relative uncertainty, k = 2. */
  readonly relativeUncertainty: number;
  /** Those within the fit; others were dropped as outliers. */
  readonly supporters: readonly Supporter[];
}

/** No drawing is surer than this, however many dimensions agree: paper, plot and export. */
const LEAST_UNCERTAINTY = 2e-5;

/**
 * The weighted mean of the supporters' ratios in logarithms, outliers beyond three of their standard uncertainties
 * dropped. Each ratio's uncertainty comes from the step of the written number (rectangular, step / sqrt 12; JCGM
 * 100:2008 4.3.7) and the drawn ends; the result is widened by the Birge ratio where they scatter more.
 *
 * @returns null for no supporters.
 */
export const refineScale = (supporters: readonly Supporter[]): RefinedScale | null => {
  let kept = supporters;
  let fit = weightedMean(kept);
  for (let round = 0; round < 5; round++) {
    const { mean, spread } = fit;
    const next = supporters.filter((supporter) => {
      const { log, sigma } = ratioOf(supporter);
      return Math.abs(log - mean) <= 3.5 * sigma * Math.max(1, Math.min(spread, 2));
    });
    if (next.length === kept.length || next.length < 2) break;
    kept = next;
    fit = weightedMean(kept);
  }
  if (kept.length === 0) return null;
  const standard = fit.standard * Math.max(1, fit.spread);
  return {
    unitsPerPoint: Math.exp(fit.mean),
    relativeUncertainty: Math.max(LEAST_UNCERTAINTY, 2 * standard),
    supporters: kept,
  };
};

const ratioOf = ({ voter, span }: Supporter): { log: number; sigma: number } => ({
  log: Math.log(voter.value / span.length),
  sigma: Math.hypot(
    voter.step / Math.sqrt(12) / voter.value,
    (Math.SQRT2 * voter.endUncertainty) / span.length,
  ),
});

const weightedMean = (
  supporters: readonly Supporter[],
): { mean: number; standard: number; spread: number } => {
  let sumWeight = 0;
  let sum = 0;
  for (const supporter of supporters) {
    const { log, sigma } = ratioOf(supporter);
    sumWeight += 1 / sigma ** 2;
    sum += log / sigma ** 2;
  }
  const mean = sum / sumWeight;
  let chiSquare = 0;
  for (const supporter of supporters) {
    const { log, sigma } = ratioOf(supporter);
    chiSquare += ((log - mean) / sigma) ** 2;
  }
  const freedom = supporters.length - 1;
  return {
    mean,
    standard: 1 / Math.sqrt(sumWeight),
    spread: freedom > 0 ? Math.sqrt(chiSquare / freedom) : 1,
  };
};

import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import { fitRun } from '../../src/fitting/fitRun.ts';
import type { FitProblem } from '../../src/fitting/problemSchema.ts';
import type { QuotedRun } from '../../src/quote/quotedRun.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { fittingStock } from '../../src/stock/fittingStock.ts';

/** A problem of the demo range for straights of given lengths, walls at both ends unless told otherwise. */
export const problemFor = (lengthsMm: readonly number[], more: Partial<FitProblem> = {}): FitProblem => ({
  depthMm: 700,
  straights: lengthsMm.map((lengthMm) => ({ lengthMm, uncertaintyMm: 12 })),
  corners: lengthsMm.slice(1).map(() => ({ turnDeg: 90 })),
  ends: [{ kind: 'wall' }, { kind: 'exposed' }],
  ...fittingStock(demoRange, { depthMm: 700 }),
  allowances: { jointMm: 0, scribeMm: 10, endPanelMm: 20 },
  fillerMaxMm: 150,
  ...more,
});

/** A fitted run to quote, with two other fits. */
export const quotedRun = (name: string, number: number, problem: FitProblem): QuotedRun => {
  const answer = fitRun(problem, { alternatives: 3 });
  const [alternative, ...others] = answer.alternatives;
  if (!alternative) throw new Error(`${name} has no fit: ${answer.explanation}`);
  return { name, number, problem, alternative, others, questions: answer.questions };
};

/** The same run with another fit in the place of its own. */
export const quotedWith = (run: QuotedRun, alternative: FitAlternative): QuotedRun => ({
  ...run,
  alternative,
  others: [],
});

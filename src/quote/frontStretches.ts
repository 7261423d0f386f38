import type { FitAlternative } from '../fitting/fitAnswer.ts';
import type { FitProblem } from '../fitting/problemSchema.ts';
import { columnsNotPassed } from './columnsNotPassed.ts';

/** An uninterrupted length of counter front on one straight, in mm along the traced front. */
export interface FrontStretch {
  readonly straight: number;
  readonly fromMm: number;
  readonly toMm: number;
  /** How many of its two ends are exposed ends of the run. */
  readonly exposedEnds: number;
}

/**
 * The lengths of customer front that carry an upstand and a shelf: each straight's traced front without its openings
 * and blocked zones; they run on over a bay and in front of a column that is passed, not over a low section. An exposed
 * end lies where the fit puts it, with its end panel.
 */
export const frontStretches = (problem: FitProblem, alternative: FitAlternative): readonly FrontStretch[] => {
  const endPanelMm = problem.allowances?.endPanelMm ?? 0;
  const last = problem.straights.length - 1;
  const placedOn = (straight: number) =>
    [...alternative.pieces, ...alternative.leftovers].filter((span) => span.straight === straight);
  return problem.straights.flatMap(({ lengthMm, blocked = [], openings = [], bays = [] }, straight) => {
    const isExposedStart = straight === 0 && problem.ends[0].kind === 'exposed';
    const isExposedFinish = straight === last && problem.ends[1].kind === 'exposed';
    const placed = placedOn(straight);
    const startMm =
      isExposedStart && placed.length > 0 ? Math.min(...placed.map(({ fromMm }) => fromMm)) - endPanelMm : 0;
    const finishMm =
      isExposedFinish && placed.length > 0
        ? Math.max(...placed.map(({ toMm }) => toMm)) + endPanelMm
        : lengthMm;
    const stretches: FrontStretch[] = [];
    const add = (fromMm: number, toMm: number) => {
      if (toMm - fromMm <= 0.001) return;
      const exposedEnds =
        Number(isExposedStart && fromMm === startMm) + Number(isExposedFinish && toMm === finishMm);
      stretches.push({ straight, fromMm, toMm, exposedEnds });
    };
    let atMm = startMm;
    const low = bays.flatMap(({ fromMm, toMm, isLow }) => (isLow ? [[fromMm, toMm] as const] : []));
    const zones = [...blocked, ...openings, ...low, ...columnsNotPassed(problem, alternative, straight)];
    for (const [fromMm, toMm] of zones.sort((one, other) => one[0] - other[0])) {
      add(atMm, Math.min(fromMm, finishMm));
      atMm = Math.max(atMm, toMm);
    }
    add(atMm, finishMm);
    return stretches;
  });
};

import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import { refusalWords } from './refusalWords.ts';
import type { RunFit } from './useRunFits.ts';

const counted = (count: number, one: string, many: string) => `${count} ${count === 1 ? one : many}`;

/**
 * The fit to show: one that is being looked at, else the one that was kept while it still answers the run, else the best
 * live one; while a run is being fitted anew, the last one.
 */
export const shownAlternative = (fit: RunFit | undefined): FitAlternative | null => {
  if (fit?.status === 'fitting') return fit.before;
  if (fit?.status !== 'ready') return null;
  if (fit.tried) return fit.tried;
  if (fit.kept?.isCurrent) return fit.kept.alternative;
  return fit.answer.alternatives[0] ?? null;
};

/** `14 pieces, 2 fillers, 248 mm left`, most pressing first. */
export const alternativeWords = ({ score }: FitAlternative, unit: DisplayUnit): string => {
  const parts = [counted(score.pieces, 'piece', 'pieces')];
  if (score.unplaced) parts.unshift(`${counted(score.unplaced, 'station', 'stations')} left out`);
  if (score.madeToMeasure) parts.push(`${score.madeToMeasure} made to measure`);
  if (score.fillers) parts.push(counted(score.fillers, 'filler', 'fillers'));
  parts.push(
    score.leftoverMm ? `${formatLength(score.leftoverMm, { unit })} left over` : 'nothing left over',
  );
  return parts.join(', ');
};

/** The same in a few words, for the head of a step. */
export const shortFitWords = ({ score }: FitAlternative): string => {
  const pieces = counted(score.pieces, 'piece', 'pieces');
  if (score.unplaced) return `${pieces}, ${score.unplaced} left out`;
  if (score.madeToMeasure) return `${pieces}, ${score.madeToMeasure} made to measure`;
  if (score.fillers) return `${pieces}, ${counted(score.fillers, 'filler', 'fillers')}`;
  return score.leftoverMm ? `${pieces}, closes` : `${pieces}, nothing left over`;
};

/** How the fit of a run stands, as a line. */
export const fitStateWords = (fit: RunFit | undefined, unit: DisplayUnit): string => {
  if (!fit) return 'Waiting for the stock range';
  if (fit.status === 'refused' || fit.status === 'failed') return refusalWords(fit.message);
  if (fit.status === 'fitting') return 'Fitting …';
  if (fit.answer.status === 'infeasible') return 'Cannot be filled as asked';
  const shown = shownAlternative(fit);
  if (!shown) return 'Cannot be filled as asked';
  const words = alternativeWords(shown, unit);
  if (!fit.kept) return words;
  return fit.kept.isCurrent ? `Kept: ${words}` : `The kept fit is of an earlier trace. Now: ${words}`;
};

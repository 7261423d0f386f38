import type { FitAlternative } from '../fitting/fitAnswer.ts';
import type { RunZone } from '../measure/zonesOfRun.ts';

/** Whether a fit has pieces in front of a column that takes only the back; without a fit, it is taken to. */
export const isColumnPassed = (
  { straight, column }: Pick<RunZone, 'straight' | 'column'>,
  alternative: FitAlternative | null,
): boolean =>
  column !== undefined &&
  (alternative === null ||
    (alternative.passedColumns ?? []).some(
      (passed) => passed.straight === straight && passed.column === column.index,
    ));

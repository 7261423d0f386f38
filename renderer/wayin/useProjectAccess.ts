import { useMemo } from 'react';
import type { RunId } from '../../src/document/ids.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { type ProjectAccess, projectAccess } from '../../src/quote/projectAccess.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import { shownAlternative } from '../fitting/fitWords.ts';
import type { RunFit } from '../fitting/useRunFits.ts';

/** Every piece of the fits as they stand, on the chosen way in; null while none is described. */
export const useProjectAccess = (
  document: ProjectDocument,
  range: StockRange | null,
  fits: ReadonlyMap<RunId, RunFit>,
): ProjectAccess | null =>
  useMemo(
    () => range && projectAccess(document, range, (runId) => shownAlternative(fits.get(runId))),
    [document, range, fits],
  );

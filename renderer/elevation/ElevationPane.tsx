import { useMemo } from 'react';
import type { ProjectDocument, Run } from '../../src/document/projectDocument.ts';
import { elevationOfRun } from '../../src/issue/elevation/elevationOfRun.ts';
import type { PartName } from '../../src/issue/fitOnPlan.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { shownAlternative } from '../fitting/fitWords.ts';
import type { RunFit } from '../fitting/useRunFits.ts';
import { ElevationStrip } from './ElevationStrip.tsx';

/** The developed elevation of the selected run, below the sheet. */
export const ElevationPane = (props: {
  readonly document: ProjectDocument;
  readonly run: Run | null;
  readonly fit: RunFit | undefined;
  readonly range: StockRange | null;
  readonly unit: DisplayUnit;
  readonly highlighted: PartName | null;
  readonly onHighlight: (part: PartName | null) => void;
}) => {
  const { document, run, fit, range, unit } = props;
  const drawing = useMemo(() => {
    if (!run || !range) return null;
    const problem = fit?.status === 'ready' || fit?.status === 'fitting' ? fit.problem : null;
    return elevationOfRun(document, run.id, { range, unit, problem, alternative: shownAlternative(fit) });
  }, [document, run, fit, range, unit]);
  return (
    <ElevationStrip
      drawing={drawing}
      highlighted={props.highlighted}
      onHighlight={props.onHighlight}
      onSelectPart={props.onHighlight}
      {...(document.runIds.length === 0
        ? { emptyText: 'Trace a run, and it stands here as it will be built, seen from the working side.' }
        : {})}
    />
  );
};

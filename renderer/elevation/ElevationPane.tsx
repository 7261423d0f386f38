import type { ProjectDocument, Run } from '../../src/document/projectDocument.ts';
import type { PartName } from '../../src/issue/fitOnPlan.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import type { RunFit } from '../fitting/useRunFits.ts';

/** The developed elevation of the selected run, below the sheet. */
export const ElevationPane = (props: {
  readonly document: ProjectDocument;
  readonly run: Run | null;
  readonly fit: RunFit | undefined;
  readonly range: StockRange | null;
  readonly unit: DisplayUnit;
  readonly highlighted: PartName | null;
  readonly onHighlight: (part: PartName | null) => void;
}) => (
  <section
    className="elevation-pane"
    aria-label={props.run ? `Elevation of ${props.run.name}` : 'Elevation'}
  />
);

import type { Run } from '../../document/projectDocument.ts';
import type { FitAlternative } from '../../fitting/fitAnswer.ts';
import type { FitProblem } from '../../fitting/problemSchema.ts';
import type { MeasuredCorner } from '../../measure/corners.ts';
import type { MeasuredStraight } from '../../measure/straights.ts';
import type { RunZone } from '../../measure/zonesOfRun.ts';
import type { PieceMarks } from '../../quote/pieceMarks.ts';
import type { StockRange } from '../../stock/stockSchema.ts';
import type { DisplayUnit } from '../../units/formatLength.ts';

/** All that the developed elevation of one run shows. Positions in mm along the traced front of their straight. */
export interface ElevationInput {
  readonly run: Run;
  /** The run's place in the project's run list, from 1. */
  readonly runNumber: number;
  readonly straights: readonly Pick<MeasuredStraight, 'lengthMm' | 'plusMinusMm' | 'bend'>[];
  readonly corners: readonly (Pick<MeasuredCorner, 'turnDeg' | 'innerAngleDeg'> &
    Partial<Pick<MeasuredCorner, 'isTangent'>>)[];
  readonly zones: readonly RunZone[];
  /** Names of the runs that the first and the last end meet, where they are traced. */
  readonly meets?: readonly [string | null, string | null];
  /** Null where the run poses none yet: then no wanted stations are shown. */
  readonly problem: FitProblem | null;
  /** Null while the run is not fitted: then the bare traced run is drawn. */
  readonly alternative: FitAlternative | null;
  readonly marks: PieceMarks | null;
  readonly range: StockRange;
  readonly unit: DisplayUnit;
  /** Sections that are cut through the run, by letter; none where left out. */
  readonly cuts?: readonly ElevationCut[];
}

/** Where a section is cut, mm along the traced front of its straight. */
export interface ElevationCut {
  readonly letter: string;
  readonly straight: number;
  readonly alongMm: number;
}

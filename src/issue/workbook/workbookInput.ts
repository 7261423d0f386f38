import type { Job } from '../../document/job.ts';
import type { Run } from '../../document/projectDocument.ts';
import type { MeasuredCorner } from '../../measure/corners.ts';
import type { SheetScale } from '../../measure/tracedRun.ts';
import type { RunZone } from '../../measure/zonesOfRun.ts';
import type { ProjectAccess } from '../../quote/projectAccess.ts';
import type { QuotedRun } from '../../quote/quotedRun.ts';
import type { QuoteSettings } from '../../quote/quoteSettings.ts';
import type { StockRange } from '../../stock/stockSchema.ts';
import type { IssuedAs } from '../issuedAs.ts';

/** A fitted run of a project as the workbook takes it. */
export interface WorkbookRun extends QuotedRun {
  readonly run: Run;
  readonly scale: SheetScale;
  readonly corners: readonly MeasuredCorner[];
  /** Openings, blocked zones, bays and low sections; left out: none that are listed. */
  readonly zones?: readonly RunZone[];
}

/** All that a project's workbook is made from. */
export interface WorkbookInput {
  readonly job: Job;
  /** ISO 8601 instant of making. */
  readonly at: string;
  readonly range: StockRange;
  readonly runs: readonly WorkbookRun[];
  /** Runs that have no fit, with the reason: they are in no list and no sum. */
  readonly notFitted: readonly { readonly name: string; readonly why: string }[];
  /** The pieces against the chosen way in; null while none is described. */
  readonly access: ProjectAccess | null;
  readonly settings: QuoteSettings;
  readonly paper: 'a4' | 'letter';
  /** Left out for a workbook that is not issued. */
  readonly issue?: IssuedAs | undefined;
}

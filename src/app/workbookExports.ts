import type { RunId } from '../document/ids.ts';
import type { QuoteTerms } from '../document/issueSettings.ts';
import type { ProjectDocument } from '../document/projectDocument.ts';
import { runIdsInForce, runNumberOf } from '../document/runsInForce.ts';
import type { FitAlternative } from '../fitting/fitAnswer.ts';
import { fitRun } from '../fitting/fitRun.ts';
import { poseProblem } from '../fitting/poseProblem.ts';
import type { IssuedAs } from '../issue/issuedAs.ts';
import { projectWorkbook } from '../issue/workbook/projectWorkbook.ts';
import { sheetCsv } from '../issue/workbook/sheetCsv.ts';
import type { WorkbookInput, WorkbookRun } from '../issue/workbook/workbookInput.ts';
import { writeXlsx, XLSX_MEDIA_TYPE } from '../issue/workbook/writeXlsx.ts';
import { cornersOf } from '../measure/corners.ts';
import { documentAsMeasured } from '../measure/documentAsMeasured.ts';
import { runAsTraced } from '../measure/runAsTraced.ts';
import { drawnScaleOfRun } from '../measure/scaleOfSheet.ts';
import { zonesOfRun } from '../measure/zonesOfRun.ts';
import { partWarnings } from '../quote/partWarnings.ts';
import { projectAccess } from '../quote/projectAccess.ts';
import { type QuoteSettings, standardQuoteTerms } from '../quote/quoteSettings.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { ApiFailure } from './apiFailure.ts';
import { fileNameFor, type IssuedFile } from './exports.ts';
import type { OpenProject } from './projects.ts';

/** How many fits of a run are put side by side. */
const optionsMost = 3;

/** What a workbook may be asked for beside the project: parts of the quote's settings, and the paper. */
export interface WantedWorkbook {
  readonly project: OpenProject;
  readonly range: StockRange;
  /** ISO 8601 instant. */
  readonly at: string;
  readonly quote?: { readonly [Name in keyof QuoteSettings]?: QuoteSettings[Name] | undefined } | undefined;
  readonly paper?: 'a4' | 'letter' | undefined;
  /** Left out for a workbook that is not issued. */
  readonly issue?: IssuedAs | undefined;
}

const layoutOf = ({ corners, pieces, leftovers }: FitAlternative): string =>
  JSON.stringify([corners, pieces, leftovers]);

/** A run with the fit that goes out (the kept one while it answers the run as it is, else the best) and other fits of it. */
const workbookRun = (
  document: ProjectDocument,
  runId: RunId,
  range: StockRange,
): WorkbookRun | { readonly name: string; readonly why: string } | null => {
  const run = document.runs[runId];
  if (!run) return null;
  const { name } = run;
  const posed = poseProblem(document, runId, range);
  if (!posed.ok) return { name, why: posed.message };
  const scale = drawnScaleOfRun(document, run);
  if (!scale) throw new Error(`${name} poses a problem without a scale.`);
  const { problem, order, key } = posed;
  const answer = fitRun(problem, { order, alternatives: optionsMost });
  const kept = document.keptFits[runId];
  const alternative =
    kept?.problem === key ? (JSON.parse(kept.alternative) as FitAlternative) : answer.alternatives[0];
  if (!alternative) return { name, why: answer.explanation };
  const own = layoutOf(alternative);
  return {
    name,
    number: runNumberOf(document, runId),
    problem,
    alternative,
    others: answer.alternatives.filter((other) => layoutOf(other) !== own),
    questions: [...answer.questions, ...partWarnings(document, runId, range)],
    run,
    scale,
    corners: cornersOf(runAsTraced(run), scale.userUnit),
    zones: zonesOfRun(document, runId, scale),
  };
};

/** The project's own terms, or the usual ones, on the day, with what is given in their place. */
const settingsFrom = (
  terms: QuoteTerms | null,
  at: string,
  given: NonNullable<WantedWorkbook['quote']>,
): QuoteSettings => ({
  ...(terms ?? standardQuoteTerms),
  date: at.slice(0, 10),
  ...(Object.fromEntries(
    Object.entries(given).filter(([, value]) => value !== undefined),
  ) as Partial<QuoteSettings>),
});

/** All that a project's workbook is made from. @throws ApiFailure `nothing-to-take-away` */
export const workbookInput = ({
  project,
  range,
  at,
  quote = {},
  paper = project.document.issueSettings?.paper === 'us' ? 'letter' : 'a4',
  issue,
}: WantedWorkbook): WorkbookInput => {
  const document = documentAsMeasured(project.document);
  const found = runIdsInForce(document).flatMap((runId) => workbookRun(document, runId, range) ?? []);
  const runs = found.filter((one): one is WorkbookRun => 'problem' in one);
  if (runs.length === 0)
    throw new ApiFailure(
      'nothing-to-take-away',
      'No run of this project has a fit yet: set the scale, trace a run, then take the workbook away.',
      'projectId',
    );
  const fits = new Map(runs.map(({ run, alternative }) => [run.id, alternative]));
  return {
    job: document.job,
    at,
    range,
    runs,
    notFitted: found.flatMap((one) => ('problem' in one ? [] : [one])),
    access: projectAccess(document, range, (runId) => fits.get(runId) ?? null),
    settings: settingsFrom(document.quoteTerms, at, quote),
    paper,
    issue,
  };
};

/** The project's workbook: schedule, extras, leftovers, services, installation order, way in, site measure and quote. */
export const exportWorkbook = (wanted: WantedWorkbook): IssuedFile => ({
  fileName: fileNameFor(wanted.project.document.job.name, 'workbook.xlsx'),
  mediaType: XLSX_MEDIA_TYPE,
  bytes: writeXlsx(projectWorkbook(workbookInput(wanted))),
});

/** A text file that leaves the office. */
export interface IssuedText {
  readonly fileName: string;
  readonly mediaType: string;
  readonly text: string;
}

/** Every table of the workbook as a CSV file of its own. */
export const exportCsvs = (wanted: WantedWorkbook): readonly IssuedText[] =>
  projectWorkbook(workbookInput(wanted)).sheets.map((sheet) => ({
    fileName: fileNameFor(
      wanted.project.document.job.name,
      `${sheet.name.toLowerCase().replaceAll(' ', '-')}.csv`,
    ),
    mediaType: 'text/csv',
    text: sheetCsv(sheet),
  }));

import type { SheetId } from '../document/ids.ts';
import { runIdsInForce } from '../document/runsInForce.ts';
import { poseProblem } from '../fitting/poseProblem.ts';
import { type IssuedAs, thisIssue } from '../issue/issuedAs.ts';
import { drawPlanPdf } from '../issue/planPdf/drawPlanPdf.ts';
import { scheduleCsv } from '../issue/scheduleCsv.ts';
import { documentAsMeasured } from '../measure/documentAsMeasured.ts';
import { drawnScaleOfRun } from '../measure/scaleOfSheet.ts';
import { zonesOfRun } from '../measure/zonesOfRun.ts';
import { extrasOfRun } from '../quote/extras.ts';
import { pieceMarks } from '../quote/pieceMarks.ts';
import { extraRows, type ScheduleRow, scheduleOfRun } from '../quote/schedule.ts';
import { zoneRows } from '../quote/zoneRows.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { ApiFailure } from './apiFailure.ts';
import { fitToTakeAway } from './fitToTakeAway.ts';
import type { Plans } from './plans.ts';
import type { Ports } from './ports.ts';
import type { OpenProject } from './projects.ts';
import { sheetToDraw } from './sheetToDraw.ts';
import { utf8 } from './utf8.ts';

/** A file that leaves the office. */
export interface IssuedFile {
  readonly fileName: string;
  readonly mediaType: string;
  readonly bytes: Uint8Array;
}

/** So much of a name stays, in UTF-16 units and in bytes of UTF-8; a file system takes 255 bytes with the ending. */
const nameUnitsMost = 80;
const nameBytesMost = 180;

/** As much of a text as may stay, never half of a character. */
const shortened = (text: string): string => {
  let kept = '';
  let byteLength = 0;
  for (const character of text) {
    byteLength += utf8(character).byteLength;
    if (kept.length + character.length > nameUnitsMost || byteLength > nameBytesMost) break;
    kept += character;
  }
  return kept;
};

/** A file's name from a project's, in letters and digits that every file system takes. */
export const fileNameFor = (name: string, ending: string): string => {
  const plain = name
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '');
  return `${shortened(plain) || 'project'}-${ending}`;
};

/** The schedule of every run of a project as CSV. */
export const exportSchedule = (project: OpenProject, range: StockRange): IssuedFile => {
  const { document } = project;
  const measured = documentAsMeasured(document);
  const rows = runIdsInForce(document).flatMap((runId, index): readonly ScheduleRow[] => {
    const run = document.runs[runId];
    const alternative = fitToTakeAway(document, runId, range);
    const posed = poseProblem(document, runId, range);
    if (!run || !alternative || !posed.ok) return [];
    const numbered = { name: run.name, number: index + 1 };
    const marks = pieceMarks(numbered.number, alternative);
    const measuredRun = measured.runs[runId];
    const scale = measuredRun && drawnScaleOfRun(measured, measuredRun);
    const extras = extrasOfRun(posed.problem, alternative, range, marks);
    return [
      ...scheduleOfRun({ ...numbered, problem: posed.problem }, alternative, range, marks),
      ...zoneRows(numbered, scale ? zonesOfRun(measured, runId, scale) : [], range),
      ...extraRows(numbered, extras),
    ];
  });
  if (rows.length === 0)
    throw new ApiFailure(
      'nothing-to-take-away',
      'No run of this project has a fit yet: set the scale, trace a run, then take the schedule away.',
      'projectId',
    );
  return {
    fileName: fileNameFor(document.job.name, 'schedule.csv'),
    mediaType: 'text/csv',
    bytes: utf8(scheduleCsv(rows, range.currency)),
  };
};

/** A sheet of a project as PDF: the plan's own page, still vector, with the runs and their fits over it. */
export const exportPlan = async (
  over: { readonly plans: Plans; readonly ports: Pick<Ports, 'now' | 'font'> },
  wanted: {
    readonly project: OpenProject;
    readonly range: StockRange;
    readonly sheetId: SheetId;
    readonly password: string | undefined;
    readonly issue?: IssuedAs | undefined;
  },
): Promise<IssuedFile> => {
  const { project, range, sheetId, password } = wanted;
  const document = documentAsMeasured(project.document);
  const { sheet, scale, alternatives } = sheetToDraw(document, sheetId, range);
  const { bytes } = await over.plans.bytesOf(sheet.planSha256);
  const drawn = await drawPlanPdf(
    { bytes, password },
    { document, sheet, scale, range, alternatives },
    {
      font: await over.ports.font(),
      at: over.ports.now(),
      ...(wanted.issue ? { issue: thisIssue(wanted.issue) } : {}),
    },
  );
  if (!drawn.ok) throw new ApiFailure(drawn.code, drawn.message, 'sheetId');
  return {
    fileName: fileNameFor(`${document.job.name} ${sheet.name}`, 'plan.pdf'),
    mediaType: 'application/pdf',
    bytes: drawn.bytes,
  };
};

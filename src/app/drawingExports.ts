import type { SheetId } from '../document/ids.ts';
import type { ProjectDocument } from '../document/projectDocument.ts';
import { architectReachMm } from '../issue/dxf/architectLines.ts';
import { architectOfPlans } from '../issue/dxf/architectOfPlans.ts';
import { dxfOfFloorPlan } from '../issue/dxf/dxfOfFloorPlan.ts';
import { writeDxf } from '../issue/dxf/writeDxf.ts';
import { issueCautions } from '../issue/issueCautions.ts';
import { type IssuedAs, thisIssue } from '../issue/issuedAs.ts';
import { issuedByOf } from '../issue/issuedBy.ts';
import { floorPlans } from '../issue/settingOut/floorPlan.ts';
import { besideOneAnother } from '../issue/settingOut/movedPlan.ts';
import type { PaperSystem } from '../issue/settingOut/papers.ts';
import { settingOutPdf } from '../issue/settingOut/settingOutPdf.ts';
import { scaleWords } from '../issue/settingOut/settingOutWords.ts';
import { documentAsMeasured } from '../measure/documentAsMeasured.ts';
import { decodeLinework } from '../sheet/lineworkWire.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { ApiFailure } from './apiFailure.ts';
import { fileNameFor, type IssuedFile } from './exports.ts';
import type { Plans } from './plans.ts';
import type { Ports } from './ports.ts';
import type { OpenProject } from './projects.ts';
import { type SheetToDraw, sheetToDraw } from './sheetToDraw.ts';
import { utf8 } from './utf8.ts';

export interface WantedDrawing {
  readonly project: OpenProject;
  readonly range: StockRange;
  readonly sheetId: SheetId;
  readonly password: string | undefined;
  /** Left out for a drawing that is not issued. */
  readonly issue?: IssuedAs | undefined;
}

interface Drawable extends SheetToDraw {
  readonly document: ProjectDocument;
  readonly rotationDeg: number;
}

/** A sheet to draw, with what its reading says of how it is turned. */
const drawableOf = async (
  plans: Plans,
  { project, range, sheetId, password }: WantedDrawing,
): Promise<Drawable> => {
  const document = documentAsMeasured(project.document);
  const drawn = sheetToDraw(document, sheetId, range);
  const { planSha256, pageNumber, layers } = drawn.sheet;
  const reading = await plans.reading(planSha256, pageNumber, { password, layers });
  return { ...drawn, document, rotationDeg: reading.sheet.rotation };
};

const nothingTraced = (): ApiFailure =>
  new ApiFailure('nothing-to-take-away', 'No run is traced on this sheet yet: trace one first.', 'sheetId');

/** The runs of a sheet with their fits as a CAD file, in millimetres at true size. */
export const exportDxf = async (
  over: { readonly plans: Plans; readonly ports: Pick<Ports, 'now'> },
  wanted: WantedDrawing,
): Promise<IssuedFile> => {
  const { document, sheet, rotationDeg, alternatives } = await drawableOf(over.plans, wanted);
  const plans = floorPlans(document, sheet.id, { rotationDeg, range: wanted.range, alternatives });
  if (plans.length === 0) throw nothingTraced();
  const plan = besideOneAnother(plans);
  const { job } = document;
  const { password } = wanted;
  const linework = decodeLinework(
    await over.plans.linework(sheet.planSha256, sheet.pageNumber, { password, layers: sheet.layers }),
  );
  const architect = architectOfPlans(plans, plan, linework, rotationDeg);
  const notes = [
    [job.name, job.number, job.site].filter(Boolean).join(', '),
    `Runs traced on ${sheet.planFileName}, page ${sheet.pageNumber}.`,
    ...plans.map(
      ({ scale, runs }) => `${runs.map(({ run }) => run.name).join(', ')}: ${scaleWords(scale, sheet)}`,
    ),
    ...(plans.length > 1
      ? ['Runs of different scale stand side by side: the distance between them means nothing.']
      : []),
    ...(wanted.issue
      ? [
          `Issue ${thisIssue(wanted.issue).number}, revision ${thisIssue(wanted.issue).letter}, ${thisIssue(wanted.issue).purpose}.`,
        ]
      : []),
    `Millimetres at true size. Origin at datum ${plan.origin}, axes as the sheet is shown. ${over.ports.now().slice(0, 10)}.`,
    `Layer ARCH-PLAN: the architect’s lines as on the sheet, cut off ${architectReachMm / 1000} m from the runs${architect.leftOut > 0 ? `; ${architect.leftOut} short ones left out` : ''}. They are what was traced from, not a survey.`,
    ...issueCautions,
  ];
  const drawing = dxfOfFloorPlan(plan, notes, architect.polylines);
  return {
    fileName: fileNameFor(`${job.name} ${sheet.name}`, 'runs.dxf'),
    mediaType: 'image/vnd.dxf',
    bytes: utf8(writeDxf(drawing)),
  };
};

/** The setting-out drawing of a sheet: plan, developed elevations and tables, ready to print to scale. */
export const exportSettingOut = async (
  over: { readonly plans: Plans; readonly ports: Pick<Ports, 'now' | 'font'> },
  wanted: WantedDrawing & { readonly paper?: PaperSystem | undefined },
): Promise<IssuedFile> => {
  const { rotationDeg: _, ...drawn } = await drawableOf(over.plans, wanted);
  const { bytes } = await over.plans.bytesOf(drawn.sheet.planSha256);
  const { ports } = over;
  const answer = await settingOutPdf(
    { bytes, password: wanted.password },
    { ...drawn, range: wanted.range },
    {
      font: await ports.font(),
      at: ports.now(),
      system: wanted.paper ?? drawn.document.issueSettings?.paper ?? 'iso',
      ...issuedByOf(drawn.document.issueSettings),
      issue: wanted.issue,
    },
  );
  if (!answer.ok) throw new ApiFailure(answer.code, answer.message, 'sheetId');
  return {
    fileName: fileNameFor(`${drawn.document.job.name} ${drawn.sheet.name}`, 'setting-out.pdf'),
    mediaType: 'application/pdf',
    bytes: answer.bytes,
  };
};

import type { PDFRef } from '@cantoo/pdf-lib';
import type { RunId } from '../../document/ids.ts';
import type { ProjectDocument, Sheet } from '../../document/projectDocument.ts';
import type { FitAlternative } from '../../fitting/fitAnswer.ts';
import { poseProblem } from '../../fitting/poseProblem.ts';
import type { Box } from '../../geometry/box.ts';
import type { Point } from '../../geometry/point.ts';
import type { ScaleOfSheet } from '../../measure/scaleOfSheet.ts';
import { mmPerUserUnit } from '../../measure/tracedRun.ts';
import type { StockRange } from '../../stock/stockSchema.ts';
import type { DisplayUnit } from '../../units/formatLength.ts';
import { type LetterBox, PaperPen } from '../drawing/paperPen.ts';
import { elevationOfRun } from '../elevation/elevationOfRun.ts';
import { chooseForAll, type FieldSize, type PlanSheet } from './choosePlans.ts';
import { drawPlanPicture, type PlanPicture } from './drawPlanPicture.ts';
import { drawUnderlay } from './drawUnderlay.ts';
import { type ElevationView, elevationView, stackViews } from './elevationSheets.ts';
import { floorPlans } from './floorPlan.ts';
import { type Paper, type PaperSystem, preferredScales } from './papers.ts';
import { type PdfPages, startPdf } from './pdfPages.ts';
import { capital, ink } from './planInk.ts';
import { type PlanUnderlay, planUnderlay } from './planUnderlay.ts';
import { settingOutTables } from './settingOutTables.ts';
import { scaleWords, settingOutCautions } from './settingOutWords.ts';
import { drawFrame, frameOf } from './sheetFrame.ts';
import { checkLine, keyBlock } from './sheetNotes.ts';
import { tableBlocks } from './tableBlocks.ts';
import { balancedFlow, type ColumnBlock, packBlocks, textBlock } from './textFlow.ts';
import { drawTitleBlock, type TitleFields, titleBlock } from './titleBlock.ts';

export type SettingOutPdf =
  | {
      readonly ok: true;
      readonly bytes: Uint8Array;
      readonly paper: Paper;
      /** The plan sheets, in their order, which come first: their scale, where the plan's origin lies, what shows the plan; mm of paper. */
      readonly plans: readonly { readonly ratio: number; readonly origin: Point; readonly field: Box }[];
      /** Each sheet's letters in mm of paper, for whoever checks that none lies over another. */
      readonly letters: readonly (readonly LetterBox[])[];
    }
  | {
      readonly ok: false;
      readonly code: 'plan-not-writable' | 'nothing-traced' | 'too-large';
      readonly message: string;
    };

/** What is written in the title block by whoever issues it; a field left out stays open to be filled by hand. */
export interface IssuedBy {
  readonly legalOwner?: string | undefined;
  readonly creator?: string | undefined;
  readonly approvalPerson?: string | undefined;
  readonly revision?: string | undefined;
}

interface Setting {
  readonly pages: PdfPages;
  readonly paper: Paper;
  readonly frame: Box;
  readonly fields: Omit<TitleFields, 'sheet' | 'sheets' | 'scale' | 'supplementaryTitle'>;
}

/** One sheet before its number is known. */
interface SheetDraft {
  readonly supplementaryTitle: string;
  readonly scale: string;
  readonly notes: readonly ColumnBlock[];
  readonly draw: (pen: PaperPen) => void;
  readonly forms?: ReadonlyMap<string, PDFRef>;
}

const stripMm = titleBlock.heightMm + 2;
/** Clear of the frame: beyond the centring marks, which reach 5 mm into it. */
const padMm = 6.5;
const viewTitleMm = 8;
const columnMm = 105;

const fieldBox = (frame: Box): Box => ({
  minX: frame.minX + padMm,
  minY: frame.minY + stripMm + 1,
  maxX: frame.maxX - padMm,
  maxY: frame.maxY - padMm,
});
const sizeOf = (box: Box): FieldSize => ({ widthMm: box.maxX - box.minX, heightMm: box.maxY - box.minY });
const planFieldOf = (paper: Paper): Box => {
  const box = fieldBox(frameOf(paper));
  return { ...box, minY: box.minY + viewTitleMm };
};

const stripOf = ({ frame }: Pick<Setting, 'frame'>) => {
  const width = frame.maxX - frame.minX - titleBlock.widthMm;
  const count = Math.max(1, Math.floor(width / columnMm));
  return { columnMm: width / count, count, heightMm: stripMm - 4, gapMm: 2.5 };
};

const drawSheet = (
  setting: Setting,
  draft: SheetDraft,
  sheet: number,
  sheets: number,
): readonly LetterBox[] => {
  const { pages, paper, frame, fields } = setting;
  const pen = new PaperPen(pages.font);
  draft.draw(pen);
  const line = { widthMm: 0.35, colour: ink };
  pen.line(
    [
      { x: frame.minX, y: frame.minY + stripMm },
      { x: frame.maxX, y: frame.minY + stripMm },
    ],
    line,
  );
  const strip = stripOf(setting);
  for (const { block, column, downMm } of packBlocks(draft.notes, strip).placed)
    pen.put(block.picture, {
      x: frame.minX + 3 + column * strip.columnMm,
      y: frame.minY + stripMm - 3 - downMm,
    });
  drawTitleBlock(
    pen,
    { x: frame.maxX - titleBlock.widthMm, y: frame.minY },
    { ...fields, scale: draft.scale, supplementaryTitle: draft.supplementaryTitle, sheet, sheets },
  );
  drawFrame(pen, paper);
  const picture = pen.picture();
  pages.addPage(paper, picture, draft.forms ?? new Map());
  return picture.letters;
};

const notesFor = (
  drawn: { readonly unit: DisplayUnit },
  kind: 'plan' | 'services' | 'elevation' | 'tables',
): readonly string[] => {
  return [
    `Lengths in ${drawn.unit === 'mm' ? 'millimetres' : 'feet and inches'}; figures count, do not scale from the print.`,
    ...(kind === 'plan' || kind === 'services'
      ? [
          'Running figures start at the circle, the datum of each straight: the point of the front line where it was traced to begin.',
        ]
      : []),
    ...settingOutCautions,
    ...(kind === 'services'
      ? [
          'Set out across the run at the middle of the services gap. Sizes, routes and heights are for the licensed trades and local codes to decide.',
        ]
      : []),
  ];
};

/**
 * The setting-out drawing of a sheet: the plan's page still vector and quietened with the runs over it at a preferred
 * scale, their developed elevations, and tables; each sheet with border, title block, cautions and a line to check the
 * print by. The same input gives the same bytes.
 */
export const settingOutPdf = async (
  source: { readonly bytes: Uint8Array; readonly password?: string | undefined },
  drawn: {
    readonly document: ProjectDocument;
    readonly sheet: Sheet;
    readonly scale: ScaleOfSheet;
    readonly range: StockRange;
    readonly alternatives: ReadonlyMap<RunId, FitAlternative>;
  },
  issued: { readonly font: Uint8Array; readonly at: string; readonly system: PaperSystem } & IssuedBy,
): Promise<SettingOutPdf> => {
  const { document, sheet, scale, range, alternatives } = drawn;
  const { job } = document;
  const { system } = issued;
  const unit: DisplayUnit = system === 'us' ? 'ft-in' : 'mm';
  const pages = await startPdf(issued.font, {
    title: `${job.name}: setting-out drawing`,
    subject: `Runs traced on ${sheet.planFileName}, page ${sheet.pageNumber}`,
    at: issued.at,
  });
  const { font } = pages;
  let underlay: PlanUnderlay;
  try {
    underlay = await planUnderlay(pages.document, source, sheet.pageNumber, sheet.layers);
  } catch (thrown) {
    const reason = thrown instanceof Error ? thrown.message : String(thrown);
    return {
      ok: false,
      code: 'plan-not-writable',
      message: `${sheet.planFileName} can’t be drawn under the runs: ${reason}. Print it to a new PDF, take that in as a sheet, and draw there.`,
    };
  }
  const plans = floorPlans(document, sheet.id, { rotationDeg: underlay.rotationDeg, range, alternatives });
  if (plans.length === 0)
    return {
      ok: false,
      code: 'nothing-traced',
      message: 'No run is traced on this sheet yet: trace one first.',
    };
  const runs = plans.flatMap((plan) => plan.runs);

  const drawings = runs.flatMap(({ runId }) => {
    const posed = poseProblem(document, runId, range);
    const drawing = elevationOfRun(document, runId, {
      range,
      unit,
      problem: posed.ok ? posed.problem : null,
      alternative: alternatives.get(runId) ?? null,
    });
    return drawing ? [drawing] : [];
  });
  const viewsOn = (paper: Paper): readonly (ElevationView | null)[] =>
    drawings.map((drawing) => elevationView(drawing, system, sizeOf(fieldBox(frameOf(paper))), font));
  const goodRatio = preferredScales[system][1]!.ratio;
  const longest = Math.max(...drawings.map(({ leftMm, rightMm }) => rightMm - leftMm));
  const largest = { iso: 811, us: 1077 }[system];
  const chosen = chooseForAll(plans, system, {
    unit,
    font,
    fieldOf: (paper) => sizeOf(planFieldOf(paper)),
    // The longest elevation should not be drawn smaller than the second largest scale, where any paper allows that.
    suits: ({ widthMm }) => longest / goodRatio + 60 <= widthMm || longest / goodRatio + 60 > largest,
  });
  const views = chosen ? viewsOn(chosen.paper) : [];
  if (!chosen || views.some((view) => view === null))
    return {
      ok: false,
      code: 'too-large',
      message: `The runs of ${sheet.name} are too far apart for any sheet: check its scale, 1:${Math.round(scale.ratio)}.`,
    };
  const { paper } = chosen;
  const frame = frameOf(paper);
  const setting: Setting = {
    pages,
    paper,
    frame,
    fields: {
      legalOwner: issued.legalOwner ?? '',
      identificationNumber: job.number ? `${job.number}-SO` : 'SO',
      dateOfIssue: issued.at.slice(0, 10),
      revision: issued.revision ?? '',
      title: job.name,
      approvalPerson: issued.approvalPerson ?? '',
      creator: issued.creator ?? '',
      documentType: 'Setting-out drawing',
      status: 'For site measure, not for manufacture',
      client: [job.client, job.site].filter(Boolean).join(', '),
      paperSize: paper.name,
    },
  };
  const strip = stripOf(setting);
  const width = strip.columnMm - 5;
  const said = { unit };
  const words = plans.map((plan) => scaleWords(plan.scale, sheet));
  const notes = (kind: Parameters<typeof notesFor>[1], about: readonly string[] = words) =>
    textBlock(font, width, { heading: 'Notes', paragraphs: [...about, ...notesFor(said, kind)] });

  const placeOf = ({ bounds }: PlanPicture): { readonly field: Box; readonly origin: Point } => {
    const field = planFieldOf(paper);
    return {
      field,
      origin: {
        x: (field.minX + field.maxX) / 2 - (bounds.minX + bounds.maxX) / 2,
        y: (field.minY + field.maxY) / 2 - (bounds.minY + bounds.maxY) / 2,
      },
    };
  };
  const planDraft = (
    { plan: shown, picture: pieces, ratio, scaleWords: atScale }: PlanSheet,
    shows: 'pieces' | 'services',
  ): SheetDraft => {
    const picture = shows === 'pieces' ? pieces : drawPlanPicture(shown, ratio, { unit, font, shows });
    const { field, origin } = placeOf(picture);
    const names = shown.runs.map(({ number, run }) => `${number} ${run.name}`).join(', ');
    const forms = new Map<string, PDFRef>();
    return {
      supplementaryTitle: `${shows === 'pieces' ? 'Plan' : 'Services'}: ${names}`,
      scale: atScale,
      notes: [
        checkLine(font),
        notes(shows === 'pieces' ? 'plan' : 'services', [scaleWords(shown.scale, sheet)]),
        keyBlock(font, width, shows),
      ],
      forms,
      draw: (pen) => {
        const mmPerUnit = mmPerUserUnit(shown.scale) / ratio;
        const { originPaper } = shown;
        for (const [name, ref] of drawUnderlay(pen, underlay, { field, origin, originPaper, mmPerUnit }))
          forms.set(name, ref);
        pen.put(picture.picture, origin);
        pen.text({
          text: shows === 'pieces' ? 'Plan' : 'Services',
          at: { x: field.minX, y: field.minY - viewTitleMm + 2 },
          capitalMm: capital.title,
          colour: ink,
        });
        pen.text({
          text: `${atScale}; the plan underneath is ${sheet.planFileName}, page ${sheet.pageNumber}`,
          at: { x: field.minX + 24, y: field.minY - viewTitleMm + 2 },
          capitalMm: capital.small,
          colour: ink,
          mostMm: field.maxX - field.minX - 26,
        });
      },
    };
  };
  const elevationDrafts = stackViews(
    views.filter((view) => view !== null),
    sizeOf(fieldBox(frame)),
  ).map((stack): SheetDraft => {
    const field = fieldBox(frame);
    return {
      supplementaryTitle: 'Developed elevations',
      scale: [...new Set(stack.map(({ view }) => view.scaleWords))].join(', '),
      notes: [checkLine(font), notes('elevation')],
      draw: (pen) => {
        for (const { view, downMm } of stack)
          pen.put(view.picture, { x: field.minX, y: field.maxY - downMm });
      },
    };
  });
  const field = fieldBox(frame);
  const tableColumns = Math.max(1, Math.floor((field.maxX - field.minX) / 130));
  const tableWidth = (field.maxX - field.minX) / tableColumns - 8;
  const { heightMm } = sizeOf(field);
  const planDrafts = [
    ...chosen.sheets.map((one) => planDraft(one, 'pieces')),
    ...chosen.sheets
      .filter((one) => one.plan.runs.some(({ services }) => services.length > 0))
      .map((one) => planDraft(one, 'services')),
  ];
  const leftOut = runs.flatMap(({ run, alternative }) =>
    (alternative?.leftOut ?? []).map(({ item, reason }) => `${run.name}: ${item}. ${reason}`),
  );
  const blocks = [
    // Notes that found no room beside the title block.
    ...[...planDrafts, ...elevationDrafts].flatMap((draft) => packBlocks(draft.notes, strip).leftOver),
    ...(leftOut.length > 0
      ? [textBlock(font, tableWidth, { heading: 'Stations that found no place', paragraphs: leftOut })]
      : []),
    ...plans
      .flatMap((plan) => settingOutTables(plan, unit))
      .flatMap((table) => tableBlocks(font, tableWidth, table, heightMm)),
  ];
  const flowed = balancedFlow(blocks, { count: tableColumns, heightMm, gapMm: 6 });
  const tableSheets = Math.max(-1, ...flowed.map((one) => one.sheet)) + 1;
  const tableDrafts = Array.from(
    { length: tableSheets },
    (_, index): SheetDraft => ({
      supplementaryTitle: 'Tables',
      scale: '',
      notes: [checkLine(font), notes('tables')],
      draw: (pen) => {
        for (const { block, sheet: on, column, downMm } of flowed)
          if (on === index)
            pen.put(block.picture, {
              x: field.minX + column * (tableWidth + 8),
              y: field.maxY - downMm,
            });
      },
    }),
  );
  const drafts = [...planDrafts, ...elevationDrafts, ...tableDrafts];
  const letters = drafts.map((draft, index) => drawSheet(setting, draft, index + 1, drafts.length));
  return {
    ok: true,
    bytes: await pages.bytes(),
    paper,
    plans: chosen.sheets.map(({ picture, ratio }) => ({ ratio, ...placeOf(picture) })),
    letters,
  };
};

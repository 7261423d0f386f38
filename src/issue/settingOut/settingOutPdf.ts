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
import type { LetterBox, PaperPen } from '../drawing/paperPen.ts';
import { drawnLength } from '../elevation/elevationChains.ts';
import { elevationOfRun } from '../elevation/elevationOfRun.ts';
import { issueCautions } from '../issueCautions.ts';
import { type IssuedAs, thisIssue } from '../issuedAs.ts';
import type { IssuedBy } from '../issuedBy.ts';
import { sectionCuts } from '../section/sectionCuts.ts';
import { sectionOfCut } from '../section/sectionOfCut.ts';
import { sectionView } from '../section/sectionView.ts';
import { chooseForAll, type PlanSheet } from './choosePlans.ts';
import { drawPlanPicture, type PlanPicture } from './drawPlanPicture.ts';
import { drawUnderlay } from './drawUnderlay.ts';
import { type DrawnView, footOfViews, layOutViews } from './elevationSheets.ts';
import { elevationStrips } from './elevationStrips.ts';
import { floorPlans } from './floorPlan.ts';
import { issueTables, revisionsBeside, revisionWords } from './issueTables.ts';
import { type Paper, type PaperSystem, papers, preferredScales } from './papers.ts';
import { startPdf } from './pdfPages.ts';
import { capital, ink } from './planInk.ts';
import { type PlanUnderlay, planUnderlay } from './planUnderlay.ts';
import { servicesBlocks } from './servicesBlocks.ts';
import { settingOutTables } from './settingOutTables.ts';
import { scaleWords } from './settingOutWords.ts';
import {
  drawSheet,
  fieldBox,
  planFieldOf,
  type SheetDraft,
  type SheetSetting,
  sizeOf,
  stripOf,
  viewTitleMm,
} from './sheetDraft.ts';
import { frameOf } from './sheetFrame.ts';
import { checkLine, keyBlock } from './sheetNotes.ts';
import { tableBlocks } from './tableBlocks.ts';
import { balancedFlow, packBlocks, textBlock } from './textFlow.ts';

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
    ...issueCautions,
    ...(kind === 'services'
      ? [
          'Set out across the run at the middle of the services gap. Sizes, routes and heights are for the licensed trades and local codes to decide.',
        ]
      : []),
  ];
};

/** What stands beside a strip of an elevation: heights, words at its ends. */
const besideStripMm = 60;

const capitalised = (text: string): string => `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;

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
  issued: {
    readonly font: Uint8Array;
    readonly at: string;
    readonly system: PaperSystem;
    /** Left out for a drawing that is not issued. */
    readonly issue?: IssuedAs | undefined;
  } & IssuedBy,
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

  const cuts = sectionCuts(runs);
  const drawings = runs.flatMap(({ runId }) => {
    const posed = poseProblem(document, runId, range);
    const drawing = elevationOfRun(document, runId, {
      range,
      unit,
      problem: posed.ok ? posed.problem : null,
      alternative: alternatives.get(runId) ?? null,
      cuts: cuts.filter(({ run }) => run.runId === runId),
    });
    return drawing ? [drawing] : [];
  });
  const lengthText = (lengthMm: number) => drawnLength(lengthMm, unit);
  const viewsOn = (paper: Paper): readonly DrawnView[] | null => {
    const fieldSize = fieldOf(paper);
    const elevations = drawings.map((drawing) =>
      elevationStrips(drawing, system, { field: fieldSize, font, lengthText }),
    );
    const sections = cuts.map((cut) => sectionView(sectionOfCut(cut, range, unit), system, fieldSize, font));
    const all = [...elevations, ...sections];
    return all.every((one) => one !== null) ? all.flat() : null;
  };
  // The smallest paper is for runs whose longest straight it holds in one strip: else a set has too many sheets.
  const longestMm = Math.max(...runs.flatMap((run) => run.straights.map((straight) => straight.lengthMm)));
  const largestRatio = preferredScales[system][0]!.ratio;
  const fieldOf = (paper: Paper) => sizeOf(fieldBox(frameOf(paper)));
  const isSmallest = (paper: Paper) => paper === papers[system][0];
  const chosen = chooseForAll(plans, system, {
    unit,
    font,
    cuts,
    fieldOf: (paper) => sizeOf(planFieldOf(paper)),
    suits: (paper) =>
      longestMm / largestRatio + besideStripMm <= fieldOf(paper).widthMm || !isSmallest(paper),
  });
  const views = chosen && viewsOn(chosen.paper);
  if (!chosen || !views)
    return {
      ok: false,
      code: 'too-large',
      message: `The runs of ${sheet.name} are too far apart for any sheet: check its scale, 1:${Math.round(scale.ratio)}.`,
    };
  const { paper } = chosen;
  const frame = frameOf(paper);
  const setting: SheetSetting = {
    pages,
    paper,
    frame,
    fields: {
      legalOwner: issued.legalOwner ?? '',
      identificationNumber: job.number ? `${job.number}-SO` : 'SO',
      dateOfIssue: issued.at.slice(0, 10),
      revision: issued.revision ?? (issued.issue ? thisIssue(issued.issue).letter : ''),
      title: job.name,
      approvalPerson: issued.approvalPerson ?? '',
      creator: issued.creator ?? '',
      documentType: 'Setting-out drawing',
      status: issued.documentStatus || 'For site measure, not for manufacture',
      responsibleDepartment: issued.responsibleDepartment ?? '',
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
        keyBlock(font, width, shows, cuts.length > 0),
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
  const stacks = layOutViews(views, sizeOf(field));
  const viewNotes = [checkLine(font), notes('elevation')];
  const blocks = [
    // Notes that found no room beside the title block.
    ...[...planDrafts.map((draft) => draft.notes), ...stacks.map(() => viewNotes)].flatMap(
      (own) => packBlocks(own, strip).leftOver,
    ),
    ...(leftOut.length > 0
      ? [textBlock(font, tableWidth, { heading: 'Stations that found no place', paragraphs: leftOut })]
      : []),
    ...[
      ...(issued.issue ? issueTables(issued.issue) : []),
      ...plans.flatMap((plan) => settingOutTables(plan, unit)),
    ].flatMap((table) => tableBlocks(font, tableWidth, table, heightMm)),
    ...servicesBlocks(plans, range, unit).map((words) => textBlock(font, tableWidth, words)),
  ];
  const drawTables = (pen: PaperPen, flowed: ReturnType<typeof balancedFlow>, on: number, topMm: number) => {
    for (const { block, sheet: own, column, downMm } of flowed)
      if (own === on)
        pen.put(block.picture, { x: field.minX + column * (tableWidth + 8), y: topMm - downMm });
  };
  // The tables share the last sheet of views where all of them find room below these.
  const footMm = footOfViews(stacks.at(-1) ?? []) + 12;
  const below = balancedFlow(blocks, { count: tableColumns, heightMm: heightMm - footMm, gapMm: 6 });
  const isShared =
    stacks.length > 0 &&
    below.every(({ block, sheet: own, downMm }) => own === 0 && footMm + downMm + block.heightMm <= heightMm);
  const viewDrafts = stacks.map((stack, index): SheetDraft => {
    const hasTables = isShared && index === stacks.length - 1;
    return {
      supplementaryTitle: capitalised(
        [...new Set(stack.map(({ view }) => view.shows)), ...(hasTables ? ['tables'] : [])].join(', '),
      ),
      scale: [...new Set(stack.map(({ view }) => view.scaleWords))].join(', '),
      notes: viewNotes,
      draw: (pen) => {
        for (const { view, rightMm, downMm } of stack)
          pen.put(view.picture, { x: field.minX + rightMm, y: field.maxY - downMm });
        if (hasTables) drawTables(pen, below, 0, field.maxY - footMm);
      },
    };
  });
  const flowed = isShared ? [] : balancedFlow(blocks, { count: tableColumns, heightMm, gapMm: 6 });
  const tableSheets = Math.max(-1, ...flowed.map((one) => one.sheet)) + 1;
  const tableDrafts = Array.from(
    { length: tableSheets },
    (_, index): SheetDraft => ({
      supplementaryTitle: 'Tables',
      scale: '',
      notes: [checkLine(font), notes('tables')],
      draw: (pen) => drawTables(pen, flowed, index, field.maxY),
    }),
  );
  const revisions =
    issued.issue &&
    textBlock(font, width, {
      heading: 'Revisions',
      paragraphs: issued.issue.revisions.slice(-revisionsBeside).map(revisionWords),
    });
  /** The revisions beside the title block where there is room for them; the table has them in any case. */
  const withRevisions = (draft: SheetDraft): SheetDraft => {
    if (!revisions) return draft;
    const notes = [...draft.notes, revisions];
    const { leftOver } = packBlocks(draft.notes, strip);
    const fits = packBlocks(notes, strip).leftOver.every((block) => leftOver.includes(block));
    return fits ? { ...draft, notes } : draft;
  };
  const drafts = [...planDrafts, ...viewDrafts, ...tableDrafts].map(withRevisions);
  const letters = drafts.map((draft, index) => drawSheet(setting, draft, index + 1, drafts.length));
  return {
    ok: true,
    bytes: await pages.bytes(),
    paper,
    plans: chosen.sheets.map(({ picture, ratio }) => ({ ratio, ...placeOf(picture) })),
    letters,
  };
};

import fontkit from '@cantoo/fontkit';
import { PDFDocument, PDFName, type PDFPage } from '@cantoo/pdf-lib';
import type { RunId } from '../../document/ids.ts';
import type { ProjectDocument, Sheet } from '../../document/projectDocument.ts';
import type { FitAlternative } from '../../fitting/fitAnswer.ts';
import { drawnScaleOfRun, type ScaleOfSheet } from '../../measure/scaleOfSheet.ts';
import type { StockRange } from '../../stock/stockSchema.ts';
import { issueCautions } from '../issueCautions.ts';
import type { RevisionLine } from '../issuedAs.ts';
import { layerRef, switchLayers } from '../planLayers.ts';
import { wrappedLines } from '../settingOut/textFlow.ts';
import { drawRunOverPlan, readableAngle } from './drawRunOverPlan.ts';
import { OverlayPen } from './overlayPen.ts';

export type PlanPdf =
  | { readonly ok: true; readonly bytes: Uint8Array }
  | { readonly ok: false; readonly code: 'plan-not-writable'; readonly message: string };

/** The foot of the visible page, lower left as it is shown: how text runs there, and how long it may be. */
const footOf = (page: PDFPage, rotationDeg: number, inset: number) => {
  const box = page.getCropBox();
  const angleRad = (rotationDeg * Math.PI) / 180;
  const right = { x: Math.cos(angleRad), y: Math.sin(angleRad) };
  const up = { x: -right.y, y: right.x };
  const corners = [
    { x: box.x, y: box.y },
    { x: box.x + box.width, y: box.y },
    { x: box.x + box.width, y: box.y + box.height },
    { x: box.x, y: box.y + box.height },
  ];
  const along = corners.map(({ x, y }) => x * right.x + y * right.y);
  const across = Math.min(...along) + inset;
  const rise = Math.min(...corners.map(({ x, y }) => x * up.x + y * up.y)) + inset;
  return {
    width: Math.max(...along) - inset - across,
    place: (alongText: number, above: number) => ({
      x: right.x * (across + alongText) + up.x * (rise + above),
      y: right.y * (across + alongText) + up.y * (rise + above),
    }),
  };
};

const writeFoot = (
  pen: OverlayPen,
  page: PDFPage,
  rotationDeg: number,
  sentences: readonly string[],
): void => {
  const heightPt = 6;
  const { width, place } = footOf(page, rotationDeg, pen.units(14));
  const angleRad = readableAngle((rotationDeg * Math.PI) / 180, rotationDeg);
  const lines = sentences.flatMap((sentence) =>
    wrappedLines(sentence, width, (text) => pen.textLength(text, heightPt)),
  );
  for (const [index, text] of lines.entries()) {
    const above = pen.units((lines.length - 1 - index) * heightPt * 1.5);
    pen.letter({
      text,
      at: place(pen.textLength(text, heightPt) / 2, above),
      angleRad,
      heightPt,
      colour: [0.11, 0.12, 0.13],
    });
  }
};

/**
 * The sheet's own page, still vector, with the runs of the sheet and their fits drawn over it in place. The page's
 * boxes, rotation and UserUnit stay as they are.
 *
 * @param source the plan as it came in.
 * @param drawn what to draw; `alternatives` has the fit to show for each run, where there is one.
 * @param issued who drew it and when, written at the foot.
 */
export const drawPlanPdf = async (
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
    /** Left out for a drawing that is not issued. */
    readonly issue?: RevisionLine;
  },
): Promise<PlanPdf> => {
  const { document, sheet, scale, range, alternatives } = drawn;
  let plan: PDFDocument;
  let page: PDFPage | undefined;
  try {
    plan = await PDFDocument.load(source.bytes, {
      // Many plans are protected against change alone: they open with an empty password.
      password: source.password ?? '',
      updateMetadata: false,
    });
    for (let number = plan.getPageCount(); number >= 1; number -= 1)
      if (number !== sheet.pageNumber) plan.removePage(number - 1);
    page = plan.getPages()[0];
  } catch (thrown) {
    const reason = thrown instanceof Error ? thrown.message : String(thrown);
    return {
      ok: false,
      code: 'plan-not-writable',
      message: `Nothing can be drawn into ${sheet.planFileName}: ${reason}. Print it to a new PDF, take that in as a sheet, and draw there.`,
    };
  }
  if (!page)
    return {
      ok: false,
      code: 'plan-not-writable',
      message: `${sheet.planFileName} has no page ${sheet.pageNumber}.`,
    };
  plan.registerFontkit(fontkit);
  const font = await plan.embedFont(issued.font, { subset: true });
  const rotationDeg = page.getRotation().angle;
  const pen = new OverlayPen({
    userUnit: sheet.userUnit,
    font,
    fontKey: page.node.newFontDictionary('FootrailSans', font.ref),
  });
  for (const runId of document.runIds) {
    const run = document.runs[runId];
    if (run?.sheetId !== sheet.id) continue;
    const alternative = alternatives.get(runId) ?? null;
    const own = drawnScaleOfRun(document, run) ?? scale;
    drawRunOverPlan(pen, { document, run, alternative, scale: own, range, rotationDeg });
  }
  const decimals = scale.ratio >= 1000 ? 0 : 2;
  const sure = (scale.relativeUncertainty * 100).toFixed(2);
  writeFoot(pen, page, rotationDeg, [
    `${document.job.name}: runs and modules drawn over ${sheet.planFileName}, page ${sheet.pageNumber}. Scale 1:${Number(scale.ratio.toFixed(decimals))} ± ${sure} % (k = 2). ${issued.issue ? `Issue ${issued.issue.number}, revision ${issued.issue.letter}, ` : ''}${issued.at.slice(0, 10)}. Lengths in mm.`,
    ...issueCautions,
  ]);
  page.pushOperators(...pen.operators);
  switchLayers(plan, sheet.layers, (id) => {
    const ref = layerRef(id);
    return ref && plan.context.lookup(ref) ? ref : null;
  });
  plan.catalog.delete(PDFName.of('OpenAction'));
  plan.catalog.delete(PDFName.of('AA'));
  return { ok: true, bytes: await plan.save({ useObjectStreams: false }) };
};

import { PDFDocument, PDFName, PDFString, StandardFonts } from '@cantoo/pdf-lib';
import { demoPlanOrigin, demoRatio, pointsPerMm } from './demoPlacement.ts';
import { drawBackOfHouse } from './drawBackOfHouse.ts';
import { drawBar, letterBar } from './drawBar.ts';
import type { DrawnDimension } from './drawDimensions.ts';
import { drawFurniture } from './drawFurniture.ts';
import { drawGrid, drawPlanDimensions, letterRooms } from './drawGrid.ts';
import {
  demoProject,
  drawNorthArrow,
  drawScaleBar,
  drawTitleBlock,
  drawViewTitle,
  sheetSize,
} from './drawTitleBlock.ts';
import { drawOpenings, drawWalls } from './drawWalls.ts';
import { type PenFont, type PenSheet, startSheet } from './planPen.ts';

/** Draws the whole sheet and says which dimensions it drew, in room millimetres of the plan. */
export const drawDemoSheet = (fonts: {
  readonly regular: PenFont;
  readonly bold: PenFont;
}): { readonly sheet: PenSheet; readonly dimensions: readonly DrawnDimension[] } => {
  const sheet = startSheet({ fonts, unitsPerMm: pointsPerMm });
  const plan = sheet.pen.inView(demoPlanOrigin, demoRatio);
  drawGrid(plan);
  drawWalls(plan);
  drawFurniture(plan);
  drawBackOfHouse(plan);
  drawBar(plan);
  drawOpenings(plan);
  letterBar(plan);
  letterRooms(plan);
  const dimensions = drawPlanDimensions(plan);
  drawTitleBlock(sheet.pen);
  sheet.pen.layer('Sheet', () => {
    drawViewTitle(sheet.pen, [40, 150], { mark: '1', name: 'GROUND FLOOR PLAN' });
    drawNorthArrow(sheet.pen, [200, 148]);
    drawScaleBar(sheet.pen, [235, 146]);
  });
  return { sheet, dimensions };
};

/**
 * Draws the plan of the demo venue: one A1 sheet at 1:50, all vector, with layers as optional content groups. The
 * same bytes every time: no clock, no chance.
 */
export const drawDemoPlan = async (): Promise<Uint8Array> => {
  const document = await PDFDocument.create({ updateMetadata: false });
  const date = new Date(Date.UTC(2026, 1, 12, 9, 0, 0));
  document.setTitle(`${demoProject.number} ${demoProject.drawing}, ${demoProject.venue}`);
  document.setAuthor(demoProject.architect);
  document.setSubject(`${demoProject.venue}, ${demoProject.place} (an invented venue)`);
  document.setCreationDate(date);
  document.setModificationDate(date);
  const page = document.addPage([sheetSize.width * pointsPerMm, sheetSize.height * pointsPerMm]);

  const regular = await document.embedFont(StandardFonts.Helvetica);
  const bold = await document.embedFont(StandardFonts.HelveticaBold);
  const asPenFont = (font: typeof regular, resource: string): PenFont => ({
    resource,
    width: (text, size) => font.widthOfTextAtSize(text, size),
    encode: (text) => font.encodeText(text).toString(),
  });
  const { sheet } = drawDemoSheet({ regular: asPenFont(regular, 'F1'), bold: asPenFont(bold, 'F2') });

  const { context } = document;
  const groups = sheet
    .layers()
    .map((name) => context.register(context.obj({ Type: 'OCG', Name: PDFString.of(name), Usage: {} })));
  document.catalog.set(
    PDFName.of('OCProperties'),
    context.obj({
      OCGs: groups,
      D: { Name: PDFString.of('Layers'), Order: groups, ON: groups, BaseState: 'ON' },
    }),
  );
  page.node.setFontDictionary(PDFName.of('F1'), regular.ref);
  page.node.setFontDictionary(PDFName.of('F2'), bold.ref);
  const resources = page.node.Resources();
  if (resources === undefined) throw new Error('a new page has no resources');
  resources.set(
    PDFName.of('Properties'),
    context.obj(Object.fromEntries(groups.map((group, index) => [`Layer${index}`, group]))),
  );
  page.node.addContentStream(context.register(context.flateStream(sheet.content())));
  return document.save({ useObjectStreams: false, addDefaultPage: false, updateFieldAppearances: false });
};

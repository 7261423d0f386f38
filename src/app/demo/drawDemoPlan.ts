import { PDFDocument, PDFName, PDFString, StandardFonts } from '@cantoo/pdf-lib';
import { demoPlanOrigin, demoRatio, pointsPerMm } from './demoPlacement.ts';
import { drawBackOfHouse } from './drawBackOfHouse.ts';
import { drawBar, letterBar } from './drawBar.ts';
import { drawBackElevation, drawBarSection, drawFrontElevation, drawViewMarks } from './drawBarViews.ts';
import { drawFurniture } from './drawFurniture.ts';
import { drawGrid, drawPlanDimensions, letterRooms } from './drawGrid.ts';
import { drawKeyPlan } from './drawKeyPlan.ts';
import { drawSchedules } from './drawSchedules.ts';
import {
  demoProject,
  drawNorthArrow,
  drawScaleBar,
  drawTitleBlock,
  drawViewTitle,
  schedulePlace,
  sheetSize,
} from './drawTitleBlock.ts';
import { drawOpenings, drawWalls } from './drawWalls.ts';
import { type PenFont, type PenSheet, startSheet } from './planPen.ts';

const drawSheet = (fonts: { readonly regular: PenFont; readonly bold: PenFont }): PenSheet => {
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
  drawPlanDimensions(plan);
  drawViewMarks(plan);
  drawBarSection(sheet.pen.inView([57, 48], demoRatio));
  drawFrontElevation(sheet.pen.inView([222, 48], demoRatio));
  drawBackElevation(sheet.pen.inView([480, 48], demoRatio));
  drawTitleBlock(sheet.pen);
  const schedulesEnd = drawSchedules(sheet.pen, schedulePlace);
  drawKeyPlan(sheet.pen, { ...schedulePlace, top: schedulesEnd - 4 });
  sheet.pen.layer('Sheet', () => {
    drawViewTitle(sheet.pen, [40, 152], { mark: '1', name: 'GROUND FLOOR PLAN' });
    drawViewTitle(sheet.pen, [40, 24], { mark: 'A', name: 'SECTION THROUGH FRONT BAR', length: 100 });
    drawViewTitle(sheet.pen, [198, 24], { mark: 'B', name: 'FRONT BAR, CUSTOMER SIDE' });
    drawViewTitle(sheet.pen, [470, 24], { mark: 'C', name: 'BACK BAR' });
    drawNorthArrow(sheet.pen, [186, 151]);
    drawScaleBar(sheet.pen, [225, 150]);
  });
  return sheet;
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
  const sheet = drawSheet({ regular: asPenFont(regular, 'F1'), bold: asPenFont(bold, 'F2') });

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

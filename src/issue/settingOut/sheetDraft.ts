import type { PDFRef } from '@cantoo/pdf-lib';
import type { Box } from '../../geometry/box.ts';
import { type LetterBox, PaperPen } from '../drawing/paperPen.ts';
import type { FieldSize } from './choosePlans.ts';
import type { Paper } from './papers.ts';
import type { PdfPages } from './pdfPages.ts';
import { ink } from './planInk.ts';
import { drawFrame, frameOf } from './sheetFrame.ts';
import { type ColumnBlock, packBlocks } from './textFlow.ts';
import { drawTitleBlock, type TitleFields, titleBlock } from './titleBlock.ts';

/** What the sheets of a set share. */
export interface SheetSetting {
  readonly pages: PdfPages;
  readonly paper: Paper;
  readonly frame: Box;
  readonly fields: Omit<TitleFields, 'sheet' | 'sheets' | 'scale' | 'supplementaryTitle'>;
}

/** One sheet before its number is known. */
export interface SheetDraft {
  readonly supplementaryTitle: string;
  readonly scale: string;
  readonly notes: readonly ColumnBlock[];
  readonly draw: (pen: PaperPen) => void;
  readonly forms?: ReadonlyMap<string, PDFRef>;
}

const stripMm = titleBlock.heightMm + 2;
/** Clear of the frame: beyond the centring marks, which reach 5 mm into it. */
const padMm = 6.5;
/** Room for the title under a plan. */
export const viewTitleMm = 8;
const columnMm = 105;

/** What of a sheet is free for drawing: within the frame, over the strip of notes and title block. */
export const fieldBox = (frame: Box): Box => ({
  minX: frame.minX + padMm,
  minY: frame.minY + stripMm + 1,
  maxX: frame.maxX - padMm,
  maxY: frame.maxY - padMm,
});
/** Width and height of a box of the paper, mm. */
export const sizeOf = (box: Box): FieldSize => ({
  widthMm: box.maxX - box.minX,
  heightMm: box.maxY - box.minY,
});
/** Where a plan stands on a paper: the field, less its title. */
export const planFieldOf = (paper: Paper): Box => {
  const box = fieldBox(frameOf(paper));
  return { ...box, minY: box.minY + viewTitleMm };
};

/** The columns of notes beside the title block. */
export const stripOf = ({ frame }: Pick<SheetSetting, 'frame'>) => {
  const width = frame.maxX - frame.minX - titleBlock.widthMm;
  const count = Math.max(1, Math.floor(width / columnMm));
  return { columnMm: width / count, count, heightMm: stripMm - 4, gapMm: 2.5 };
};

/** Draws a sheet with its notes, title block and border, and adds it to the document; gives its letters. */
export const drawSheet = (
  setting: SheetSetting,
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

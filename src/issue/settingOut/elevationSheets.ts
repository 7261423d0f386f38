import type { Drawing } from '../drawing/drawing.ts';
import { drawingToPdf } from '../drawing/drawingToPdf.ts';
import { PaperPen, type PaperPicture, type PenFont } from '../drawing/paperPen.ts';
import { settleDrawing } from '../drawing/settleDrawing.ts';
import type { FieldSize } from './choosePlans.ts';
import { capital, ink, quiet } from './planInk.ts';

/** One drawing of a sheet, its upper left corner at the origin. */
export interface DrawnView {
  readonly shows: 'developed elevations' | 'sections';
  readonly picture: PaperPicture;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly ratio: number;
  readonly scaleWords: string;
}

const titleMm = 9;
/** Between drawings of one sheet. */
const betweenMm = 10;

/** A drawing with its title at one scale; null where it does not fit the field. */
export const viewAt = (
  drawing: Drawing,
  { ratio, words }: { readonly ratio: number; readonly words: string },
  field: FieldSize,
  font: PenFont,
): DrawnView | null => {
  // Too long even without its texts: not worth laying out.
  if ((drawing.rightMm - drawing.leftMm) / ratio > field.widthMm) return null;
  const settled = settleDrawing(drawing, ratio);
  const { bounds, levels } = settled;
  const left = Math.min(0, bounds.left) - levels.widthMm;
  const widthMm = bounds.right - left;
  const heightMm = bounds.top - bounds.bottom + titleMm;
  if (widthMm > field.widthMm || heightMm > field.heightMm) return null;
  const pen = new PaperPen(font);
  const room = Math.max(60, widthMm);
  const titleWidth = Math.min(room * 0.5, pen.textWidth(drawing.title, capital.title));
  pen.text({
    text: drawing.title,
    at: { x: 0, y: -4.5 },
    capitalMm: capital.title,
    colour: ink,
    mostMm: titleWidth,
  });
  const caption = `${words}; ${drawing.caption}`;
  const captionMm = Math.max(
    20,
    Math.min(pen.textWidth(caption, capital.small), field.widthMm - titleWidth - 5),
  );
  pen.text({
    text: caption,
    at: { x: titleWidth + 4, y: -4.5 },
    capitalMm: capital.small,
    colour: quiet,
    mostMm: captionMm,
  });
  const body = new PaperPen(font);
  drawingToPdf(body, settled);
  pen.put(body.picture(), { x: -left, y: -titleMm - bounds.top });
  return {
    shows: 'developed elevations',
    picture: pen.picture(),
    widthMm: Math.max(widthMm, titleWidth + 4 + captionMm),
    heightMm,
    ratio,
    scaleWords: words,
  };
};

/** A view in its place on a sheet, from the field's upper left corner. */
export interface PlacedView {
  readonly view: DrawnView;
  readonly rightMm: number;
  readonly downMm: number;
}

/** Lays views out in rows, in their order, on as few sheets as that takes. */
export const layOutViews = (
  views: readonly DrawnView[],
  field: FieldSize,
): readonly (readonly PlacedView[])[] => {
  const sheets: PlacedView[][] = [];
  let row = { downMm: Number.POSITIVE_INFINITY, heightMm: 0, rightMm: 0 };
  for (const view of views) {
    const isBeside =
      row.rightMm > 0 &&
      row.rightMm + view.widthMm <= field.widthMm &&
      row.downMm + view.heightMm <= field.heightMm;
    if (!isBeside) {
      const downMm = row.downMm + (row.rightMm > 0 ? row.heightMm + betweenMm : 0);
      const isBelow = downMm + view.heightMm <= field.heightMm;
      if (!isBelow) sheets.push([]);
      row = { downMm: isBelow ? downMm : 0, heightMm: 0, rightMm: 0 };
    }
    sheets.at(-1)?.push({ view, rightMm: row.rightMm, downMm: row.downMm });
    row = {
      ...row,
      heightMm: Math.max(row.heightMm, view.heightMm),
      rightMm: row.rightMm + view.widthMm + betweenMm,
    };
  }
  return sheets;
};

/** How far down the views of a sheet reach. */
export const footOfViews = (placed: readonly PlacedView[]): number =>
  Math.max(0, ...placed.map(({ view, downMm }) => downMm + view.heightMm));

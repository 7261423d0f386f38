import type { Drawing } from '../drawing/drawing.ts';
import { drawingToPdf } from '../drawing/drawingToPdf.ts';
import { PaperPen, type PaperPicture, type PenFont } from '../drawing/paperPen.ts';
import { settleDrawing } from '../drawing/settleDrawing.ts';
import type { FieldSize } from './choosePlans.ts';
import { type PaperSystem, preferredScales } from './papers.ts';
import { capital, ink, quiet } from './planInk.ts';

/** One drawing of an elevation sheet, its upper left corner at the origin. */
export interface ElevationView {
  readonly picture: PaperPicture;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly ratio: number;
  readonly scaleWords: string;
}

const titleMm = 9;
/** More than the larger of a set's drawings may leave free below it before the next one is put on its own sheet. */
const betweenMm = 10;

/** An elevation at the largest preferred scale at which it fits a field; null where none does. */
export const elevationView = (
  drawing: Drawing,
  system: PaperSystem,
  field: FieldSize,
  font: PenFont,
): ElevationView | null => {
  for (const { ratio, words } of preferredScales[system]) {
    // Too long even without its texts: not worth laying out.
    if ((drawing.rightMm - drawing.leftMm) / ratio > field.widthMm) continue;
    const settled = settleDrawing(drawing, ratio);
    const { bounds, levels } = settled;
    const left = Math.min(0, bounds.left) - levels.widthMm;
    const widthMm = bounds.right - left;
    const heightMm = bounds.top - bounds.bottom + titleMm;
    if (widthMm > field.widthMm || heightMm > field.heightMm) continue;
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
      picture: pen.picture(),
      widthMm: Math.max(widthMm, titleWidth + 4 + captionMm),
      heightMm,
      ratio,
      scaleWords: words,
    };
  }
  return null;
};

/** Stacks views on as few sheets as their heights allow, in their order. */
export const stackViews = (
  views: readonly ElevationView[],
  field: FieldSize,
): readonly (readonly { readonly view: ElevationView; readonly downMm: number }[])[] => {
  const sheets: { readonly view: ElevationView; readonly downMm: number }[][] = [];
  let down = Number.POSITIVE_INFINITY;
  for (const view of views) {
    if (down + view.heightMm > field.heightMm) {
      sheets.push([]);
      down = 0;
    }
    sheets.at(-1)?.push({ view, downMm: down });
    down += view.heightMm + betweenMm;
  }
  return sheets;
};

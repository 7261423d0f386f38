import { type DrawnArea, placement } from './detailArea.ts';
import { shownSizePoints } from './sheetFrame.ts';
import type { ViewTransform } from './viewTransform.ts';

/** A canvas with the part of the sheet that it holds. */
export interface DrawnCanvas {
  readonly canvas: HTMLCanvasElement;
  readonly area: DrawnArea;
}

/** The sheet as drawn so far: a coarse picture of all of it and, where there is one, a sharp picture of a part. */
export interface SheetPicture {
  readonly coarse: DrawnCanvas;
  readonly detail: DrawnCanvas | null;
  /** Draws another part of the sheet onto a canvas of one's own; null while the sheet is still being read. */
  readonly drawPart: ((canvas: HTMLCanvasElement, area: DrawnArea) => PartDrawing) | null;
}

/** A drawing under way. `done` is false where it was cancelled or could not be drawn. */
export interface PartDrawing {
  readonly done: Promise<boolean>;
  readonly cancel: () => void;
}

/**
 * Draws pictures of the sheet as they lie in a view, the first (of the whole sheet) lowest, onto another canvas such as
 * the magnifier's. The context's unit is the CSS pixel of that view.
 */
export function drawPictures(
  context: CanvasRenderingContext2D,
  pictures: readonly (DrawnCanvas | null)[],
  view: ViewTransform,
  paper: string,
): void {
  for (const drawn of pictures) {
    if (drawn === null || drawn.canvas.width === 0) continue;
    const at = placement(drawn.area, view);
    // Only the part of the canvas that shows: handing over all of a large canvas costs far more than drawing it.
    const left = Math.max(0, Math.floor(-at.x / at.scale));
    const top = Math.max(0, Math.floor(-at.y / at.scale));
    const right = Math.min(drawn.canvas.width, Math.ceil((view.widthPx - at.x) / at.scale));
    const bottom = Math.min(drawn.canvas.height, Math.ceil((view.heightPx - at.y) / at.scale));
    if (right <= left || bottom <= top) continue;
    const x = at.x + left * at.scale;
    const y = at.y + top * at.scale;
    const width = (right - left) * at.scale;
    const height = (bottom - top) * at.scale;
    context.drawImage(drawn.canvas, left, top, right - left, bottom - top, x, y, width, height);
  }
  // Pages are drawn on white: multiplying gives the white the colour of the paper and leaves the ink.
  const shown = shownSizePoints(view.frame);
  context.globalCompositeOperation = 'multiply';
  context.fillStyle = paper;
  context.fillRect(view.originX, view.originY, shown.width * view.pxPerPoint, shown.height * view.pxPerPoint);
  context.globalCompositeOperation = 'source-over';
}

import { type DrawnArea, placement } from './detailArea.ts';
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
}

/**
 * Draws the picture as it lies in a view onto another canvas (the magnifier's, the overview's).
 * The context's unit is the CSS pixel of that view.
 */
export function drawPicture(
  context: CanvasRenderingContext2D,
  picture: SheetPicture,
  view: ViewTransform,
  paper: string,
): void {
  for (const drawn of [picture.coarse, picture.detail]) {
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
    if (drawn === picture.coarse) {
      context.fillStyle = paper;
      context.fillRect(x, y, width, height);
    }
    context.drawImage(drawn.canvas, left, top, right - left, bottom - top, x, y, width, height);
  }
}

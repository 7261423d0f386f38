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
    const width = drawn.area.width * at.scale;
    const height = drawn.area.height * at.scale;
    if (drawn === picture.coarse) {
      context.fillStyle = paper;
      context.fillRect(at.x, at.y, width, height);
    }
    context.drawImage(drawn.canvas, at.x, at.y, width, height);
  }
}

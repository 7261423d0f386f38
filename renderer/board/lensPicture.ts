import type { Board } from './board.ts';
import type { DrawnArea } from './detailArea.ts';
import { covers, detailArea } from './detailArea.ts';
import type { DrawnCanvas, PartDrawing } from './sheetPicture.ts';
import type { ViewTransform } from './viewTransform.ts';

/** The lens has rested this long before it is drawn sharply. */
const REST_MS = 70;

/** A sharp picture for a lens, which follows the coarser ones of the board. */
export interface LensPicture {
  /** Says what the lens shows now; draws it sharply when it rests. */
  readonly want: (lens: ViewTransform, devicePixelRatio: number) => void;
  readonly drawn: () => DrawnCanvas | null;
  readonly destroy: () => void;
}

/**
 * Draws the place under a lens at the lens's own sharpness.
 * @param onDrawn called when there is something sharper to show.
 */
export function createLensPicture(board: Board, onDrawn: () => void): LensPicture {
  let shown: DrawnCanvas | null = null;
  let spare: HTMLCanvasElement | null = null;
  let running: { readonly drawing: PartDrawing; readonly area: DrawnArea } | null = null;
  let timer: ReturnType<typeof setTimeout> | null = null;
  let basis: HTMLCanvasElement | null = null;

  const draw = async (area: DrawnArea): Promise<void> => {
    const drawPart = board.picture.get()?.drawPart;
    if (!drawPart) return;
    const canvas = spare ?? document.createElement('canvas');
    spare = null;
    const mine = { drawing: drawPart(canvas, area), area };
    running = mine;
    const isDone = await mine.drawing.done;
    if (running === mine) running = null;
    if (!isDone || basis === null) {
      spare = canvas;
      return;
    }
    spare = shown?.canvas ?? null;
    shown = { canvas, area };
    onDrawn();
  };

  const stop = (): void => {
    if (timer !== null) clearTimeout(timer);
    timer = null;
    running?.drawing.cancel();
    running = null;
  };

  return {
    want(lens, devicePixelRatio) {
      const coarse = board.picture.get()?.coarse.canvas ?? null;
      if (coarse !== basis) {
        // Another page or other layers: nothing drawn before is true any more.
        stop();
        shown = null;
        basis = coarse;
      }
      const wanted = detailArea(lens, devicePixelRatio);
      const isGood = (area: DrawnArea): boolean =>
        wanted === null || (Math.abs(area.pxPerPoint / wanted.pxPerPoint - 1) < 1e-9 && covers(area, lens));
      if (wanted === null || (shown !== null && isGood(shown.area)) || (running && isGood(running.area)))
        return;
      stop();
      timer = setTimeout(() => {
        timer = null;
        void draw(wanted);
      }, REST_MS);
    },
    drawn: () => shown,
    destroy() {
      stop();
      basis = null;
      for (const canvas of [shown?.canvas, spare]) if (canvas) canvas.width = 0;
      shown = null;
      spare = null;
    },
  };
}

import {
  AnnotationMode,
  OPS,
  type PDFDocumentProxy,
  type PDFPageProxy,
  RenderingCancelledException,
  type RenderTask,
} from 'pdfjs-dist';
import type { Board } from './board.ts';
import {
  coarseArea,
  covers,
  type DrawnArea,
  detailArea,
  isSharp,
  placement,
  visiblePart,
} from './detailArea.ts';
import { type LayerSwitches, layerConfig } from './layerConfig.ts';
import { operationsWithin } from './operationsWithin.ts';
import type { DrawnCanvas, PartDrawing } from './sheetPicture.ts';
import type { ViewTransform } from './viewTransform.ts';

/** How far the picture is: a first coarse one, the sharp one on its way, as sharp as the screen, or refused. */
export type SheetDrawingState =
  | { readonly status: 'drawing' | 'sharpening' | 'sharp' }
  | { readonly status: 'failed'; readonly code: 'page-cannot-be-drawn'; readonly message: string };

/** Longer side of the coarse picture, in canvas pixels: 23 MB at the shape of an A sheet. */
const COARSE_LONGEST_PX = 2880;

/** A zoom is drawn sharply once it has rested this long; a pan needs no rest, only a pause between drawings. */
const ZOOM_REST_MS = 110;
const PAN_PAUSE_MS = 24;

export interface SheetPainter {
  /** Shows the canvases where the view has them and starts or cancels drawings as needed. Call once a frame. */
  readonly update: () => void;
  /** Draws the sheet anew with other layers; the old picture stays until the new one is whole. */
  readonly switchLayers: (layers: LayerSwitches) => void;
  readonly destroy: () => void;
}

interface SheetPainterOptions {
  readonly page: PDFPageProxy;
  /** Needed to hide or show layers. */
  readonly pdf: PDFDocumentProxy | null;
  readonly board: Board;
  /** Element that holds the canvases; its box is the board's box. */
  readonly plane: HTMLElement;
  readonly layers: LayerSwitches;
  readonly onState: (state: SheetDrawingState) => void;
  /** Asks for {@link SheetPainter.update} in the next frame. */
  readonly requestUpdate: () => void;
}

interface Running {
  readonly task: RenderTask;
  readonly drawn: DrawnCanvas;
}

/**
 * Draws one page for one board: first all of it, coarsely, recording where each operation draws; then the visible part
 * at device sharpness, replaying only the operations that touch it. At most three canvases exist at a time.
 */
export function createSheetPainter(options: SheetPainterOptions): SheetPainter {
  const { page, pdf, board, plane, onState, requestUpdate } = options;
  let layers = options.layers;
  let coarse: DrawnCanvas | null = null;
  let isCoarseComplete = false;
  let detail: DrawnCanvas | null = null;
  let spare: HTMLCanvasElement | null = null;
  let running: Running | null = null;
  let timer: ReturnType<typeof setTimeout> | null = null;
  let isDestroyed = false;

  const stop = (): void => {
    if (timer !== null) clearTimeout(timer);
    timer = null;
    running?.task.cancel();
    running = null;
  };

  const share = (): void => {
    board.picture.set(
      coarse === null ? null : { coarse, detail, drawPart: isCoarseComplete ? drawPart : null },
    );
  };

  const start = (canvas: HTMLCanvasElement, area: DrawnArea, isRecording: boolean): RenderTask => {
    canvas.width = area.width;
    canvas.height = area.height;
    const viewport = page.getViewport({
      scale: area.pxPerPoint,
      offsetX: -area.left,
      offsetY: -area.top,
    });
    const filter =
      isRecording || coarse === null ? null : operationsWithin(page.recordedBBoxes, area, coarse.area, OPS);
    const isAsFiled = Object.keys(layers).length === 0;
    const config = pdf === null || isAsFiled ? null : layerConfig(pdf, layers);
    return page.render({
      canvas,
      viewport,
      annotationMode: AnnotationMode.ENABLE,
      recordOperations: isRecording,
      partialFrames: isRecording,
      ...(filter === null ? {} : { operationsFilter: filter }),
      ...(config === null ? {} : { optionalContentConfigPromise: config }),
    });
  };

  const drawPart = (canvas: HTMLCanvasElement, area: DrawnArea): PartDrawing => {
    const task = start(canvas, area, false);
    const done = task.promise.then(
      () => true,
      // A part that fails shows coarser; the sheet itself says so where it can't be drawn.
      () => false,
    );
    return { done, cancel: () => task.cancel() };
  };

  const failed = (error: unknown): void => {
    if (isDestroyed || error instanceof RenderingCancelledException) return;
    const reason = error instanceof Error ? error.message : String(error);
    onState({
      status: 'failed',
      code: 'page-cannot-be-drawn',
      message: `Page ${page.pageNumber} can't be drawn: ${reason}`,
    });
  };

  const drawCoarse = async (view: ViewTransform): Promise<void> => {
    onState({ status: 'drawing' });
    isCoarseComplete = false;
    // What was recorded with other layers shown would leave out operations that are visible now.
    page.recordedBBoxes = null;
    const drawn: DrawnCanvas = { canvas: newCanvas(), area: coarseArea(view, COARSE_LONGEST_PX) };
    const task = start(drawn.canvas, drawn.area, true);
    const mine: Running = { task, drawn };
    running = mine;
    const isFirstPicture = coarse === null;
    const show = (): void => {
      if (running !== mine || coarse === drawn) return;
      discard(coarse?.canvas);
      coarse = drawn;
      plane.prepend(drawn.canvas);
      share();
      requestUpdate();
    };
    // A first picture appears as it grows; a picture without some layers replaces the old one when it is whole.
    if (isFirstPicture) task.onFrame = show;
    try {
      await task.promise;
      if (running !== mine) return;
      show();
      running = null;
      isCoarseComplete = true;
      discard(detail?.canvas);
      detail = null;
      share();
      requestUpdate();
    } catch (error) {
      // A drawing that stopped half-way has recorded only half of the operations.
      page.recordedBBoxes = null;
      if (drawn !== coarse) discard(drawn.canvas);
      failed(error);
    }
  };

  const drawDetail = async (): Promise<void> => {
    const view = board.view.get();
    const area = view && detailArea(view, devicePixelRatio);
    if (!area || running !== null || !isCoarseComplete) return;
    onState({ status: 'sharpening' });
    const canvas = spare ?? newCanvas();
    spare = null;
    const drawn: DrawnCanvas = { canvas, area };
    const mine: Running = { task: start(canvas, area, false), drawn };
    running = mine;
    try {
      await mine.task.promise;
      if (running !== mine) return;
      running = null;
      const old = detail?.canvas ?? null;
      detail = drawn;
      plane.append(canvas);
      placeCanvas(drawn, board.view.get());
      requestUpdate();
      old?.remove();
      spare = old;
      share();
      requestUpdate();
    } catch (error) {
      canvas.remove();
      if (!isDestroyed) spare = canvas;
      failed(error);
    }
  };

  /** What lies wholly under the sharp picture need not be put together with it at every frame. */
  const hideCovered = (view: ViewTransform): void => {
    if (coarse !== null)
      coarse.canvas.style.visibility = detail !== null && covers(detail.area, view) ? 'hidden' : '';
  };

  const considerDetail = (view: ViewTransform): void => {
    if (!isCoarseComplete) return;
    const wanted = detailArea(view, devicePixelRatio);
    if (wanted === null || (detail !== null && isSharp(detail.area, view, devicePixelRatio))) {
      stop();
      onState({ status: 'sharp' });
      return;
    }
    if (running !== null) {
      if (isSameScale(running.drawn.area, wanted) && visiblePart(running.drawn.area, view) > 0.5) return;
      running.task.cancel();
      running = null;
    }
    const isPan = detail !== null && isSameScale(detail.area, wanted);
    if (isPan && timer !== null) return;
    if (timer !== null) clearTimeout(timer);
    timer = setTimeout(
      () => {
        timer = null;
        void drawDetail();
      },
      isPan || detail === null ? PAN_PAUSE_MS : ZOOM_REST_MS,
    );
  };

  return {
    update() {
      const view = board.view.get();
      if (view === null || isDestroyed) return;
      if (coarse === null && running === null) void drawCoarse(view);
      if (coarse !== null) placeCanvas(coarse, view);
      if (detail !== null) placeCanvas(detail, view);
      hideCovered(view);
      considerDetail(view);
    },
    switchLayers(next) {
      layers = next;
      const view = board.view.get();
      if (view === null || isDestroyed) return;
      stop();
      void drawCoarse(view);
    },
    destroy() {
      isDestroyed = true;
      stop();
      for (const canvas of [coarse?.canvas, detail?.canvas, spare]) discard(canvas);
      coarse = null;
      detail = null;
      spare = null;
      board.picture.set(null);
      page.cleanup();
    },
  };
}

const isSameScale = (a: DrawnArea, b: DrawnArea): boolean => Math.abs(a.pxPerPoint / b.pxPerPoint - 1) < 1e-9;

function newCanvas(): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  canvas.className = 'sheet-view-canvas';
  canvas.setAttribute('aria-hidden', 'true');
  return canvas;
}

function placeCanvas(drawn: DrawnCanvas, view: ViewTransform | null): void {
  if (view === null) return;
  const at = placement(drawn.area, view);
  drawn.canvas.style.transform = `matrix(${at.scale}, 0, 0, ${at.scale}, ${at.x}, ${at.y})`;
}

/** Takes a canvas off the page and gives its memory back at once, without waiting for garbage collection. */
function discard(canvas: HTMLCanvasElement | null | undefined): void {
  if (!canvas) return;
  canvas.remove();
  canvas.width = 0;
  canvas.height = 0;
}

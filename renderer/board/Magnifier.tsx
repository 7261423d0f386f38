import { type ReactNode, useEffect, useLayoutEffect, useRef } from 'react';
import type { PaperPoint } from '../../src/geometry/point.ts';
import type { Board } from './board.ts';
import type { DisplayItem, DisplayList } from './displayList.ts';
import { inDrawingOrder } from './displayOrder.ts';
import { itemExtent, meets, seenExtent } from './itemExtent.ts';
import type { LabelMove } from './labelBox.ts';
import { createLensPicture, type LensPicture } from './lensPicture.ts';
import { type MarkPalette, readMarkPalette } from './markPalette.ts';
import './Magnifier.css';
import { onThemeChange } from './onThemeChange.ts';
import { createPaintCache, emptyPaintCache, type PaintCache } from './paintCache.ts';
import { paintDisplayItem } from './paintDisplayItem.ts';
import { type ScreenPoint, screenPoint } from './screenPoint.ts';
import { drawPictures } from './sheetPicture.ts';
import { toScreen, type ViewTransform } from './viewTransform.ts';

export interface MagnifierProps {
  readonly board: Board;
  /** What else to show in the lens: the marks on the sheet with the snap mark. */
  readonly items?: DisplayList | undefined;
  /** The pick to look at closely; absent: the pointer. */
  readonly at?: PaperPoint | null | undefined;
  /** Default 4. */
  readonly magnification?: number | undefined;
  /** Side of the lens, in CSS pixels. Default 168. */
  readonly sizePx?: number | undefined;
}

const NO_ITEMS: DisplayList = [];
const NO_TEXT = new Map<DisplayItem, LabelMove | null>();
/** Between the pointer and the lens, so that the lens never lies under the hand. */
const CLEAR_PX = 28;

/** A lens beside the pointer that shows the place under it larger, with cross hairs. Put it inside `SheetView`. */
export function Magnifier(props: MagnifierProps): ReactNode {
  const { board, sizePx = 168 } = props;
  const element = useRef<HTMLCanvasElement>(null);
  const redraw = useRef<() => void>(() => undefined);
  const latest = useRef(props);

  useEffect(() => {
    const canvas = element.current;
    const context = canvas?.getContext('2d', { alpha: false });
    const holder = canvas?.parentElement;
    if (!canvas || !holder || !context) return;
    const cache = createPaintCache();
    let palette = readMarkPalette(canvas);
    const layer = board.frames.addLayer(20, () => {
      drawLens(holder, canvas, context, board, latest.current, palette, cache, closer);
    });
    const closer = createLensPicture(board, layer.invalidate);
    redraw.current = layer.invalidate;
    layer.invalidate();
    const stops = [
      board.view.subscribe(layer.invalidate),
      board.pointer.subscribe(layer.invalidate),
      board.picture.subscribe(layer.invalidate),
      onThemeChange(() => {
        palette = readMarkPalette(canvas);
        emptyPaintCache(cache);
        layer.invalidate();
      }),
    ];
    return () => {
      for (const stop of stops) stop();
      closer.destroy();
      layer.remove();
    };
  }, [board]);

  useLayoutEffect(() => {
    latest.current = props;
    redraw.current();
  });

  return (
    <div className="magnifier" aria-hidden="true" style={{ width: sizePx, height: sizePx }}>
      <canvas ref={element} className="magnifier-lens" />
    </div>
  );
}

function drawLens(
  holder: HTMLElement,
  canvas: HTMLCanvasElement,
  context: CanvasRenderingContext2D,
  board: Board,
  props: MagnifierProps,
  palette: MarkPalette,
  cache: PaintCache,
  closer: LensPicture,
): void {
  const { items = NO_ITEMS, magnification = 4, sizePx = 168 } = props;
  const view = board.view.get();
  const picture = board.picture.get();
  const pointer = board.pointer.get();
  const focus = view === null ? null : props.at ? toScreen(view, props.at) : pointer;
  holder.hidden = focus === null || picture === null;
  if (view === null || focus === null || picture === null) return;

  const ratio = devicePixelRatio;
  const side = Math.round(sizePx * ratio);
  if (canvas.width !== side) {
    canvas.width = side;
    canvas.height = side;
  }
  const place = lensPlace(view, pointer ?? focus, sizePx);
  holder.style.transform = `translate(${place.x}px, ${place.y}px)`;

  const lens = lensView(view, focus, magnification, sizePx);
  context.setTransform(ratio, 0, 0, ratio, 0, 0);
  context.fillStyle = palette.desk;
  context.fillRect(0, 0, sizePx, sizePx);
  closer.want(lens, ratio);
  drawPictures(context, [picture.coarse, picture.detail, closer.drawn()], lens, palette.paper);
  const seen = seenExtent(lens, sizePx / 2);
  // No text in the lens: it is for what lies under the hand, and the board shows the words beside it.
  const setting = { context, view: lens, palette, cache, devicePixelRatio: ratio, moves: NO_TEXT };
  for (const item of inDrawingOrder(items)) {
    if (item.kind !== 'label' && meets(itemExtent(item), seen)) paintDisplayItem(setting, item);
  }
  drawCrossHairs(context, sizePx, palette);
}

/** The view in a box of the lens's size, larger, with `focus` in its middle. */
export function lensView(
  view: ViewTransform,
  focus: ScreenPoint,
  magnification: number,
  sizePx: number,
): ViewTransform {
  return {
    frame: view.frame,
    widthPx: sizePx,
    heightPx: sizePx,
    pxPerPoint: view.pxPerPoint * magnification,
    originX: sizePx / 2 - (focus.x - view.originX) * magnification,
    originY: sizePx / 2 - (focus.y - view.originY) * magnification,
  };
}

/** Above and to the right of the pointer, on the other side where the board ends. */
function lensPlace(view: ViewTransform, pointer: ScreenPoint, sizePx: number): ScreenPoint {
  const isRoomRight = pointer.x + CLEAR_PX + sizePx <= view.widthPx;
  const isRoomAbove = pointer.y - CLEAR_PX - sizePx >= 0;
  return screenPoint(
    Math.round(isRoomRight ? pointer.x + CLEAR_PX : pointer.x - CLEAR_PX - sizePx),
    Math.round(isRoomAbove ? pointer.y - CLEAR_PX - sizePx : pointer.y + CLEAR_PX),
  );
}

function drawCrossHairs(context: CanvasRenderingContext2D, sizePx: number, palette: MarkPalette): void {
  const middle = sizePx / 2;
  const gap = 9;
  const reach = 26;
  context.beginPath();
  for (const [dx, dy] of [
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
  ] as const) {
    context.moveTo(middle + dx * gap, middle + dy * gap);
    context.lineTo(middle + dx * reach, middle + dy * reach);
  }
  context.lineCap = 'butt';
  context.strokeStyle = palette.paper;
  context.lineWidth = 4;
  context.stroke();
  context.strokeStyle = palette.colour('accent');
  context.lineWidth = 1.5;
  context.stroke();
}

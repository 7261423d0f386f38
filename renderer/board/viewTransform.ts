import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { type ScreenPoint, screenPoint } from './screenPoint.ts';
import { isSameFrame, type SheetFrame, shownSizePoints } from './sheetFrame.ts';

/**
 * How a sheet lies on the screen: an immutable value that turns paper points into screen points and back.
 *
 * Paper points are the page's unrotated PDF user space, y up. Screen points are CSS pixels in the board's box, y down.
 * A zoom or pan makes a new value; nothing here touches the DOM.
 */
export interface ViewTransform {
  readonly frame: SheetFrame;
  /** Size of the board's box, in CSS pixels. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** CSS pixels for each 1/72 inch of paper (UserUnit counted in). 96/72 is print size. */
  readonly pxPerPoint: number;
  /** Where the top left corner of the sheet as shown lies on the screen, in CSS pixels. */
  readonly originX: number;
  readonly originY: number;
}

/** `[a, b, c, d, e, f]`: x' = a x + c y + e, y' = b x + d y + f, as in PDF and in canvas. */
export type Matrix = readonly [number, number, number, number, number, number];

export interface SizePx {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** CSS pixels per point at print size: CSS has 96 px to the inch (CSS Values and Units 4, section 6.2). */
export const PRINT_SIZE_PX_PER_POINT = 96 / 72;

/** Closest look that makes sense for tracing: about 180 px for each mm of paper. */
const CLOSEST_PX_PER_POINT = 64;

/**
 * Matrix from paper points to screen points.
 * The four cases are the page rotations of ISO 32000-1 table 30 (/Rotate, clockwise), with y flipped.
 */
export function paperToScreenMatrix(view: ViewTransform): Matrix {
  const [xMin, yMin, xMax, yMax] = view.frame.viewBox;
  const s = pxPerPaperUnit(view);
  const { originX, originY } = view;
  switch (view.frame.rotationDeg) {
    case 0:
      return [s, 0, 0, -s, originX - s * xMin, originY + s * yMax];
    case 90:
      return [0, s, s, 0, originX - s * yMin, originY - s * xMin];
    case 180:
      return [-s, 0, 0, s, originX + s * xMax, originY - s * yMin];
    case 270:
      return [0, -s, -s, 0, originX + s * yMax, originY + s * xMax];
  }
}

/** CSS pixels for one user-space unit of the page. */
export function pxPerPaperUnit(view: ViewTransform): number {
  return view.pxPerPoint * view.frame.userUnit;
}

/** Where a paper point shows on the screen. Counterpart of {@link toPaper}. */
export function toScreen(view: ViewTransform, point: PaperPoint): ScreenPoint {
  // Written out from the near corner rather than through the matrix: keeps full precision on pages whose box lies
  // far from the origin.
  const [xMin, yMin, xMax, yMax] = view.frame.viewBox;
  const s = pxPerPaperUnit(view);
  switch (view.frame.rotationDeg) {
    case 0:
      return screenPoint(view.originX + (point.x - xMin) * s, view.originY + (yMax - point.y) * s);
    case 90:
      return screenPoint(view.originX + (point.y - yMin) * s, view.originY + (point.x - xMin) * s);
    case 180:
      return screenPoint(view.originX + (xMax - point.x) * s, view.originY + (point.y - yMin) * s);
    case 270:
      return screenPoint(view.originX + (yMax - point.y) * s, view.originY + (xMax - point.x) * s);
  }
}

/** Which paper point lies under a screen point. Counterpart of {@link toScreen}. */
export function toPaper(view: ViewTransform, point: ScreenPoint): PaperPoint {
  const [xMin, yMin, xMax, yMax] = view.frame.viewBox;
  const s = pxPerPaperUnit(view);
  const across = (point.x - view.originX) / s;
  const down = (point.y - view.originY) / s;
  switch (view.frame.rotationDeg) {
    case 0:
      return paperPoint(xMin + across, yMax - down);
    case 90:
      return paperPoint(xMin + down, yMin + across);
    case 180:
      return paperPoint(xMax - across, yMin + down);
    case 270:
      return paperPoint(xMax - down, yMax - across);
  }
}

/** The view moved by so many CSS pixels; the sheet follows the hand. */
export function panBy(view: ViewTransform, dxPx: number, dyPx: number): ViewTransform {
  return { ...view, originX: view.originX + dxPx, originY: view.originY + dyPx };
}

/** The view enlarged by a factor (> 0) while the paper under `anchor` stays put. Kept within {@link zoomRange}. */
export function zoomAbout(view: ViewTransform, anchor: ScreenPoint, factor: number): ViewTransform {
  return zoomTo(view, anchor, view.pxPerPoint * factor);
}

/** As {@link zoomAbout}, to a given number of CSS pixels per point. */
export function zoomTo(view: ViewTransform, anchor: ScreenPoint, pxPerPoint: number): ViewTransform {
  const { min, max } = zoomRange(view.frame, view);
  const next = Math.min(max, Math.max(min, pxPerPoint));
  const ratio = next / view.pxPerPoint;
  return {
    ...view,
    pxPerPoint: next,
    originX: anchor.x - (anchor.x - view.originX) * ratio,
    originY: anchor.y - (anchor.y - view.originY) * ratio,
  };
}

/** Smallest and largest CSS pixels per point that zooming may reach for a sheet in a box of that size. */
export function zoomRange(frame: SheetFrame, size: SizePx): { readonly min: number; readonly max: number } {
  const whole = wholeSheetScale(frame, size, 0);
  return {
    min: Math.min(whole / 2, PRINT_SIZE_PX_PER_POINT),
    max: Math.max(CLOSEST_PX_PER_POINT, whole * 4),
  };
}

/** The whole sheet, centred, with a margin around it in CSS pixels. */
export function wholeSheet(frame: SheetFrame, size: SizePx, marginPx = 24): ViewTransform {
  const pxPerPoint = wholeSheetScale(frame, size, marginPx);
  const shown = shownSizePoints(frame);
  return {
    frame,
    widthPx: size.widthPx,
    heightPx: size.heightPx,
    pxPerPoint,
    originX: (size.widthPx - shown.width * pxPerPoint) / 2,
    originY: (size.heightPx - shown.height * pxPerPoint) / 2,
  };
}

function wholeSheetScale(frame: SheetFrame, size: SizePx, marginPx: number): number {
  const shown = shownSizePoints(frame);
  const across = Math.max(1, size.widthPx - 2 * marginPx) / shown.width;
  const down = Math.max(1, size.heightPx - 2 * marginPx) / shown.height;
  return Math.min(across, down);
}

/** The view in a box of another size: the whole sheet stays whole, anything else keeps its centre. */
export function withSize(view: ViewTransform, size: SizePx): ViewTransform {
  if (isWholeSheet(view)) return wholeSheet(view.frame, size);
  return {
    ...view,
    widthPx: size.widthPx,
    heightPx: size.heightPx,
    originX: view.originX + (size.widthPx - view.widthPx) / 2,
    originY: view.originY + (size.heightPx - view.heightPx) / 2,
  };
}

/** Whether the view is what {@link wholeSheet} gives. */
export function isWholeSheet(view: ViewTransform): boolean {
  const whole = wholeSheet(view.frame, view);
  return (
    Math.abs(whole.pxPerPoint / view.pxPerPoint - 1) < 1e-9 &&
    Math.abs(whole.originX - view.originX) < 0.01 &&
    Math.abs(whole.originY - view.originY) < 0.01
  );
}

/** The view at the same zoom with a paper point in its middle. */
export function centredOn(view: ViewTransform, point: PaperPoint): ViewTransform {
  const at = toScreen(view, point);
  return panBy(view, view.widthPx / 2 - at.x, view.heightPx / 2 - at.y);
}

/** The closest view that shows all of these paper points with a margin in CSS pixels; unchanged where there are none. */
export function showing(view: ViewTransform, points: readonly PaperPoint[], marginPx = 48): ViewTransform {
  if (points.length === 0) return view;
  const onScreen = points.map((point) => toScreen(view, point));
  const xs = onScreen.map((point) => point.x);
  const ys = onScreen.map((point) => point.y);
  const left = Math.min(...xs);
  const top = Math.min(...ys);
  const width = Math.max(...xs) - left;
  const height = Math.max(...ys) - top;
  const middle = toPaper(view, screenPoint(left + width / 2, top + height / 2));
  const factor = Math.min(
    Math.max(1, view.widthPx - 2 * marginPx) / Math.max(width, 1e-9),
    Math.max(1, view.heightPx - 2 * marginPx) / Math.max(height, 1e-9),
  );
  return zoomAbout(centredOn(view, middle), screenPoint(view.widthPx / 2, view.heightPx / 2), factor);
}

/** The view pulled back so that at least `keepPx` of the sheet (or all of it, if smaller) stays in the box. */
export function keptInSight(view: ViewTransform, keepPx = 64): ViewTransform {
  const shown = shownSizePoints(view.frame);
  const originX = clampOrigin(view.originX, shown.width * view.pxPerPoint, view.widthPx, keepPx);
  const originY = clampOrigin(view.originY, shown.height * view.pxPerPoint, view.heightPx, keepPx);
  return originX === view.originX && originY === view.originY ? view : { ...view, originX, originY };
}

function clampOrigin(origin: number, sheetPx: number, boxPx: number, keepPx: number): number {
  const keep = Math.min(keepPx, sheetPx, boxPx);
  return Math.min(boxPx - keep, Math.max(keep - sheetPx, origin));
}

/** Whether two views show the same thing. */
export function isSameView(a: ViewTransform, b: ViewTransform): boolean {
  return (
    a.pxPerPoint === b.pxPerPoint &&
    a.originX === b.originX &&
    a.originY === b.originY &&
    a.widthPx === b.widthPx &&
    a.heightPx === b.heightPx &&
    isSameFrame(a.frame, b.frame)
  );
}

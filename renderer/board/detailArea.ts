import { shownSizePoints } from './sheetFrame.ts';
import type { ViewTransform } from './viewTransform.ts';

/**
 * Which part of a sheet a canvas holds, at which sharpness. Positions are in canvas pixels from the top left corner
 * of the sheet as shown, at `pxPerPoint` canvas pixels per 1/72 inch; they may be fractional so that canvas pixels
 * fall exactly on device pixels for the view they were made for.
 */
export interface DrawnArea {
  readonly pxPerPoint: number;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** Memory bound for one detail canvas: 16.7 million pixels, 67 MB. */
export const MAX_DETAIL_PIXELS = 4096 * 4096;

/** Part of the box's size that is drawn beyond each of its sides, so that a short pan stays sharp. */
const OVERFLOW = 0.15;

/**
 * The whole sheet as one canvas whose longer side is at most `longestPx`, but no finer than print needs.
 * Never less than a pixel a side, whatever the shape of the page.
 */
export function coarseArea(view: ViewTransform, longestPx: number): DrawnArea {
  const shown = shownSizePoints(view.frame);
  const pxPerPoint = longestPx / Math.max(shown.width, shown.height);
  return {
    pxPerPoint,
    left: 0,
    top: 0,
    width: Math.max(1, Math.ceil(shown.width * pxPerPoint)),
    height: Math.max(1, Math.ceil(shown.height * pxPerPoint)),
  };
}

/**
 * The area to draw sharply for a view: what the box shows plus a rim, cut to the sheet, within `maxPixels`.
 * Null where the sheet is out of sight.
 *
 * @param devicePixelRatio device pixels per CSS pixel, > 0.
 */
export function detailArea(
  view: ViewTransform,
  devicePixelRatio: number,
  maxPixels: number = MAX_DETAIL_PIXELS,
): DrawnArea | null {
  // A box of more pixels than the cap is drawn a little coarser rather than not at all.
  const boxPixels = view.widthPx * view.heightPx * devicePixelRatio ** 2;
  const ratio = devicePixelRatio * Math.min(1, Math.sqrt(maxPixels / Math.max(1, boxPixels)));
  const spare = Math.sqrt(maxPixels / Math.max(1, view.widthPx * view.heightPx * ratio ** 2));
  const overflow = Math.max(0, Math.min(OVERFLOW, (spare - 1) / 2));

  const shown = shownSizePoints(view.frame);
  const pxPerPoint = view.pxPerPoint * ratio;
  const across = sharpSpan(view.originX * ratio, shown.width * pxPerPoint, view.widthPx * ratio, overflow);
  const down = sharpSpan(view.originY * ratio, shown.height * pxPerPoint, view.heightPx * ratio, overflow);
  if (across === null || down === null) return null;
  return { pxPerPoint, left: across.from, width: across.length, top: down.from, height: down.length };
}

function sharpSpan(
  origin: number,
  sheetLength: number,
  boxLength: number,
  overflow: number,
): { readonly from: number; readonly length: number } | null {
  const rim = Math.ceil(boxLength * overflow);
  // Whole device pixels on the screen, so that the canvas lands on the pixel grid when shown.
  const start = Math.max(-rim, Math.floor(origin));
  const end = Math.min(Math.ceil(boxLength) + rim, Math.ceil(origin + sheetLength));
  if (start >= Math.ceil(boxLength) || end <= 0 || end <= start) return null;
  return { from: start - origin, length: end - start };
}

/** Whether a drawn area, shown in this view, fills the visible part of the sheet pixel for pixel. */
export function isSharp(area: DrawnArea, view: ViewTransform, devicePixelRatio: number): boolean {
  const wanted = detailArea(view, devicePixelRatio);
  if (wanted === null) return true;
  if (Math.abs(area.pxPerPoint / wanted.pxPerPoint - 1) > 1e-9) return false;
  return covers(area, view) && isOnGrid(area.left - wanted.left) && isOnGrid(area.top - wanted.top);
}

const isOnGrid = (shift: number): boolean => Math.abs(shift - Math.round(shift)) < 0.02;

/** Whether a drawn area holds all that this view shows of the sheet, at whatever sharpness. */
export function covers(area: DrawnArea, view: ViewTransform): boolean {
  return visiblePart(area, view) > 0.9999;
}

/** How much of the visible part of the sheet a drawn area holds, from 0 to 1. 1 where no sheet is visible. */
export function visiblePart(area: DrawnArea, view: ViewTransform): number {
  const toArea = area.pxPerPoint / view.pxPerPoint;
  const shown = shownSizePoints(view.frame);
  const overlap = (origin: number, box: number, sheetPoints: number, from: number, length: number) => {
    const sheetEnd = sheetPoints * area.pxPerPoint;
    const seenFrom = Math.max(0, -origin * toArea);
    const seenTo = Math.min(sheetEnd, (box - origin) * toArea);
    const held = Math.min(seenTo, from + length) - Math.max(seenFrom, from);
    const seen = seenTo - seenFrom;
    return seen <= 0 ? 1 : Math.max(0, Math.min(1, held / seen));
  };
  return (
    overlap(view.originX, view.widthPx, shown.width, area.left, area.width) *
    overlap(view.originY, view.heightPx, shown.height, area.top, area.height)
  );
}

/** Where to show a canvas of this area: its top left corner and its enlargement, in CSS pixels. */
export function placement(area: DrawnArea, view: ViewTransform): { x: number; y: number; scale: number } {
  const scale = view.pxPerPoint / area.pxPerPoint;
  return { x: view.originX + area.left * scale, y: view.originY + area.top * scale, scale };
}

import type { Point } from '../../src/geometry/point.ts';
import type { DisplayItem } from './displayList.ts';
import { screenPoint } from './screenPoint.ts';
import { toPaper, type ViewTransform } from './viewTransform.ts';

/** Smallest upright rectangle, in paper points. */
export interface PaperExtent {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** Many lines lie all over the sheet: to find out where costs as much as painting them. */
const EVERYWHERE: PaperExtent = { minX: -Infinity, minY: -Infinity, maxX: Infinity, maxY: Infinity };

/** The extent of an item's paper points; text and strokes reach beyond it by pixels. */
export function itemExtent(item: DisplayItem): PaperExtent {
  if (item.kind === 'segments') return EVERYWHERE;
  return extentOf('points' in item ? item.points : [item.at]);
}

/** The paper that the box shows, with a rim around it in CSS pixels. */
export function seenExtent(view: ViewTransform, rimPx = 0): PaperExtent {
  return extentOf([
    toPaper(view, screenPoint(-rimPx, -rimPx)),
    toPaper(view, screenPoint(view.widthPx + rimPx, view.heightPx + rimPx)),
  ]);
}

/** Whether two extents share a point. */
export function meets(a: PaperExtent, b: PaperExtent): boolean {
  return a.minX <= b.maxX && a.maxX >= b.minX && a.minY <= b.maxY && a.maxY >= b.minY;
}

function extentOf(points: readonly Point[]): PaperExtent {
  let minX = Infinity;
  let minY = Infinity;
  let maxX = -Infinity;
  let maxY = -Infinity;
  for (const { x, y } of points) {
    if (x < minX) minX = x;
    if (y < minY) minY = y;
    if (x > maxX) maxX = x;
    if (y > maxY) maxY = y;
  }
  return { minX, minY, maxX, maxY };
}

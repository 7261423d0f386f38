import type { PaperPoint, Point } from '../../src/geometry/point.ts';
import type { DisplayItem, DisplayList, LabelItem } from './displayList.ts';
import { inDrawingOrder } from './displayOrder.ts';
import { placeLabel } from './placeLabel.ts';
import type { ScreenPoint } from './screenPoint.ts';
import { pxPerPaperUnit, toScreen, type ViewTransform } from './viewTransform.ts';

/** An item under the pointer. */
export interface Hit {
  readonly id: string;
  /** From the pointer to the item's line or inside, in CSS pixels; 0 inside an area. */
  readonly distancePx: number;
  /** Index of the point within reach, where there is one. */
  readonly pointIndex?: number;
  /** Index of the nearest stretch (from point i to the next), for lines and outlines within reach. */
  readonly stretchIndex?: number;
}

/** Half a comfortable target: WCAG 2.2, 2.5.8 asks for 24 px targets; lines are thinner, so the reach makes up for it. */
const DEFAULT_REACH_PX = 8;
/** How far outside an area still counts, in CSS pixels: enough for an area thinner than a pointer. */
const AREA_RIM_PX = 2;

/**
 * The items under a place on the screen, topmost first.
 *
 * @param reachPx how far from a line still counts, in CSS pixels.
 */
export function hitTest(
  list: DisplayList,
  view: ViewTransform,
  at: ScreenPoint,
  reachPx = DEFAULT_REACH_PX,
): readonly Hit[] {
  const hits: Hit[] = [];
  for (const item of inDrawingOrder(list)) {
    if (item.isHittable === false) continue;
    const hit = hitItem(item, view, at, reachPx);
    if (hit !== null) hits.unshift(hit);
  }
  return hits;
}

function hitItem(item: DisplayItem, view: ViewTransform, at: ScreenPoint, reachPx: number): Hit | null {
  switch (item.kind) {
    case 'polyline':
      return hitLine(item.id, projected(item.points, view), false, at, reachPx + item.line.widthPx / 2);
    case 'segments':
      return null;
    case 'polygon': {
      const ring = projected(item.points, view);
      // An area is picked inside; its neighbour's edge must not win because it is drawn later.
      const edge = hitLine(item.id, ring, true, at, Math.min(reachPx, AREA_RIM_PX));
      const holes = (item.holes ?? []).map((hole) => projected(hole, view));
      const isInside = isWithin(ring, at) && !holes.some((hole) => isWithin(hole, at));
      return isInside ? { ...edge, id: item.id, distancePx: 0 } : edge;
    }
    case 'mark': {
      const place = toScreen(view, item.at);
      const distancePx = Math.hypot(place.x - at.x, place.y - at.y);
      return distancePx <= reachPx ? { id: item.id, distancePx, pointIndex: 0 } : null;
    }
    case 'label':
      return isWithinLabel(item, view, at) ? { id: item.id, distancePx: 0 } : null;
  }
}

const projected = (points: readonly PaperPoint[], view: ViewTransform): ScreenPoint[] =>
  points.map((point) => toScreen(view, point));

function hitLine(
  id: string,
  points: readonly ScreenPoint[],
  isClosed: boolean,
  at: Point,
  reachPx: number,
): Hit | null {
  let distancePx = Infinity;
  let stretchIndex = -1;
  const stretches = isClosed ? points.length : points.length - 1;
  for (let index = 0; index < stretches; index += 1) {
    const from = points[index]!;
    const to = points[(index + 1) % points.length]!;
    const distance = distanceToSegment(at, from, to);
    if (distance < distancePx) {
      distancePx = distance;
      stretchIndex = index;
    }
  }
  if (distancePx > reachPx) return null;
  const pointIndex = nearestWithin(points, at, reachPx);
  return { id, distancePx, stretchIndex, ...(pointIndex === null ? {} : { pointIndex }) };
}

function nearestWithin(points: readonly Point[], at: Point, reachPx: number): number | null {
  let best: number | null = null;
  let bestPx = reachPx;
  points.forEach((point, index) => {
    const distance = Math.hypot(point.x - at.x, point.y - at.y);
    if (distance <= bestPx) {
      bestPx = distance;
      best = index;
    }
  });
  return best;
}

function distanceToSegment(at: Point, from: Point, to: Point): number {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  const squared = dx * dx + dy * dy;
  const along = squared === 0 ? 0 : ((at.x - from.x) * dx + (at.y - from.y) * dy) / squared;
  const t = Math.max(0, Math.min(1, along));
  return Math.hypot(at.x - from.x - t * dx, at.y - from.y - t * dy);
}

/** Even-odd rule, as the area is filled (ISO 32000-1 8.5.3.3.3). */
function isWithin(ring: readonly Point[], at: Point): boolean {
  let isInside = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i, i += 1) {
    const a = ring[i]!;
    const b = ring[j]!;
    if (a.y > at.y !== b.y > at.y && at.x < ((b.x - a.x) * (at.y - a.y)) / (b.y - a.y) + a.x)
      isInside = !isInside;
  }
  return isInside;
}

/** Text width is estimated, half an em a letter: hit testing needs no canvas and no font. */
function isWithinLabel(item: LabelItem, view: ViewTransform, at: Point): boolean {
  const sizePx = item.sizePx ?? 12;
  const letters = item.text.length + (item.quietText ? item.quietText.length + 1 : 0);
  const width = Math.max(sizePx, letters * sizePx * 0.55);
  if (item.roomAcrossUnits !== undefined && item.roomAcrossUnits * pxPerPaperUnit(view) < (item.sizePx ?? 12))
    return false;
  if (item.roomUnits !== undefined && item.roomUnits * pxPerPaperUnit(view) < width) return false;
  const place = placeLabel(view, item);
  const dx = at.x - place.x;
  const dy = at.y - place.y;
  const along = dx * Math.cos(place.angleRad) + dy * Math.sin(place.angleRad);
  const across = -dx * Math.sin(place.angleRad) + dy * Math.cos(place.angleRad);
  const start = { start: 0, middle: -width / 2, end: -width }[place.align];
  return along >= start && along <= start + width && Math.abs(across) <= Math.max(12, sizePx * 0.7);
}

import type { Point } from '../geometry/point.ts';
import { type BadInput, badInput } from './badInput.ts';

/** A view of a sheet, as `footrail read` gives it. */
export interface ScaledView<Scale> {
  /** [xMin, yMin, xMax, yMax] in user-space units. */
  readonly bbox: readonly [number, number, number, number];
  readonly scale: Scale;
}

/**
 * The scale that holds for some points of a sheet, such as those of a run: that of the view in which they lie, or the
 * sheet's own where it has no views or they lie outside all of them. Where views overlap, the last holds, as among
 * viewports (ISO 32000-1, 12.9.1).
 *
 * @returns `across-views` where the points lie in different views: their distance has no one scale.
 */
export const scaleAt = <Scale extends object>(
  points: readonly Point[],
  sheetScale: Scale,
  views: readonly ScaledView<Scale>[] = [],
): Scale | BadInput => {
  const viewOf = ({ x, y }: Point): ScaledView<Scale> | undefined =>
    views.findLast(({ bbox: [minX, minY, maxX, maxY] }) => x >= minX && x <= maxX && y >= minY && y <= maxY);
  const first = points[0];
  if (!first) return sheetScale;
  const view = viewOf(first);
  const strayed = points.findIndex((point) => viewOf(point) !== view);
  if (strayed >= 0) {
    const message = 'These points lie in two views of different scale: measure within one of them.';
    return badInput('across-views', message, `points[${strayed}]`);
  }
  return view?.scale ?? sheetScale;
};

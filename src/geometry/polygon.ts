import { isOnSegment } from './line.ts';
import { orientation } from './orientation.ts';
import type { Point } from './point.ts';
import { ringSegmentsOf } from './polyline.ts';

/**
 * The area of a polygon without crossings, given as a ring (the first point is not repeated): positive where the ring
 * goes anticlockwise (y up). The shoelace formula, taken about the first point so that large coordinates cost no digits.
 */
export function signedPolygonArea(ring: readonly Point[]): number {
  const origin = ring[0];
  if (origin === undefined) return 0;
  const doubled = ringSegmentsOf(ring).reduce(
    (sum, { start, end }) =>
      sum + (start.x - origin.x) * (end.y - origin.y) - (end.x - origin.x) * (start.y - origin.y),
    0,
  );
  return doubled / 2;
}

/** The area of a polygon without crossings, whichever way its ring goes. */
export const polygonArea = (ring: readonly Point[]): number => Math.abs(signedPolygonArea(ring));

/** The centre of area of a polygon without crossings; of a ring without area, the mean of its points. */
export function polygonCentroid(ring: readonly Point[]): Point | undefined {
  const origin = ring[0];
  if (origin === undefined) return undefined;
  const area = signedPolygonArea(ring);
  let x = 0;
  let y = 0;
  for (const { start, end } of ringSegmentsOf(ring)) {
    const a = { x: start.x - origin.x, y: start.y - origin.y };
    const b = { x: end.x - origin.x, y: end.y - origin.y };
    const weight = area === 0 ? 1 / (2 * ring.length) : (a.x * b.y - b.x * a.y) / (6 * area);
    x += (a.x + b.x) * weight;
    y += (a.y + b.y) * weight;
  }
  return { x: origin.x + x, y: origin.y + y };
}

/** Whether a point lies inside a polygon or on its edge (even-odd rule; exact orientation tests). */
export function isInPolygon(point: Point, ring: readonly Point[]): boolean {
  let isInside = false;
  for (const { start, end } of ringSegmentsOf(ring)) {
    const side = orientation(start, end, point);
    if (isOnSegment(point, { start, end })) return true;
    const isUpward = start.y <= point.y && point.y < end.y;
    const isDownward = end.y <= point.y && point.y < start.y;
    if ((isUpward && side > 0) || (isDownward && side < 0)) isInside = !isInside;
  }
  return isInside;
}

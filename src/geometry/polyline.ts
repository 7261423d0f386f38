import { type NearestOnSegment, nearestOnSegment, type Segment } from './line.ts';
import type { Point } from './point.ts';
import { distanceBetween, pointBetween } from './vector.ts';

/** The segments of an open polyline, one fewer than its points. */
export const segmentsOf = (points: readonly Point[]): readonly Segment[] =>
  points.slice(1).map((end, index) => ({ start: points[index]!, end }));

/** The segments of a closed ring, as many as its points: the last one leads back to the first point. */
export const ringSegmentsOf = (ring: readonly Point[]): readonly Segment[] =>
  ring.map((start, index) => ({ start, end: ring[(index + 1) % ring.length]! }));

/** The length of an open polyline. */
export const polylineLength = (points: readonly Point[]): number =>
  segmentsOf(points).reduce((sum, { start, end }) => sum + distanceBetween(start, end), 0);

/** The point of a polyline nearest to another, the index of its segment, and the length walked to reach it. */
export interface NearestOnPolyline extends NearestOnSegment {
  readonly segmentIndex: number;
  readonly along: number;
}

/** The point of a polyline that is nearest to `point`, or undefined for a polyline of fewer than two points. */
export function nearestOnPolyline(point: Point, points: readonly Point[]): NearestOnPolyline | undefined {
  let best: NearestOnPolyline | undefined;
  let walked = 0;
  for (const [segmentIndex, segment] of segmentsOf(points).entries()) {
    const nearest = nearestOnSegment(point, segment);
    const length = distanceBetween(segment.start, segment.end);
    if (best === undefined || nearest.distance < best.distance) {
      best = { ...nearest, segmentIndex, along: walked + nearest.share * length };
    }
    walked += length;
  }
  return best;
}

/**
 * The point reached by walking `along` from the polyline's first point. Walking less than nothing or more than all of
 * it stays at its ends. Undefined for a polyline without points.
 */
export function pointAlongPolyline(points: readonly Point[], along: number): Point | undefined {
  let left = along;
  for (const { start, end } of segmentsOf(points)) {
    const length = distanceBetween(start, end);
    if (left <= length) return length === 0 ? start : pointBetween(start, end, Math.max(0, left) / length);
    left -= length;
  }
  return points.at(-1);
}

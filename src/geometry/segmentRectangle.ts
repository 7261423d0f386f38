import type { Segment } from './line.ts';
import type { Point } from './point.ts';
import { leftOf, movedBy, unitVector, vectorBetween } from './vector.ts';

/** The four corners of a rectangle as a ring. */
export type Quadrilateral = readonly [Point, Point, Point, Point];

/**
 * The rectangle on one side of a segment: the segment itself is its front, and its back lies `depth` away on the left
 * (y up), or on the right for a negative depth. Corners in the order front start, front end, back end, back start.
 * Undefined for a segment of no length, which has no direction.
 *
 * @example rectangleBeside({ start: { x: 0, y: 0 }, end: { x: 3, y: 0 } }, 2) // (0,0) (3,0) (3,2) (0,2)
 */
export function rectangleBeside({ start, end }: Segment, depth: number): Quadrilateral | undefined {
  const direction = unitVector(vectorBetween(start, end));
  if (direction === undefined) return undefined;
  const towardsBack = leftOf(direction);
  return [start, end, movedBy(end, towardsBack, depth), movedBy(start, towardsBack, depth)];
}

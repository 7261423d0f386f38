import { orient2d } from 'robust-predicates';
import type { Point } from './point.ts';

/**
 * On which side of the directed line a -> b the point c lies: 1 left, -1 right, 0 exactly on it (y up). Exact for any
 * doubles: Shewchuk's adaptive predicate (Discrete & Computational Geometry 18, 1997, 305-363).
 */
export function orientation(a: Point, b: Point, c: Point): -1 | 0 | 1 {
  // The library's determinant is positive for clockwise triples where y points up.
  const determinant = orient2d(a.x, a.y, b.x, b.y, c.x, c.y);
  if (determinant === 0) return 0;
  return determinant < 0 ? 1 : -1;
}

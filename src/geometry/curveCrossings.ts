import type { Point } from './point.ts';
import { cross, distanceBetween, dot, leftOf, movedBy, type Vector, vectorBetween } from './vector.ts';

/** A whole line (by a point and its unit direction) or a whole circle. */
export type Curve =
  | { readonly at: Point; readonly along: Vector }
  | { readonly centre: Point; readonly radius: number };

/** Where two lines or circles cross: none, one or two points. Circles of no radius cross nothing. */
export const curveCrossings = (one: Curve, other: Curve): readonly Point[] => {
  if ('along' in one) {
    if ('along' in other) {
      const sine = cross(one.along, other.along);
      if (Math.abs(sine) < 1e-9) return [];
      return [movedBy(one.at, one.along, cross(vectorBetween(one.at, other.at), other.along) / sine)];
    }
    const toCentre = vectorBetween(one.at, other.centre);
    const along = dot(toCentre, one.along);
    const square = other.radius ** 2 - cross(one.along, toCentre) ** 2;
    if (other.radius <= 0 || square < 0) return [];
    return [-1, 1].map((sign) => movedBy(one.at, one.along, along + sign * Math.sqrt(square)));
  }
  if ('along' in other) return curveCrossings(other, one);
  const apart = distanceBetween(one.centre, other.centre);
  if (one.radius <= 0 || other.radius <= 0 || apart === 0) return [];
  const along = (apart ** 2 + one.radius ** 2 - other.radius ** 2) / (2 * apart);
  const square = one.radius ** 2 - along ** 2;
  if (square < 0) return [];
  const way = vectorBetween(one.centre, other.centre);
  const unit = { x: way.x / apart, y: way.y / apart };
  const foot = movedBy(one.centre, unit, along);
  return [-1, 1].map((sign) => movedBy(foot, leftOf(unit), sign * Math.sqrt(square)));
};

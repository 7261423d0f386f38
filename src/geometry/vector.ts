import type { Point } from './point.ts';

/** A displacement: the same two numbers as a point, but with a direction and no place. */
export interface Vector {
  readonly x: number;
  readonly y: number;
}

/** The point reached from `point` by going `distance` along `direction`. */
export const movedBy = (point: Point, direction: Vector, distance = 1): Point => ({
  x: point.x + direction.x * distance,
  y: point.y + direction.y * distance,
});

/** The way from one point to another. */
export const vectorBetween = (from: Point, to: Point): Vector => ({ x: to.x - from.x, y: to.y - from.y });

/** The vector `factor` times as long. */
export const scaledBy = (vector: Vector, factor: number): Vector => ({
  x: vector.x * factor,
  y: vector.y * factor,
});

/** The scalar product. */
export const dot = (a: Vector, b: Vector): number => a.x * b.x + a.y * b.y;

/** The z component of the cross product: positive where `b` points to the left of `a` (y up). */
export const cross = (a: Vector, b: Vector): number => a.x * b.y - a.y * b.x;

/** How long a vector is. */
export const magnitudeOf = (vector: Vector): number => Math.hypot(vector.x, vector.y);

/** How far two points lie apart. */
export const distanceBetween = (a: Point, b: Point): number => Math.hypot(b.x - a.x, b.y - a.y);

/** The vector of length 1 in the same direction, or undefined for a vector of no length. */
export function unitVector(vector: Vector): Vector | undefined {
  const size = magnitudeOf(vector);
  return size > 0 && Number.isFinite(size) ? { x: vector.x / size, y: vector.y / size } : undefined;
}

/** The vector turned by a quarter turn anticlockwise (y up): it points to the left of `vector`. */
export const leftOf = (vector: Vector): Vector => ({ x: vector.y === 0 ? 0 : -vector.y, y: vector.x });

/** The vector turned anticlockwise (y up) by `angleRad`. */
export function turnedBy(vector: Vector, angleRad: number): Vector {
  const cosine = Math.cos(angleRad);
  const sine = Math.sin(angleRad);
  return { x: vector.x * cosine - vector.y * sine, y: vector.x * sine + vector.y * cosine };
}

/** The point at `share` of the way from `from` (0) to `to` (1); shares outside lie on the extension. */
export const pointBetween = (from: Point, to: Point, share: number): Point => ({
  x: from.x + (to.x - from.x) * share,
  y: from.y + (to.y - from.y) * share,
});

import type { Point } from './point.ts';

/** An upright rectangle, in the order of a PDF rectangle once normalised. */
export interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** The smallest box around points, or undefined for none. */
export function boxAround(points: Iterable<Point>): Box | undefined {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y } of points) {
    minX = Math.min(minX, x);
    minY = Math.min(minY, y);
    maxX = Math.max(maxX, x);
    maxY = Math.max(maxY, y);
  }
  return minX <= maxX && minY <= maxY ? { minX, minY, maxX, maxY } : undefined;
}

/** The box between any two opposite corners, such as those of a PDF rectangle [x1 y1 x2 y2]. */
export const boxBetween = (a: Point, b: Point): Box => ({
  minX: Math.min(a.x, b.x),
  minY: Math.min(a.y, b.y),
  maxX: Math.max(a.x, b.x),
  maxY: Math.max(a.y, b.y),
});

/** The smallest box around two boxes. */
export const boxAroundBoth = (a: Box, b: Box): Box => ({
  minX: Math.min(a.minX, b.minX),
  minY: Math.min(a.minY, b.minY),
  maxX: Math.max(a.maxX, b.maxX),
  maxY: Math.max(a.maxY, b.maxY),
});

/** The box with `margin` added on every side (taken off where negative). */
export const grownBox = (box: Box, margin: number): Box => ({
  minX: box.minX - margin,
  minY: box.minY - margin,
  maxX: box.maxX + margin,
  maxY: box.maxY + margin,
});

/** Whether a point lies in a box or on its edge. */
export const isInBox = ({ x, y }: Point, box: Box): boolean =>
  box.minX <= x && x <= box.maxX && box.minY <= y && y <= box.maxY;

/** Whether two boxes share a point, touching included. */
export const doBoxesTouch = (a: Box, b: Box): boolean =>
  a.minX <= b.maxX && b.minX <= a.maxX && a.minY <= b.maxY && b.minY <= a.maxY;

/** The width of a box, along x. */
export const boxWidth = (box: Box): number => box.maxX - box.minX;

/** The height of a box, along y. */
export const boxHeight = (box: Box): number => box.maxY - box.minY;

/** The middle of a box. */
export const boxCentre = (box: Box): Point => ({
  x: (box.minX + box.maxX) / 2,
  y: (box.minY + box.maxY) / 2,
});

/** The corners of a box, anticlockwise (y up) from its lower left. */
export const boxCorners = ({ minX, minY, maxX, maxY }: Box): readonly [Point, Point, Point, Point] => [
  { x: minX, y: minY },
  { x: maxX, y: minY },
  { x: maxX, y: maxY },
  { x: minX, y: maxY },
];

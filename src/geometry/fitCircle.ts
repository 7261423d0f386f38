import type { Point } from './point.ts';

/** A circle through points as well as one can be drawn. */
export interface FittedCircle {
  readonly centre: Point;
  readonly radius: number;
  /** Greatest distance of a point from the circle. */
  readonly residual: number;
}

const residualOf = (points: readonly Point[], { x, y }: Point, radius: number): number =>
  points.reduce((most, point) => Math.max(most, Math.abs(Math.hypot(point.x - x, point.y - y) - radius)), 0);

/**
 * The start: the circle that makes the sum of (|p - c|^2 - r^2)^2 least, which is linear in c (I. Kasa, "A circle fitting
 * procedure and its error analysis", IEEE Trans. Instrum. Meas. 25, 1976, 8-14; from memory). It takes short arcs for
 * tighter than they are.
 */
const kasaCentre = (points: readonly Point[]): Point | undefined => {
  let [xx, xy, yy, xz, yz] = [0, 0, 0, 0, 0];
  for (const { x, y } of points) {
    const z = x * x + y * y;
    xx += x * x;
    xy += x * y;
    yy += y * y;
    xz += x * z;
    yz += y * z;
  }
  const determinant = xx * yy - xy * xy;
  if (!(determinant > 1e-12 * (xx + yy) ** 2)) return undefined;
  return { x: (xz * yy - yz * xy) / (2 * determinant), y: (yz * xx - xz * xy) / (2 * determinant) };
};

/**
 * The circle with the least sum of squared distances from at least three points, by Gauss-Newton steps with Levenberg's
 * damping (W. Gander, G. H. Golub, R. Strebel, "Least-squares fitting of circles and ellipses", BIT 34, 1994, 558-578).
 * Undefined where the points lie on a line, as nearly as numbers tell.
 */
export const fitCircle = (points: readonly Point[]): FittedCircle | undefined => {
  const count = points.length;
  if (count < 3) return undefined;
  // About the points' own middle, so that large page coordinates cost no digits and the sums of x and y are 0.
  const middle = {
    x: points.reduce((sum, { x }) => sum + x, 0) / count,
    y: points.reduce((sum, { y }) => sum + y, 0) / count,
  };
  const own = points.map(({ x, y }) => ({ x: x - middle.x, y: y - middle.y }));
  const start = kasaCentre(own);
  if (!start) return undefined;
  // With the centre given, the best radius is the mean distance: two unknowns are left.
  const meanDistance = ({ x, y }: Point): number =>
    own.reduce((sum, point) => sum + Math.hypot(point.x - x, point.y - y), 0) / count;
  const costOf = (centre: Point): number => {
    const radius = meanDistance(centre);
    return own.reduce((sum, { x, y }) => sum + (Math.hypot(x - centre.x, y - centre.y) - radius) ** 2, 0);
  };
  let centre = start;
  let cost = costOf(centre);
  let damping = 1e-3;
  for (let round = 0; round < 50 && damping < 1e12; round += 1) {
    const radius = meanDistance(centre);
    let [ux, uy] = [0, 0];
    const rows = own.map(({ x, y }) => {
      const distance = Math.hypot(x - centre.x, y - centre.y) || 1;
      const row = { x: (centre.x - x) / distance, y: (centre.y - y) / distance, off: distance - radius };
      ux += row.x / count;
      uy += row.y / count;
      return row;
    });
    let [a, b, d, p, q] = [0, 0, 0, 0, 0];
    for (const row of rows) {
      const [jx, jy] = [row.x - ux, row.y - uy];
      a += jx * jx;
      b += jx * jy;
      d += jy * jy;
      p += jx * row.off;
      q += jy * row.off;
    }
    const [da, dd] = [a * (1 + damping), d * (1 + damping)];
    const determinant = da * dd - b * b;
    if (!(determinant > 0)) break;
    const next = {
      x: centre.x - (p * dd - q * b) / determinant,
      y: centre.y - (q * da - p * b) / determinant,
    };
    const nextCost = costOf(next);
    if (nextCost > cost) {
      damping *= 10;
      continue;
    }
    const moved = Math.hypot(next.x - centre.x, next.y - centre.y);
    centre = next;
    cost = nextCost;
    damping /= 10;
    if (moved <= 1e-12 * (radius + 1)) break;
  }
  const radius = meanDistance(centre);
  const found = { x: centre.x + middle.x, y: centre.y + middle.y };
  return Number.isFinite(radius)
    ? { centre: found, radius, residual: residualOf(points, found, radius) }
    : undefined;
};

import { type PaperPoint, paperPoint } from '../geometry/point.ts';

/**
 * The variance that the picks of points give to what is worked out of them. Every coordinate has the standard
 * uncertainty `pickUnits` and is independent of the others. JCGM 100:2008, 5.1.3 NOTE 2: where the derivative is not at
 * hand, half the change of the result between the coordinate plus and minus its uncertainty takes its place.
 */
export function pickVariance(
  points: readonly PaperPoint[],
  pickUnits: number,
  measureOf: (points: readonly PaperPoint[]) => number,
): number {
  if (pickUnits === 0) return 0;
  let variance = 0;
  for (const [index, { x, y }] of points.entries())
    for (const [dx, dy] of [
      [pickUnits, 0],
      [0, pickUnits],
    ] as const) {
      const change = (sign: 1 | -1): number =>
        measureOf(points.with(index, paperPoint(x + sign * dx, y + sign * dy)));
      const half = (change(1) - change(-1)) / 2;
      if (Number.isFinite(half)) variance += half ** 2;
    }
  return variance;
}

import type { Point } from '../../geometry/point.ts';
import type { Similarity } from './similarity.ts';

/** An old point, the new point it should go to, and how much it counts. */
export interface WeightedPair {
  readonly old: Point;
  readonly new: Point;
  readonly weight: number;
}

/** A similarity fitted to pairs, with what its uncertainty is worked out from. */
export interface FittedSimilarity {
  readonly transform: Similarity;
  /** Weighted mean of the old points: there, turn and scale do not depend on the place. */
  readonly centre: Point;
  readonly weightSum: number;
  /** Weighted sum of the squared distances of the old points from their mean. */
  readonly spreadSquare: number;
}

/**
 * The similarity with the least weighted sum of squared distances, in closed form; null where the old points coincide.
 *
 * In the plane, and with mirrors excluded, the least-squares similarity of Horn (J. Opt. Soc. Am. A 4, 1987, 629-642)
 * and Umeyama (IEEE PAMI 13, 1991, 376-380) is linear in a = c cos and b = c sin: with both sets about their weighted
 * means, a and b are the sums of the dot and of the cross products, over the sum of the old squares.
 */
export const fitSimilarity = (pairs: readonly WeightedPair[]): FittedSimilarity | null => {
  let [weightSum, oldX, oldY, newX, newY] = [0, 0, 0, 0, 0];
  for (const pair of pairs) {
    weightSum += pair.weight;
    oldX += pair.weight * pair.old.x;
    oldY += pair.weight * pair.old.y;
    newX += pair.weight * pair.new.x;
    newY += pair.weight * pair.new.y;
  }
  if (!(weightSum > 0)) return null;
  const centre = { x: oldX / weightSum, y: oldY / weightSum };
  const mean = { x: newX / weightSum, y: newY / weightSum };
  let [dots, crosses, spreadSquare] = [0, 0, 0];
  for (const pair of pairs) {
    const [px, py] = [pair.old.x - centre.x, pair.old.y - centre.y];
    const [qx, qy] = [pair.new.x - mean.x, pair.new.y - mean.y];
    dots += pair.weight * (px * qx + py * qy);
    crosses += pair.weight * (px * qy - py * qx);
    spreadSquare += pair.weight * (px * px + py * py);
  }
  if (!(spreadSquare > 0)) return null;
  const [a, b] = [dots / spreadSquare, crosses / spreadSquare];
  return {
    transform: {
      a,
      b,
      x0: mean.x - (a * centre.x - b * centre.y),
      y0: mean.y - (b * centre.x + a * centre.y),
    },
    centre,
    weightSum,
    spreadSquare,
  };
};

import { type Box, boxCorners, boxHeight, boxWidth } from '../../geometry/box.ts';
import { distanceBetween } from '../../geometry/vector.ts';
import { applySimilarity, type Similarity, similarityScale } from './similarity.ts';

/** Corners nearer than this are the same corner of the paper, as a share of the page's longer side. */
const SAME_CORNER = 0.002;

const SAME_SCALE = 0.003;

/**
 * The ways in which frame and title block stay where they are on paper while the plan moves: at full size from the same
 * corner of the page or its centre, or enlarged with the page.
 */
export const paperFixedTransforms = (old: Box, next: Box): Similarity[] => {
  const found: Similarity[] = [];
  for (const scale of new Set([1, boxWidth(next) / boxWidth(old), boxHeight(next) / boxHeight(old)])) {
    if (!(scale > 0.1 && scale < 10)) continue;
    for (const [x, y] of [
      [0, 0],
      [1, 0],
      [0, 1],
      [1, 1],
      [0.5, 0.5],
    ] as const) {
      const at = (box: Box) => ({
        x: box.minX + x * boxWidth(box),
        y: box.minY + y * boxHeight(box),
      });
      found.push({
        a: scale,
        b: 0,
        x0: at(next).x - scale * at(old).x,
        y0: at(next).y - scale * at(old).y,
      });
    }
  }
  return found;
};

/** Whether a similarity leaves the paper where it is: corner on corner, at full size or enlarged with the page. */
export const isPaperFixed = (transform: Similarity, old: Box, next: Box): boolean => {
  const scale = similarityScale(transform);
  const near = SAME_CORNER * Math.max(boxWidth(next), boxHeight(next));
  const corners = boxCorners(next);
  const shared = boxCorners(old).filter((corner) => {
    const at = applySimilarity(transform, corner);
    return corners.some((other) => distanceBetween(at, other) < near);
  }).length;
  return shared >= 2 || (shared === 1 && Math.abs(scale - 1) < SAME_SCALE);
};

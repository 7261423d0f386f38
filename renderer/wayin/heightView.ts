import type { ObstacleAnswer } from '../../src/access/checkWayIn.ts';
import { type MomentView, rectangleOutline } from '../../src/access/momentOutline.ts';
import type { AccessPiece, Obstacle } from '../../src/access/wayInSchema.ts';

/** Clear height of an obstacle whose drawing is a plan; null where it has none, or its drawing shows it. */
const heightOf = (obstacle: Obstacle): number | null => {
  switch (obstacle.kind) {
    case 'turn':
    case 'side-doorway':
      return obstacle.heightMm;
    case 'stair':
      return obstacle.headroomMm;
    default:
      return null;
  }
};

/**
 * The section that shows a piece too high for an obstacle that is otherwise drawn in plan; null where height is not
 * what stops it.
 */
export const heightView = (
  obstacle: Obstacle,
  piece: AccessPiece,
  answer: ObstacleAnswer,
): MomentView | null => {
  const clearMm = heightOf(obstacle);
  if (clearMm === null || answer.passes || answer.moment?.views.some(({ view }) => view !== 'plan'))
    return null;
  const { lengthMm, widthMm, heightMm } = piece;
  const [highMm, acrossMm] =
    answer.orientation === 'upright'
      ? [heightMm, widthMm]
      : answer.orientation === 'on-edge'
        ? [widthMm, heightMm]
        : answer.orientation === 'on-end'
          ? [lengthMm, Math.min(widthMm, heightMm)]
          : [0, 0];
  if (highMm <= clearMm) return null;
  const clearWidthMm = Math.max(1.4 * acrossMm, clearMm / 2);
  return {
    view: 'section',
    clear: rectangleOutline(clearWidthMm, clearMm),
    piece: rectangleOutline(acrossMm, highMm, { x: (clearWidthMm - acrossMm) / 2, y: 0 }),
  };
};

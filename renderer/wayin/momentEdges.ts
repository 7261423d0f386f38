import type { ObstacleAnswer } from '../../src/access/checkWayIn.ts';
import type { MomentView } from '../../src/access/momentOutline.ts';
import type { Obstacle } from '../../src/access/wayInSchema.ts';
import type { Point } from '../../src/geometry/point.ts';

/** One edge of the free space: a wall, or where the drawing breaks off and the way goes on. */
export interface MomentEdge {
  readonly from: Point;
  readonly to: Point;
  readonly isOpen: boolean;
}

/** Edges of an outline at which the way goes on, by the number of the edge's first point. */
const openEdges = (obstacle: Obstacle, answer: ObstacleAnswer, view: MomentView): readonly number[] => {
  if (view.view !== 'plan') return [];
  const isTurn = view.clear.length === 6;
  switch (obstacle.kind) {
    case 'turn':
      if (!isTurn) return [];
      return [
        ...(obstacle.fromLegMm === undefined ? [1] : []),
        ...(obstacle.toLegMm === undefined ? [4] : []),
      ];
    case 'stair':
      return answer.part === 'landing' && isTurn ? [1, 4] : [];
    case 'side-doorway':
      // Both ends of the passage, and the room that the doorway leads to.
      return view.clear.length === 12 ? [1, 5, 6, 7, 11] : [];
    default:
      return [];
  }
};

/** The edges of the free space of one view, in the order of its outline. */
export const momentEdges = (
  obstacle: Obstacle,
  answer: ObstacleAnswer,
  view: MomentView,
): readonly MomentEdge[] => {
  const open = openEdges(obstacle, answer, view);
  return view.clear.flatMap((from, index): MomentEdge[] => {
    const to = view.clear[(index + 1) % view.clear.length];
    return to ? [{ from, to, isOpen: open.includes(index) }] : [];
  });
};

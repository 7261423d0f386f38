import type { Point } from '../../geometry/point.ts';
import { signedPolygonArea } from '../../geometry/polygon.ts';

/** What a solid is, for whoever tints it. */
export type PrismLook = 'body' | 'station' | 'corner' | 'top' | 'shelf' | 'leftover' | 'fitting' | 'recess';

/** An upright solid on a convex footprint: x and y on the floor, heights above it, all in mm of the room. */
export interface Prism {
  readonly footprint: readonly Point[];
  readonly fromMm: number;
  readonly toMm: number;
  readonly look: PrismLook;
}

/** Solids that stand on one footprint, from the lowest up: nothing else comes between them. */
export interface PrismStack {
  readonly footprint: readonly Point[];
  readonly prisms: readonly Prism[];
}

/** The ring turned so that the outside of an edge lies on the right of who walks it (y up). */
export const anticlockwise = (ring: readonly Point[]): readonly Point[] =>
  signedPolygonArea(ring) < 0 ? ring.toReversed() : ring;

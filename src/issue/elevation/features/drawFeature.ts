import type { DrawingPen } from '../../drawing/drawingPen.ts';
import type { PartName } from '../../fitOnPlan.ts';
import type { ElevationBuild } from '../elevationBuild.ts';

export type ElevationPen = DrawingPen<PartName>;

/** A feature on its item: mm from the item's left end as the bartender sees it. */
export interface PlacedFeature {
  readonly from: number;
  readonly to: number;
  readonly count: number;
  /** The side on which a door hangs. */
  readonly hand: 'left' | 'right';
}

/** Draws one feature with a pen whose origin is the item's left end on the floor line. */
export type DrawFeature = (pen: ElevationPen, feature: PlacedFeature, build: ElevationBuild) => void;

/** Equal shares of a width, with what each starts and ends at. */
export const shared = (
  from: number,
  to: number,
  count: number,
): readonly { readonly from: number; readonly to: number; readonly middle: number }[] =>
  Array.from({ length: count }, (_, index) => {
    const step = (to - from) / count;
    return { from: from + index * step, to: from + (index + 1) * step, middle: from + (index + 0.5) * step };
  });

import { straightsOf } from './straights.ts';
import type { SheetScale, TracedRun } from './tracedRun.ts';

/** Where a straight stands in the developed elevation: along the whole traced front from the run's first point, in mm. */
export interface UnrolledStraight {
  readonly straight: number;
  readonly fromMm: number;
  readonly toMm: number;
}

/** The developed position of every straight of a run: one behind the other along the traced front. */
export function unrolledOffsets(run: TracedRun, scale: SheetScale): readonly UnrolledStraight[] {
  let walkedMm = 0;
  return straightsOf(run, scale).map(({ index, lengthMm }) => {
    const fromMm = walkedMm;
    walkedMm += lengthMm;
    return { straight: index, fromMm, toMm: walkedMm };
  });
}

/**
 * The straight at a developed position, and the position along it; before the first and behind the last straight the
 * position runs on. A position on a corner belongs to the straight that starts there. Undefined for a run without
 * straights.
 */
export function straightAtUnrolled(
  offsets: readonly UnrolledStraight[],
  unrolledMm: number,
): { readonly straight: number; readonly alongMm: number } | undefined {
  const at = offsets.findLast(({ fromMm }) => fromMm <= unrolledMm) ?? offsets[0];
  return at === undefined ? undefined : { straight: at.straight, alongMm: unrolledMm - at.fromMm };
}

/**
 * Whether a customer who looks at the bar sees the run's first point on the left, so that the developed elevation of the
 * customer face runs from left to right. With the back on the left of a walker, the customer stands on the walker's
 * right and looks the way of the walker's left hand.
 */
export const isFirstPointOnCustomersLeft = (run: Pick<TracedRun, 'backSide'>): boolean =>
  run.backSide === 'left';

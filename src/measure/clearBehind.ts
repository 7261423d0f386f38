import type { Point } from '../geometry/point.ts';
import { type PlaceOnStraight, placeOnStraight } from './runPosition.ts';
import type { SheetScale, TracedRun } from './tracedRun.ts';

/** Lines that touch the back line are as near as a millimetre: they are the run's own or lie beside it, not across. */
const touchingMm = 1;

/** The part of a line, given by two places, that lies between two positions along a straight; null where none does. */
const within = (
  one: PlaceOnStraight,
  other: PlaceOnStraight,
  fromMm: number,
  toMm: number,
): readonly [number, number] | null => {
  const [first, last] = one.alongMm <= other.alongMm ? [one, other] : [other, one];
  if (last.alongMm < fromMm || first.alongMm > toMm) return null;
  const lengthMm = last.alongMm - first.alongMm;
  if (lengthMm === 0) return [one.offsetMm, other.offsetMm];
  const offsetAt = (alongMm: number) =>
    first.offsetMm + ((alongMm - first.alongMm) / lengthMm) * (last.offsetMm - first.offsetMm);
  return [offsetAt(Math.max(fromMm, first.alongMm)), offsetAt(Math.min(toMm, last.alongMm))];
};

/**
 * How far the floor is clear straight behind a length of a straight, from its back line to the nearest of the given
 * lines, in mm; null where none of them lies behind it. Walls and columns of the plan are not among what is traced.
 */
export const clearBehind = (
  run: TracedRun,
  span: { readonly straight: number; readonly fromMm: number; readonly toMm: number },
  lines: readonly (readonly Point[])[],
  scale: SheetScale,
): number | null => {
  let nearest: number | null = null;
  for (const line of lines) {
    const places = line.map((point) =>
      placeOnStraight(run, span.straight, point as Parameters<typeof placeOnStraight>[2], scale),
    );
    for (const [index, place] of places.entries()) {
      const next = places[index + 1];
      const offsets = next && within(place, next, span.fromMm, span.toMm);
      for (const offset of offsets ?? []) {
        const behindMm = offset - run.depthMm;
        if (behindMm > touchingMm && (nearest === null || behindMm < nearest)) nearest = behindMm;
      }
    }
  }
  return nearest;
};

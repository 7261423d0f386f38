import type { Segment } from '../../geometry/line.ts';
import {
  cross,
  dot,
  leftOf,
  scaledBy,
  unitVector,
  type Vector,
  vectorBetween,
} from '../../geometry/vector.ts';

/** Sine of 1.5 degrees: a line and its counterpart run alike within that. */
const alikeSine = 0.026;
/** Of the gone line, the share that its counterpart must lie beside. */
const leastShare = 0.5;
/** Another line this many times as far away leaves no doubt which one it became. */
const clearlyFarther = 1.5;

/**
 * The way from a line that is gone to the new line beside it that it must have become, square to it: parallel, beside at
 * least half of it, the nearest one within reach. Null where there is none, or a second one is about as near.
 */
export const nearestCounterpart = (
  gone: Segment,
  added: readonly Segment[],
  { reach, tolerance }: { readonly reach: number; readonly tolerance: number },
): Vector | null => {
  const along = unitVector(vectorBetween(gone.start, gone.end));
  if (!along) return null;
  const across = leftOf(along);
  const length = dot(vectorBetween(gone.start, gone.end), along);
  /** Lines at one distance together stand beside the sum of their lengths. */
  const rows: { offset: number; beside: number }[] = [];
  for (const { start, end } of added) {
    const from = vectorBetween(gone.start, start);
    const to = vectorBetween(gone.start, end);
    const offset = (dot(from, across) + dot(to, across)) / 2;
    if (Math.abs(offset) > reach) continue;
    const own = unitVector(vectorBetween(start, end));
    if (!own || Math.abs(cross(along, own)) > alikeSine) continue;
    const [low, high] = [dot(from, along), dot(to, along)].sort((a, b) => a - b);
    const beside = Math.min(length, high!) - Math.max(0, low!);
    if (beside <= 0) continue;
    const row = rows.find((other) => Math.abs(other.offset - offset) <= tolerance);
    if (row) row.beside += beside;
    else rows.push({ offset, beside });
  }
  const [nearest, second] = rows
    .filter(({ beside }) => beside >= leastShare * length)
    .sort((one, other) => Math.abs(one.offset) - Math.abs(other.offset));
  if (!nearest) return null;
  if (second && Math.abs(second.offset) < clearlyFarther * Math.abs(nearest.offset)) return null;
  return scaledBy(across, nearest.offset);
};

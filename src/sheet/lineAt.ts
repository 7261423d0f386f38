import type { Segment } from '../geometry/line.ts';
import { distanceBetween, type Vector } from '../geometry/vector.ts';
import type { Linework } from './linework.ts';

/** A straight line of the linework, by its number. */
export const lineAt = ({ lines }: Linework, line: number): Segment => ({
  start: { x: lines[line * 4]!, y: lines[line * 4 + 1]! },
  end: { x: lines[line * 4 + 2]!, y: lines[line * 4 + 3]! },
});

/** The unit direction of a segment; +x for one of no length. */
export const directionOf = ({ start, end }: Segment): Vector => {
  const length = distanceBetween(start, end);
  return length === 0 ? { x: 1, y: 0 } : { x: (end.x - start.x) / length, y: (end.y - start.y) / length };
};

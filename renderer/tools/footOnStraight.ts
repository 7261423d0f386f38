import type { VertexId } from '../../src/document/ids.ts';
import type { Run } from '../../src/document/projectDocument.ts';
import { projectOntoLine, type Segment } from '../../src/geometry/line.ts';
import { type PaperPoint, type Point, paperPoint } from '../../src/geometry/point.ts';
import { distanceBetween } from '../../src/geometry/vector.ts';

/** The straight of a run that starts at a vertex; null where none does. */
export const straightFrom = (run: Run, vertexId: VertexId): Segment | null => {
  const index = run.frontLine.findIndex(({ id }) => id === vertexId);
  const start = run.frontLine[index]?.at;
  const end = run.frontLine[index + 1]?.at;
  return start && end ? { start, end } : null;
};

/** The point so far along a straight, held between its two ends; in paper units. */
export const pointAlong = (straight: Segment, along: number): PaperPoint => {
  const whole = distanceBetween(straight.start, straight.end);
  const share = Math.min(1, Math.max(0, along / whole));
  const { start, end } = straight;
  // The very end, not a rounding error beside it: a zone may stop at a corner.
  return share === 1
    ? paperPoint(end.x, end.y)
    : paperPoint(start.x + (end.x - start.x) * share, start.y + (end.y - start.y) * share);
};

/** The foot of a point on a straight, held between its two ends. */
export const footOnStraight = (straight: Segment, point: Point): PaperPoint =>
  pointAlong(straight, projectOntoLine(point, straight).along);

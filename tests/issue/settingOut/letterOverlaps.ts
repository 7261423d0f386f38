import type { Point } from '../../../src/geometry/point.ts';
import type { LetterBox } from '../../../src/issue/drawing/paperPen.ts';

/** Overlap of two convex rings by clipping one with the edges of the other (Sutherland and Hodgman, 1974): its area. */
export const overlapArea = (one: readonly Point[], other: readonly Point[]): number => {
  const area = (ring: readonly Point[]) =>
    ring.reduce((sum, { x, y }, index) => {
      const next = ring[(index + 1) % ring.length]!;
      return sum + x * next.y - next.x * y;
    }, 0) / 2;
  const clipper = area(other) < 0 ? other.toReversed() : other;
  let clipped: readonly Point[] = one;
  for (const [index, from] of clipper.entries()) {
    const to = clipper[(index + 1) % clipper.length]!;
    const inside = ({ x, y }: Point) => (to.x - from.x) * (y - from.y) - (to.y - from.y) * (x - from.x);
    const next: Point[] = [];
    for (const [at, point] of clipped.entries()) {
      const before = clipped[(at + clipped.length - 1) % clipped.length]!;
      const [a, b] = [inside(before), inside(point)];
      if ((a < 0 && b >= 0) || (a >= 0 && b < 0)) {
        const share = a / (a - b);
        next.push({ x: before.x + (point.x - before.x) * share, y: before.y + (point.y - before.y) * share });
      }
      if (b >= 0) next.push(point);
    }
    clipped = next;
    if (clipped.length === 0) return 0;
  }
  return Math.abs(area(clipped));
};

/** Pairs of texts of a sheet that share more than `leastMm2` of paper. */
export const letterOverlaps = (letters: readonly LetterBox[], leastMm2 = 0.02): readonly string[] => {
  const boxes = letters.map(({ text, ring }) => ({
    text,
    ring,
    minX: Math.min(...ring.map(({ x }) => x)),
    maxX: Math.max(...ring.map(({ x }) => x)),
    minY: Math.min(...ring.map(({ y }) => y)),
    maxY: Math.max(...ring.map(({ y }) => y)),
  }));
  const found: string[] = [];
  for (const [index, one] of boxes.entries())
    for (const other of boxes.slice(index + 1)) {
      if (
        one.maxX <= other.minX ||
        other.maxX <= one.minX ||
        one.maxY <= other.minY ||
        other.maxY <= one.minY
      )
        continue;
      const area = overlapArea(one.ring, other.ring);
      if (area > leastMm2) found.push(`"${one.text}" and "${other.text}" share ${area.toFixed(2)} mm²`);
    }
  return found;
};

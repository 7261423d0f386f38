import { nearestOnSegment } from '../../src/geometry/line.ts';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { distanceBetween, unitVector, type Vector } from '../../src/geometry/vector.ts';
import type { Linework } from '../../src/sheet/linework.ts';
import type { LineworkIndex, SnapKind } from '../../src/sheet/lineworkIndex.ts';
import type { Candidate } from './candidate.ts';

const words: Readonly<Record<SnapKind, string>> = {
  end: 'end',
  crossing: 'crossing',
  middle: 'middle',
  'on-line': 'on a line',
};

/** A straight line of the drawing near the hand. */
export interface NearLine {
  readonly line: number;
  readonly start: PaperPoint;
  readonly end: PaperPoint;
  readonly along: Vector;
}

/** How many of the lines at hand relations are looked for with: the nearest ones. */
const mostLines = 6;

/** A line of the linework as a directed line; null for a curve and for a line of no length. */
export const nearLine = ({ lines, lineCount }: Linework, line: number): NearLine | null => {
  if (line >= lineCount) return null;
  const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = lines.subarray(line * 4, line * 4 + 4);
  const along = unitVector({ x: x1 - x0, y: y1 - y0 });
  return along ? { line, start: paperPoint(x0, y0), end: paperPoint(x1, y1), along } : null;
};

/**
 * Places on the drawing within reach of the hand, the straight lines that they lie on, nearest first, and the nearest
 * curve by its number among lines and curves.
 */
export const drawnCandidates = (
  index: LineworkIndex | null,
  hand: PaperPoint,
  reach: number,
): {
  readonly candidates: readonly Candidate[];
  readonly lines: readonly NearLine[];
  readonly curve: number | null;
} => {
  if (!index) return { candidates: [], lines: [], curve: null };
  const found = index.snapCandidates(hand, reach);
  const numbers = new Set<number>();
  for (const snap of found) if (snap.kind === 'on-line') for (const item of snap.items) numbers.add(item);
  for (const snap of found) for (const item of snap.items) numbers.add(item);
  const distanceTo = (line: NearLine) => nearestOnSegment(hand, line).distance;
  const lines = [...numbers]
    .flatMap((item) => nearLine(index.linework, item) ?? [])
    .map((line) => ({ line, distance: distanceTo(line) }))
    .filter(({ distance }) => distance <= reach)
    .sort((one, other) => one.distance - other.distance)
    .slice(0, mostLines)
    .map(({ line }) => line);
  const candidates = found.map(({ kind, point, distance, items }): Candidate => {
    const item = items.find((one) => one < index.linework.lineCount);
    const near = item === undefined ? null : nearLine(index.linework, item);
    return {
      at: point,
      distance,
      relation: {
        kind,
        word: words[kind],
        alongRad: near ? outward(near, point, kind) : null,
        isDrawn: true,
        towards: null,
      },
    };
  });
  const { lineCount } = index.linework;
  const onCurve = found.find(
    ({ kind, items }) => kind === 'on-line' && items.some((item) => item >= lineCount),
  );
  return { candidates, lines, curve: onCurve?.items.find((item) => item >= lineCount) ?? null };
};

/** The line's direction; at its end, the way it comes from, so that the mark can show on which side the line lies. */
const outward = ({ start, end, along }: NearLine, at: PaperPoint, kind: SnapKind): number => {
  const isAtStart = kind === 'end' && distanceBetween(start, at) < distanceBetween(end, at);
  return isAtStart ? Math.atan2(-along.y, -along.x) : Math.atan2(along.y, along.x);
};

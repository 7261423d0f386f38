import type { Box } from '../geometry/box.ts';
import type { LineworkIndex } from '../sheet/lineworkIndex.ts';
import type { TextRun } from '../sheet/textRun.ts';
import { type Carrier, onCarrier, spanOnCarrier } from './dimensionCarrier.ts';

/** A place along a carrier where a dimension may end. */
export interface Stop {
  /** Position along the carrier, in user-space units. */
  readonly at: number;
  /** How much it looks like the end of a dimension: several marks in one place count more than one. */
  readonly score: number;
}

/**
 * What marks a stop, and what it counts for. A tick, a dot or an arrow's point is only drawn to end a dimension; a short
 * stroke across may be the base of an arrow.
 */
const MARK_SCORE = {
  tick: 1.4,
  dot: 1.4,
  extension: 1,
  end: 0.8,
  'touch-left': 0.7,
  'touch-right': 0.7,
  base: 0.4,
  crossing: 0.3,
} as const;

type Mark = keyof typeof MARK_SCORE;

/** A stroke across the line shorter than this, in text sizes, is an arrow's base. */
const SHORT_STROKE = 0.6;

/** Marks closer than this are in one place, in text sizes. */
const SAME_STOP = 0.04;

/** Chunks in which a slanting carrier is searched, so that its box stays slim; and how many there may be. */
const CHUNK = 40;
const MOST_CHUNKS = 120;

/** Finds the places where dimensions may end along a carrier, in order. */
export const findStops = (carrier: Carrier, text: TextRun, index: LineworkIndex): readonly Stop[] => {
  const marks: { at: number; mark: Mark }[] = [];
  const seen = new Set<number>();
  const reach = 1.2 * text.size;
  for (const box of boxesAlong(carrier, carrier.from - reach, carrier.to + reach, onCarrier(text))) {
    for (const item of index.itemsIn(box)) {
      if (seen.has(item)) continue;
      seen.add(item);
      if (item < index.linework.lineCount) addLineMarks(marks, carrier, text, index, item);
      else addDot(marks, carrier, text, index, item);
    }
  }
  return clusterMarks(marks, SAME_STOP * text.size);
};

const boxesAlong = ({ x, y, ux, uy }: Carrier, from: number, to: number, tolerance: number): Box[] => {
  const boxBetweenStops = (a: number, b: number): Box => ({
    minX: Math.min(x + a * ux, x + b * ux) - tolerance,
    minY: Math.min(y + a * uy, y + b * uy) - tolerance,
    maxX: Math.max(x + a * ux, x + b * ux) + tolerance,
    maxY: Math.max(y + a * uy, y + b * uy) + tolerance,
  });
  if (Math.abs(ux) < 0.01 || Math.abs(uy) < 0.01) return [boxBetweenStops(from, to)];
  const chunks = Math.min(MOST_CHUNKS, Math.max(1, Math.ceil((to - from) / CHUNK)));
  const step = (to - from) / chunks;
  return Array.from({ length: chunks }, (_, i) => boxBetweenStops(from + i * step, from + (i + 1) * step));
};

const addLineMarks = (
  marks: { at: number; mark: Mark }[],
  carrier: Carrier,
  text: TextRun,
  index: LineworkIndex,
  line: number,
): void => {
  const { lines } = index.linework;
  const tolerance = onCarrier(text);
  const span = spanOnCarrier(carrier, lines, line, tolerance);
  if (span) {
    marks.push({ at: span[0], mark: 'end' }, { at: span[1], mark: 'end' });
    return;
  }
  const { x, y, ux, uy } = carrier;
  const x0 = lines[line * 4]! - x;
  const y0 = lines[line * 4 + 1]! - y;
  const x1 = lines[line * 4 + 2]! - x;
  const y1 = lines[line * 4 + 3]! - y;
  const side0 = ux * y0 - uy * x0;
  const side1 = ux * y1 - uy * x1;
  if (Math.min(side0, side1) > tolerance || Math.max(side0, side1) < -tolerance) return;
  const length = Math.hypot(x1 - x0, y1 - y0);
  const sine = Math.abs(side1 - side0) / length;
  if (sine < 0.1) return;
  const t = side0 / (side0 - side1);
  const s0 = ux * x0 + uy * y0;
  const s1 = ux * x1 + uy * y1;
  const at = s0 + t * (s1 - s0);
  const touchesAtEnd = Math.min(Math.abs(side0), Math.abs(side1)) <= tolerance;
  if (sine > 0.98) marks.push({ at, mark: length < SHORT_STROKE * text.size ? 'base' : 'extension' });
  else if (touchesAtEnd) {
    // The two edges of an arrow's point touch the line in one place, one from each side.
    const isFirstEnd = Math.abs(side0) < Math.abs(side1);
    marks.push({ at: isFirstEnd ? s0 : s1, mark: side0 + side1 > 0 ? 'touch-left' : 'touch-right' });
  } else marks.push({ at, mark: length < 2.5 * text.size && Math.abs(t - 0.5) < 0.2 ? 'tick' : 'crossing' });
};

/** A small round mark centred on the carrier: its arcs start and end symmetrically about the centre. */
const addDot = (
  marks: { at: number; mark: Mark }[],
  { x, y, ux, uy }: Carrier,
  text: TextRun,
  index: LineworkIndex,
  item: number,
): void => {
  const { curves, curvePath, lineCount, curveCount } = index.linework;
  const curve = item - lineCount;
  let first = curve;
  let last = curve;
  while (first > 0 && curvePath[first - 1] === curvePath[curve] && last - first < 16) first--;
  while (last + 1 < curveCount && curvePath[last + 1] === curvePath[curve] && last - first < 16) last++;
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = first; i <= last; i++) {
    for (const end of [0, 6]) {
      minX = Math.min(minX, curves[i * 8 + end]!);
      maxX = Math.max(maxX, curves[i * 8 + end]!);
      minY = Math.min(minY, curves[i * 8 + end + 1]!);
      maxY = Math.max(maxY, curves[i * 8 + end + 1]!);
    }
  }
  const across = Math.max(maxX - minX, maxY - minY);
  const isRound = across < 1.5 * text.size && Math.min(maxX - minX, maxY - minY) > 0.8 * across;
  const cx = (minX + maxX) / 2 - x;
  const cy = (minY + maxY) / 2 - y;
  if (isRound && Math.abs(ux * cy - uy * cx) <= onCarrier(text))
    marks.push({ at: ux * cx + uy * cy, mark: 'dot' });
};

const clusterMarks = (marks: { at: number; mark: Mark }[], tolerance: number): Stop[] => {
  marks.sort((a, b) => a.at - b.at);
  const stops: Stop[] = [];
  for (let i = 0; i < marks.length; ) {
    const kinds = new Set<Mark>();
    let sum = 0;
    let weight = 0;
    let j = i;
    for (; j < marks.length && marks[j]!.at - marks[i]!.at <= tolerance; j++) {
      const { at, mark } = marks[j]!;
      kinds.add(mark);
      sum += at * MARK_SCORE[mark];
      weight += MARK_SCORE[mark];
    }
    let score = 0;
    for (const mark of kinds) score += MARK_SCORE[mark];
    stops.push({ at: sum / weight, score });
    i = j;
  }
  return stops;
};

import { type Box, boxHeight, boxWidth } from '../../geometry/box.ts';
import type { RegistrationSheet } from './sheetRegistration.ts';

/** The longer straight lines of a sheet, each once however it was drawn: split, doubled or in another order. */
export interface DistinctLines {
  readonly count: number;
  /** x0, y0, x1, y1 of each, longest first. */
  readonly ends: Float64Array;
  /** Direction of each, from 0 up to but not including pi. */
  readonly angle: Float64Array;
  readonly length: Float64Array;
  /** Around the lines. */
  readonly box: Box;
  readonly diagonal: number;
}

/** Lines on a sheet above this count are the short ones: the longest say where the plan lies. */
const MOST_LINES = 12_000;

/** Steps of the histogram of directions: 0.05 degrees. */
const ANGLE_BINS = 3600;

/** Lines within this angle of a common direction run along it: 0.15 degrees. */
const SAME_DIRECTION = 0.0026;

/** A short line's own direction is rounded; its ends may miss by this much, in points. */
const END_ROUNDING = 0.03;

/** Lines whose offsets differ by less are one line drawn twice; touching ends may miss by twice as much. In points. */
const SAME_LINE = 0.12;

/** Lines along a page edge that are longer than this share of it are the frame, whatever else moved. */
const FRAME_SHARE = 0.88;

/** Shorter than this share of the diagonal is lettering and hatching, not walls. */
const LEAST_SHARE = 0.0035;

/**
 * The distinct lines of a sheet: pieces of one line that touch or overlap are joined, the frame is left out, and the
 * longest are kept. The work is n log n in the number of segments.
 */
export const distinctLines = ({ linework, viewBox }: RegistrationSheet): DistinctLines => {
  const pieces = piecesOf(linework.lines, linework.lineCount);
  const directions = commonDirections(pieces);
  const joined = joinPieces(pieces, directions);
  const inside = joined.filter((line) => line.length > 0 && !isFrame(line, viewBox));
  const box = boxOf(inside) ?? viewBox;
  const diagonal = Math.sqrt(boxWidth(box) ** 2 + boxHeight(box) ** 2);
  const kept = inside
    .filter((line) => line.length >= LEAST_SHARE * diagonal)
    .sort((p, q) => q.length - p.length || p.x0 - q.x0 || p.y0 - q.y0 || p.x1 - q.x1 || p.y1 - q.y1)
    .slice(0, MOST_LINES);
  const ends = new Float64Array(kept.length * 4);
  kept.forEach(({ x0, y0, x1, y1 }, index) => {
    ends.set([x0, y0, x1, y1], index * 4);
  });
  return {
    count: kept.length,
    ends,
    angle: Float64Array.from(kept, ({ angle }) => angle),
    length: Float64Array.from(kept, ({ length }) => length),
    box,
    diagonal,
  };
};

interface Piece {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  readonly angle: number;
  readonly length: number;
}

const pieceOf = (x0: number, y0: number, x1: number, y1: number): Piece => {
  const [dx, dy] = [x1 - x0, y1 - y0];
  const raw = Math.atan2(dy, dx);
  const turned = raw < 0 ? raw + Math.PI : raw;
  return { x0, y0, x1, y1, angle: turned >= Math.PI ? 0 : turned, length: Math.sqrt(dx * dx + dy * dy) };
};

const piecesOf = (lines: Float64Array, lineCount: number): Piece[] => {
  const pieces: Piece[] = [];
  for (let i = 0; i < lineCount * 4; i += 4) {
    const piece = pieceOf(lines[i]!, lines[i + 1]!, lines[i + 2]!, lines[i + 3]!);
    if (piece.length > 0.2 && piece.length < 1e6) pieces.push(piece);
  }
  return pieces;
};

/** The directions that much of the linework runs in: peaks of the histogram of directions, weighted by length. */
const commonDirections = (pieces: readonly Piece[]): number[] => {
  const histogram = new Float64Array(ANGLE_BINS);
  let total = 0;
  for (const { angle, length } of pieces) {
    histogram[Math.round((angle / Math.PI) * ANGLE_BINS) % ANGLE_BINS]! += length;
    total += length;
  }
  const peaks: { bin: number; weight: number }[] = [];
  for (let bin = 0; bin < ANGLE_BINS; bin++) {
    const weight = histogram[bin]!;
    if (weight < 0.002 * total) continue;
    let isPeak = true;
    for (let step = -4; step <= 4 && isPeak; step++) {
      const other = histogram[(bin + step + ANGLE_BINS) % ANGLE_BINS]!;
      if (other > weight || (other === weight && step < 0)) isPeak = false;
    }
    if (isPeak) peaks.push({ bin, weight });
  }
  peaks.sort((p, q) => q.weight - p.weight || p.bin - q.bin);
  const directions = peaks.slice(0, 60).map(({ bin }) => (bin / ANGLE_BINS) * Math.PI);
  const sums = directions.map(() => ({ turn: 0, length: 0 }));
  for (const { angle, length } of pieces) {
    const nearest = nearestDirection(directions, angle, SAME_DIRECTION);
    if (nearest < 0) continue;
    sums[nearest]!.turn += length * turnBetween(directions[nearest]!, angle);
    sums[nearest]!.length += length;
  }
  return directions.map((direction, index) => {
    const { turn, length } = sums[index]!;
    return length > 0 ? direction + turn / length : direction;
  });
};

/** The least turn from one undirected direction to another: from -pi/2 to pi/2. */
const turnBetween = (from: number, to: number): number => {
  const turn = to - from;
  return turn > Math.PI / 2 ? turn - Math.PI : turn < -Math.PI / 2 ? turn + Math.PI : turn;
};

const nearestDirection = (directions: readonly number[], angle: number, within: number): number => {
  let [best, least] = [-1, within];
  for (let i = 0; i < directions.length; i++) {
    const turn = Math.abs(turnBetween(directions[i]!, angle));
    if (turn <= least) [best, least] = [i, turn];
  }
  return best;
};

const joinPieces = (pieces: readonly Piece[], directions: readonly number[]): Piece[] => {
  const groups: { offset: number; from: number; to: number }[][] = directions.map(() => []);
  const joined: Piece[] = [];
  for (const piece of pieces) {
    const within = Math.min(0.02, Math.max(SAME_DIRECTION, END_ROUNDING / piece.length));
    const nearest = nearestDirection(directions, piece.angle, within);
    if (nearest < 0) {
      joined.push(piece);
      continue;
    }
    const [ux, uy] = [Math.cos(directions[nearest]!), Math.sin(directions[nearest]!)];
    const start = ux * piece.x0 + uy * piece.y0;
    const end = ux * piece.x1 + uy * piece.y1;
    const offset = (ux * (piece.y0 + piece.y1) - uy * (piece.x0 + piece.x1)) / 2;
    groups[nearest]!.push({ offset, from: Math.min(start, end), to: Math.max(start, end) });
  }
  groups.forEach((group, index) => {
    const [ux, uy] = [Math.cos(directions[index]!), Math.sin(directions[index]!)];
    const emit = (offset: number, from: number, to: number): void => {
      joined.push(
        pieceOf(
          ux * from - uy * offset,
          uy * from + ux * offset,
          ux * to - uy * offset,
          uy * to + ux * offset,
        ),
      );
    };
    group.sort((p, q) => p.offset - q.offset || p.from - q.from || p.to - q.to);
    for (let first = 0; first < group.length; ) {
      let after = first + 1;
      while (after < group.length && group[after]!.offset - group[first]!.offset < SAME_LINE) after++;
      const line = group.slice(first, after).sort((p, q) => p.from - q.from || p.to - q.to);
      let [from, to, weight, moment] = [line[0]!.from, line[0]!.to, 0, 0];
      for (const piece of line) {
        if (piece.from > to + 2 * SAME_LINE) {
          emit(moment / weight, from, to);
          [from, to, weight, moment] = [piece.from, piece.to, 0, 0];
        }
        to = Math.max(to, piece.to);
        weight += piece.to - piece.from + 1e-9;
        moment += (piece.to - piece.from + 1e-9) * piece.offset;
      }
      emit(moment / weight, from, to);
      first = after;
    }
  });
  return joined;
};

const isFrame = ({ x0, y0, x1, y1 }: Piece, viewBox: Box): boolean => {
  const [dx, dy] = [Math.abs(x1 - x0), Math.abs(y1 - y0)];
  const along = (run: number, aside: number, side: number): boolean =>
    aside < 0.003 * run && run > FRAME_SHARE * side;
  return along(dx, dy, boxWidth(viewBox)) || along(dy, dx, boxHeight(viewBox));
};

const boxOf = (lines: readonly Piece[]): Box | null => {
  if (lines.length === 0) return null;
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x0, y0, x1, y1 } of lines) {
    minX = Math.min(minX, x0, x1);
    minY = Math.min(minY, y0, y1);
    maxX = Math.max(maxX, x0, x1);
    maxY = Math.max(maxY, y0, y1);
  }
  return { minX, minY, maxX, maxY };
};

import { boxHeight, boxWidth, grownBox } from '../../geometry/box.ts';
import type { DistinctLines } from './distinctLines.ts';

/**
 * A sheet's distinct lines as a picture of small squares, each with the directions of the lines that pass through it or
 * its neighbours: whether a line of a direction passes near a place is one look-up.
 */
export interface LineMap {
  /**
   * What a line of this direction passing here says: 0 where none does, towards 1 where one does among few parallels,
   * and little where so many pass about that one would by chance.
   */
  readonly worthAt: (x: number, y: number, angle: number) => number;
  /** Side of a square in points: a line passes near within one to two of these. */
  readonly squarePt: number;
}

const DIRECTIONS = 12;

/** A line among very many parallels still counts as found. */
const LEAST_WORTH = 0.01;

/** Squares in a block over which the chance of a line is taken. */
const BLOCK = 40;

/** Lines within this of a step between directions count in both: 4 degrees. */
const STEP_MARGIN = 0.07;

/** A map of at most this many squares. */
const MOST_SQUARES = 8_000_000;

/** Draws the map with squares of about `squarePt`. */
export const lineMap = (lines: DistinctLines, wantedSquarePt: number): LineMap => {
  const box = grownBox(lines.box, wantedSquarePt * 3);
  const least = Math.sqrt((boxWidth(box) * boxHeight(box)) / MOST_SQUARES);
  const squarePt = Math.max(wantedSquarePt, least, 1e-6);
  const columns = Math.ceil(boxWidth(box) / squarePt) + 1;
  const rows = Math.ceil(boxHeight(box) / squarePt) + 1;
  const bits = new Uint16Array(columns * rows);
  const { ends, angle } = lines;
  for (let i = 0; i < lines.count; i++) {
    const mask = directionsOf(angle[i]!);
    const [x0, y0, x1, y1] = [ends[i * 4]!, ends[i * 4 + 1]!, ends[i * 4 + 2]!, ends[i * 4 + 3]!];
    const steps = Math.max(1, Math.ceil(Math.max(Math.abs(x1 - x0), Math.abs(y1 - y0)) / squarePt));
    for (let step = 0; step <= steps; step++) {
      const column = Math.floor((x0 + ((x1 - x0) * step) / steps - box.minX) / squarePt);
      const row = Math.floor((y0 + ((y1 - y0) * step) / steps - box.minY) / squarePt);
      for (let r = Math.max(0, row - 1); r <= Math.min(rows - 1, row + 1); r++)
        for (let c = Math.max(0, column - 1); c <= Math.min(columns - 1, column + 1); c++)
          bits[r * columns + c]! |= mask;
    }
  }
  const chance = chances(bits, columns, rows);
  const blocksAcross = Math.ceil(columns / BLOCK);
  return {
    squarePt,
    worthAt: (x, y, ofAngle) => {
      const column = Math.floor((x - box.minX) / squarePt);
      const row = Math.floor((y - box.minY) / squarePt);
      if (column < 0 || row < 0 || column >= columns || row >= rows) return 0;
      const direction = directionOf(ofAngle);
      if ((bits[row * columns + column]! & (1 << direction)) === 0) return 0;
      const block = Math.floor(row / BLOCK) * blocksAcross + Math.floor(column / BLOCK);
      return Math.max(LEAST_WORTH, 1 - 2 * chance[block * DIRECTIONS + direction]!);
    },
  };
};

const directionOf = (angle: number): number => Math.round((angle / Math.PI) * DIRECTIONS) % DIRECTIONS;

const directionsOf = (angle: number): number =>
  (1 << directionOf(angle)) |
  (1 << directionOf((angle + STEP_MARGIN) % Math.PI)) |
  (1 << directionOf((angle - STEP_MARGIN + Math.PI) % Math.PI));

const chances = (bits: Uint16Array, columns: number, rows: number): Float32Array => {
  const blocksAcross = Math.ceil(columns / BLOCK);
  const chance = new Float32Array(blocksAcross * Math.ceil(rows / BLOCK) * DIRECTIONS);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      let mask = bits[row * columns + column]!;
      if (mask === 0) continue;
      const block = Math.floor(row / BLOCK) * blocksAcross + Math.floor(column / BLOCK);
      for (let direction = 0; mask !== 0; direction++, mask >>= 1)
        if (mask & 1) chance[block * DIRECTIONS + direction]! += 1 / (BLOCK * BLOCK);
    }
  }
  return chance;
};

import { boxHeight, boxWidth } from '../../geometry/box.ts';
import type { DistinctLines } from './distinctLines.ts';

/** Places along distinct lines, evenly spaced, each with the weight that it has as evidence. */
export interface LineSamples {
  readonly count: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Direction of its line, from 0 up to but not including pi. */
  readonly angle: Float64Array;
  readonly line: Uint32Array;
  /** Length that it stands for, less where many parallel lines crowd: hatching, lettering, stairs. In points. */
  readonly weight: Float64Array;
  readonly totalWeight: number;
}

/** About this many samples a sheet, whatever its size: more say nothing new. */
const ABOUT_SAMPLES = 7000;

/** Cells along the longer side within which parallel lines crowd one another. */
const CELLS = 36;

/** Directions told apart, over half a turn. */
const DIRECTIONS = 12;

/** A cell full of parallel lines counts as this many lines right across it. */
const LINES_A_CELL = 1.5;

/** Samples the lines; see {@link LineSamples}. */
export const lineSamples = (lines: DistinctLines): LineSamples => {
  let total = 0;
  for (let i = 0; i < lines.count; i++) total += lines.length[i]!;
  const step = Math.max(0.003 * lines.diagonal, total / ABOUT_SAMPLES);
  const counts = Array.from(lines.length, (length) => Math.max(1, Math.round(length / step)));
  const count = counts.reduce((sum, each) => sum + each, 0);
  const [x, y, angle] = [new Float64Array(count), new Float64Array(count), new Float64Array(count)];
  const [line, weight] = [new Uint32Array(count), new Float64Array(count)];
  const { ends, box } = lines;
  const cell = Math.max(boxWidth(box), boxHeight(box), 1e-6) / CELLS;
  const crowd = new Float64Array((CELLS + 1) * (CELLS + 1) * DIRECTIONS);
  const slotOf = (sample: number): number => {
    const column = Math.floor((x[sample]! - box.minX) / cell);
    const row = Math.floor((y[sample]! - box.minY) / cell);
    return (
      (row * (CELLS + 1) + column) * DIRECTIONS +
      (Math.round((angle[sample]! / Math.PI) * DIRECTIONS) % DIRECTIONS)
    );
  };
  let at = 0;
  for (let i = 0; i < lines.count; i++) {
    const [x0, y0, x1, y1] = [ends[i * 4]!, ends[i * 4 + 1]!, ends[i * 4 + 2]!, ends[i * 4 + 3]!];
    for (let part = 0; part < counts[i]!; part++) {
      const share = (part + 0.5) / counts[i]!;
      x[at] = x0 + (x1 - x0) * share;
      y[at] = y0 + (y1 - y0) * share;
      angle[at] = lines.angle[i]!;
      line[at] = i;
      weight[at] = lines.length[i]! / counts[i]!;
      crowd[slotOf(at)]! += weight[at]!;
      at++;
    }
  }
  let totalWeight = 0;
  for (let sample = 0; sample < count; sample++) {
    weight[sample]! *= Math.min(1, (LINES_A_CELL * cell) / crowd[slotOf(sample)]!);
    totalWeight += weight[sample]!;
  }
  return { count, x, y, angle, line, weight, totalWeight };
};

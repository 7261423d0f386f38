import Flatbush from 'flatbush';
import type { DistinctLines } from './distinctLines.ts';
import type { LineSamples } from './lineSamples.ts';
import type { Similarity } from './similarity.ts';

/** Old samples laid on the new lines next to them. */
export interface Laid {
  readonly transform: Similarity;
  readonly matchedSamples: number;
  readonly matchedLines: number;
  readonly residualPt: number;
  /** Covariance of (a, b, mx, my) about the centre, k = 1, row by row; null where the lines leave a number open. */
  readonly covariance: readonly number[] | null;
  readonly centre: { readonly x: number; readonly y: number };
}

/** Sine of the angle within which lines are parallel: 1.2 degrees. */
const PARALLEL = 0.021;

/** A tree over the boxes of distinct lines; long slanting ones are cut so that their boxes stay small. */
export interface LineTree {
  readonly near: (x: number, y: number, reach: number) => readonly number[];
}

/** A search tree over lines; long slanting ones in parts, so that their boxes stay slim. */
export const lineTree = ({ count, ends, diagonal }: DistinctLines): LineTree => {
  const most = Math.max(diagonal / 40, 1e-6);
  const parts: number[] = [];
  const owner: number[] = [];
  for (let i = 0; i < count; i++) {
    const [x0, y0, x1, y1] = [ends[i * 4]!, ends[i * 4 + 1]!, ends[i * 4 + 2]!, ends[i * 4 + 3]!];
    const slant = Math.min(Math.abs(x1 - x0), Math.abs(y1 - y0));
    const cuts = Math.max(1, Math.ceil(slant / most));
    for (let part = 0; part < cuts; part++) {
      parts.push(
        x0 + ((x1 - x0) * part) / cuts,
        y0 + ((y1 - y0) * part) / cuts,
        x0 + ((x1 - x0) * (part + 1)) / cuts,
        y0 + ((y1 - y0) * (part + 1)) / cuts,
      );
      owner.push(i);
    }
  }
  if (owner.length === 0) return { near: () => [] };
  const tree = new Flatbush(owner.length);
  for (let i = 0; i < owner.length; i++) {
    const [x0, y0, x1, y1] = [parts[i * 4]!, parts[i * 4 + 1]!, parts[i * 4 + 2]!, parts[i * 4 + 3]!];
    tree.add(Math.min(x0, x1), Math.min(y0, y1), Math.max(x0, x1), Math.max(y0, y1));
  }
  tree.finish();
  return {
    near: (x, y, reach) =>
      tree.search(x - reach, y - reach, x + reach, y + reach).map((item) => owner[item]!),
  };
};

/**
 * Iterated closest lines: each old sample is drawn to the nearest parallel new line within `reaches[0]`, then
 * `reaches[1]` and so on, by least squares over the distances from the lines, those far out trimmed (Tukey's biweight).
 * Point-to-line distances after Chen and Medioni, Image and Vision Computing 10, 1992, 145-155.
 *
 * @param stride every how many samples are used
 */
export const layOnLines = (
  samples: LineSamples,
  lines: DistinctLines,
  tree: LineTree,
  start: Similarity,
  reaches: readonly number[],
  stride = 1,
): Laid | null => {
  let transform = start;
  let laid: Laid | null = null;
  for (const reach of reaches) {
    const step = layOnce(samples, lines, tree, transform, reach, stride);
    if (!step) return laid;
    laid = step;
    transform = step.transform;
  }
  return laid;
};

const layOnce = (
  samples: LineSamples,
  lines: DistinctLines,
  tree: LineTree,
  { a, b, x0, y0 }: Similarity,
  reach: number,
  stride: number,
): Laid | null => {
  const { ends, length } = lines;
  const rows: number[] = [];
  const perLine = new Map<number, number>();
  let [sumX, sumY, count] = [0, 0, 0];
  for (let i = 0; i < samples.count; i += stride) {
    const [px, py] = [samples.x[i]!, samples.y[i]!];
    const qx = a * px - b * py + x0;
    const qy = b * px + a * py + y0;
    const [cosine, sine] = [Math.cos(samples.angle[i]!), Math.sin(samples.angle[i]!)];
    const scale = Math.sqrt(a * a + b * b);
    const [ux, uy] = [(a * cosine - b * sine) / scale, (b * cosine + a * sine) / scale];
    let [least, normalX, normalY, distance] = [reach, 0, 0, 0];
    for (const line of tree.near(qx, qy, reach)) {
      const [lx, ly] = [ends[line * 4]!, ends[line * 4 + 1]!];
      const vx = (ends[line * 4 + 2]! - lx) / length[line]!;
      const vy = (ends[line * 4 + 3]! - ly) / length[line]!;
      if (Math.abs(ux * vy - uy * vx) > PARALLEL) continue;
      const along = vx * (qx - lx) + vy * (qy - ly);
      if (along < -reach || along > length[line]! + reach) continue;
      const aside = vx * (qy - ly) - vy * (qx - lx);
      if (Math.abs(aside) < least) [least, normalX, normalY, distance] = [Math.abs(aside), -vy, vx, aside];
    }
    if (normalX === 0 && normalY === 0) continue;
    rows.push(i, normalX, normalY, distance);
    perLine.set(samples.line[i]!, (perLine.get(samples.line[i]!) ?? 0) + 1);
    sumX += px;
    sumY += py;
    count++;
  }
  if (count < 8) return null;
  const centre = { x: sumX / count, y: sumY / count };
  const sizes = rows
    .filter((_, index) => index % 4 === 3)
    .map(Math.abs)
    .sort((p, q) => p - q);
  // 1.4826 times the median makes it a standard deviation for normal errors; rounding is never less than 0.005 pt.
  const spread = Math.max(0.005, 1.4826 * sizes[sizes.length >> 1]!);
  const cut = Math.min(reach, 4.685 * spread);
  const [normal, right] = [new Float64Array(16), new Float64Array(4)];
  let [weightSum, squares, weighted] = [0, 0, 0];
  for (let r = 0; r < rows.length; r += 4) {
    const i = rows[r]!;
    const distance = rows[r + 3]!;
    if (Math.abs(distance) >= cut) continue;
    const biweight = (1 - (distance / cut) ** 2) ** 2;
    // A line fixes two numbers, its offset and its direction, however many samples lie on it.
    const each = Math.min(1, 2 / perLine.get(samples.line[i]!)!) * biweight;
    const [nx, ny] = [rows[r + 1]!, rows[r + 2]!];
    const [dx, dy] = [samples.x[i]! - centre.x, samples.y[i]! - centre.y];
    const row = [nx * dx + ny * dy, -nx * dy + ny * dx, nx, ny];
    for (let j = 0; j < 4; j++) {
      right[j]! -= each * row[j]! * distance;
      for (let k = 0; k < 4; k++) normal[j * 4 + k]! += each * row[j]! * row[k]!;
    }
    weightSum += each;
    squares += each * distance * distance;
    weighted++;
  }
  const inverse = weighted >= 8 ? invertSymmetric4(normal) : null;
  if (!inverse) return null;
  const change = [0, 1, 2, 3].map((j) =>
    [0, 1, 2, 3].reduce((sum, k) => sum + inverse[j * 4 + k]! * right[k]!, 0),
  );
  const [na, nb] = [a + change[0]!, b + change[1]!];
  const mx = a * centre.x - b * centre.y + x0 + change[2]!;
  const my = b * centre.x + a * centre.y + y0 + change[3]!;
  const variance = (squares / weightSum) * (weightSum / Math.max(1, weightSum - 4)) + 0.005 ** 2;
  return {
    transform: {
      a: na,
      b: nb,
      x0: mx - (na * centre.x - nb * centre.y),
      y0: my - (nb * centre.x + na * centre.y),
    },
    matchedSamples: weighted,
    matchedLines: perLine.size,
    residualPt: Math.sqrt(squares / weightSum),
    covariance: withRounding(inverse, variance, lines.diagonal),
    centre,
  };
};

/**
 * Plotters round all numbers of a sheet alike, so that the mean of many lines is no surer than this, k = 1, in points: a
 * twentieth of a point's rounding (rectangular, JCGM 100:2008 4.3.7). Scale and turn, as far as half the sheet shows them.
 */
const ROUNDING_PT = 0.05 / Math.sqrt(12);

const withRounding = (inverse: Float64Array, variance: number, diagonal: number): number[] => {
  const floor = [(2 * ROUNDING_PT) / diagonal, (2 * ROUNDING_PT) / diagonal, ROUNDING_PT, ROUNDING_PT];
  return Array.from(inverse, (each, at) => each * variance + (at % 5 === 0 ? floor[at / 5]! ** 2 : 0));
};

/** Inverse of a symmetric 4 x 4 matrix by Cholesky; null where it is not clearly positive definite. */
const invertSymmetric4 = (matrix: Float64Array): Float64Array | null => {
  const scale = [0, 1, 2, 3].map((j) => 1 / Math.sqrt(matrix[j * 5]!));
  if (!scale.every(Number.isFinite)) return null;
  const lower = new Float64Array(16);
  for (let j = 0; j < 4; j++) {
    for (let k = 0; k <= j; k++) {
      let sum = matrix[j * 4 + k]! * scale[j]! * scale[k]!;
      for (let m = 0; m < k; m++) sum -= lower[j * 4 + m]! * lower[k * 4 + m]!;
      if (j !== k) lower[j * 4 + k] = sum / lower[k * 5]!;
      else if (sum < 1e-9) return null;
      else lower[j * 5] = Math.sqrt(sum);
    }
  }
  const inverse = new Float64Array(16);
  for (let column = 0; column < 4; column++) {
    const x = [0, 0, 0, 0];
    for (let j = 0; j < 4; j++) {
      let sum = j === column ? 1 : 0;
      for (let k = 0; k < j; k++) sum -= lower[j * 4 + k]! * x[k]!;
      x[j] = sum / lower[j * 5]!;
    }
    for (let j = 3; j >= 0; j--) {
      let sum = x[j]!;
      for (let k = j + 1; k < 4; k++) sum -= lower[k * 4 + j]! * x[k]!;
      x[j] = sum / lower[j * 5]!;
    }
    for (let j = 0; j < 4; j++) inverse[j * 4 + column] = x[j]! * scale[j]! * scale[column]!;
  }
  return inverse;
};

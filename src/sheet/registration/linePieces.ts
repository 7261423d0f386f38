import type { Linework } from '../linework.ts';

/** Straight pieces: x0, y0, x1, y1 of each, and the line or curve of the linework that it belongs to. */
export interface LinePieces {
  readonly count: number;
  readonly ends: Float64Array;
  /** Below lineCount a line, from there on a curve. */
  readonly item: Uint32Array;
}

/** Chords stray from a curve by about this much, in points. */
const STRAY_PT = 0.1;

const MOST_CHORDS = 12;

/**
 * All lines of a linework, and its curves as chords.
 *
 * @param size by which the pieces will be drawn larger or smaller: a curve is cut as its copy of that size is, so that
 * the chords of both lie on one another
 */
export const linePieces = ({ lines, lineCount, curves, curveCount }: Linework, size: number): LinePieces => {
  const chords = Array.from({ length: curveCount }, (_, curve) => chordsFor(curves, curve * 8, size));
  const count = chords.reduce((sum, each) => sum + each, lineCount);
  const ends = new Float64Array(count * 4);
  const item = new Uint32Array(count);
  ends.set(lines.subarray(0, lineCount * 4));
  for (let i = 0; i < lineCount; i++) item[i] = i;
  let at = lineCount;
  for (let curve = 0; curve < curveCount; curve++) {
    const [x0, x1, x2, x3] = [0, 2, 4, 6].map((k) => curves[curve * 8 + k]!) as [
      number,
      number,
      number,
      number,
    ];
    const [y0, y1, y2, y3] = [1, 3, 5, 7].map((k) => curves[curve * 8 + k]!) as [
      number,
      number,
      number,
      number,
    ];
    let [px, py] = [x0, y0];
    for (let chord = 1; chord <= chords[curve]!; chord++) {
      const t = chord / chords[curve]!;
      const s = 1 - t;
      const [k0, k1, k2, k3] = [s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t];
      const [x, y] = [k0 * x0 + k1 * x1 + k2 * x2 + k3 * x3, k0 * y0 + k1 * y1 + k2 * y2 + k3 * y3];
      ends.set([px, py, x, y], at * 4);
      item[at++] = lineCount + curve;
      [px, py] = [x, y];
    }
  }
  return { count, ends, item };
};

/** An arc of length l strays from n chords by about l / (8 n^2) at the most that curves on plans bend. */
const chordsFor = (curves: Float64Array, at: number, size: number): number => {
  let length = 0;
  for (let k = at; k < at + 6; k += 2)
    length += Math.sqrt((curves[k + 2]! - curves[k]!) ** 2 + (curves[k + 3]! - curves[k + 1]!) ** 2);
  return Math.min(MOST_CHORDS, Math.max(1, Math.ceil(Math.sqrt((length * size) / (8 * STRAY_PT)))));
};

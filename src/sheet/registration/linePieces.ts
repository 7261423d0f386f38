import type { Linework } from '../linework.ts';

/** Straight pieces: x0, y0, x1, y1 of each, and the line or curve of the linework that it belongs to. */
export interface LinePieces {
  readonly count: number;
  readonly ends: Float64Array;
  /** Below lineCount a line, from there on a curve. */
  readonly item: Uint32Array;
}

/** A curve is taken as this many chords: a door's quarter circle is then within half a percent of its radius. */
const CHORDS = 8;

/** All lines of a linework, and its curves as chords. */
export const linePieces = ({ lines, lineCount, curves, curveCount }: Linework): LinePieces => {
  const count = lineCount + curveCount * CHORDS;
  const ends = new Float64Array(count * 4);
  const item = new Uint32Array(count);
  ends.set(lines.subarray(0, lineCount * 4));
  for (let i = 0; i < lineCount; i++) item[i] = i;
  let at = lineCount;
  for (let curve = 0; curve < curveCount; curve++) {
    const [x0, y0, x1, y1, x2, y2, x3, y3] = curves.subarray(curve * 8, curve * 8 + 8) as unknown as [
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    let [px, py] = [x0, y0];
    for (let chord = 1; chord <= CHORDS; chord++) {
      const t = chord / CHORDS;
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

import type { Linework } from '../../src/sheet/linework.ts';
import { NO_LAYER, PATH_FLAG } from '../../src/sheet/linework.ts';
import { createLineworkIndex, type LineworkIndex } from '../../src/sheet/lineworkIndex.ts';

/** A polyline as drawn by one stroke. */
export interface DrawnPath {
  readonly points: readonly (readonly [number, number])[];
  readonly width?: number;
  /** 0xRRGGBB of a fill. */
  readonly fill?: number;
  readonly dashed?: boolean;
}

/** Linework of hand-written polylines: each a path of its own, in user-space units. */
export const lineworkOf = (paths: readonly DrawnPath[]): Linework => {
  const lines: number[] = [];
  const linePath: number[] = [];
  paths.forEach(({ points }, path) => {
    for (let at = 1; at < points.length; at += 1) {
      const [from, to] = [points[at - 1]!, points[at]!];
      lines.push(...from, ...to);
      linePath.push(path);
    }
  });
  return {
    lineCount: linePath.length,
    curveCount: 0,
    pathCount: paths.length,
    lines: Float64Array.from(lines),
    curves: new Float64Array(0),
    linePath: Uint32Array.from(linePath),
    curvePath: new Uint32Array(0),
    pathFlags: Uint8Array.from(
      paths,
      ({ fill, dashed }) =>
        PATH_FLAG.stroked | (fill === undefined ? 0 : PATH_FLAG.filled) | (dashed ? PATH_FLAG.dashed : 0),
    ),
    pathWidth: Float32Array.from(paths, ({ width }) => width ?? 0.5),
    pathStroke: new Uint32Array(paths.length),
    pathFill: Uint32Array.from(paths, ({ fill }) => fill ?? 0),
    pathLayer: new Uint16Array(paths.length).fill(NO_LAYER),
  };
};

/** The same, indexed. */
export const drawn = (paths: readonly DrawnPath[]): LineworkIndex => createLineworkIndex(lineworkOf(paths));

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

/** A curve as eight numbers, drawn by the stroke of one of the paths. */
export interface DrawnCurve {
  readonly points: readonly number[];
  /** Which of the paths it belongs to. */
  readonly path: number;
}

/** Linework of hand-written polylines and curves: each polyline a path of its own, in user-space units. */
export const lineworkOf = (paths: readonly DrawnPath[], curves: readonly DrawnCurve[] = []): Linework => {
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
    curveCount: curves.length,
    pathCount: paths.length,
    lines: Float64Array.from(lines),
    curves: Float64Array.from(curves.flatMap(({ points }) => points)),
    linePath: Uint32Array.from(linePath),
    curvePath: Uint32Array.from(curves, ({ path }) => path),
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
export const drawn = (paths: readonly DrawnPath[], curves: readonly DrawnCurve[] = []): LineworkIndex =>
  createLineworkIndex(lineworkOf(paths, curves));

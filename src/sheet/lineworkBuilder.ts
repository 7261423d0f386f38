import type { Linework } from './linework.ts';

/** The attributes of the path being added. */
export interface PathStyle {
  readonly flags: number;
  readonly width: number;
  readonly stroke: number;
  readonly fill: number;
  readonly layer: number;
}

/** Collects linework into arrays that double when full. */
export interface LineworkBuilder {
  /** Starts a path; it is kept only if something visible is added before the next. */
  startPath(style: PathStyle): void;
  addLine(x0: number, y0: number, x1: number, y1: number): void;
  addCurve(curve: ArrayLike<number>): void;
  finish(): Linework;
}

/** Coordinates beyond this many user-space units are no drawing: they would only swamp the index. */
const FARTHEST = 1e7;

/** Makes a builder; see {@link LineworkBuilder}. */
export const createLineworkBuilder = (): LineworkBuilder => {
  let lines = new Float64Array(4096);
  let linePath = new Uint32Array(1024);
  let curves = new Float64Array(2048);
  let curvePath = new Uint32Array(256);
  let lineCount = 0;
  let curveCount = 0;
  const flags: number[] = [];
  const widths: number[] = [];
  const strokes: number[] = [];
  const fills: number[] = [];
  const layers: number[] = [];
  let pending: PathStyle | null = null;

  const currentPath = (): number => {
    if (pending) {
      flags.push(pending.flags);
      widths.push(pending.width);
      strokes.push(pending.stroke);
      fills.push(pending.fill);
      layers.push(pending.layer);
      pending = null;
    }
    return flags.length - 1;
  };

  return {
    startPath: (style) => {
      pending = style;
    },
    addLine: (x0, y0, x1, y1) => {
      if (x0 === x1 && y0 === y1) return;
      const reach = Math.max(Math.abs(x0), Math.abs(y0), Math.abs(x1), Math.abs(y1));
      if (!(reach < FARTHEST)) return;
      if (lineCount === linePath.length) {
        lines = grow(lines, Float64Array);
        linePath = grow(linePath, Uint32Array);
      }
      const at = lineCount * 4;
      lines[at] = x0;
      lines[at + 1] = y0;
      lines[at + 2] = x1;
      lines[at + 3] = y1;
      linePath[lineCount++] = currentPath();
    },
    addCurve: (curve) => {
      for (let i = 0; i < 8; i++) if (!(Math.abs(curve[i]!) < FARTHEST)) return;
      if (curveCount === curvePath.length) {
        curves = grow(curves, Float64Array);
        curvePath = grow(curvePath, Uint32Array);
      }
      curves.set(curve, curveCount * 8);
      curvePath[curveCount++] = currentPath();
    },
    finish: () => ({
      lineCount,
      curveCount,
      pathCount: flags.length,
      lines: lines.slice(0, lineCount * 4),
      curves: curves.slice(0, curveCount * 8),
      linePath: linePath.slice(0, lineCount),
      curvePath: curvePath.slice(0, curveCount),
      pathFlags: Uint8Array.from(flags),
      pathWidth: Float32Array.from(widths),
      pathStroke: Uint32Array.from(strokes),
      pathFill: Uint32Array.from(fills),
      pathLayer: Uint16Array.from(layers),
    }),
  };
};

const grow = <T extends Float64Array | Uint32Array>(array: T, make: new (length: number) => T): T => {
  const grown = new make(array.length * 2);
  grown.set(array);
  return grown;
};

/**
 * All vector paths of a page that can be seen, in the page's unrotated user space, packed in typed arrays.
 *
 * A path is one painting operation; a line or curve names its path, and the path its attributes. Lines are clipped to
 * what is visible; curves stay curves.
 */
export interface Linework {
  /** Number of straight lines. */
  readonly lineCount: number;
  /** Number of cubic curves. */
  readonly curveCount: number;
  readonly pathCount: number;
  /** x0, y0, x1, y1 of each line, in user-space units. */
  readonly lines: Float64Array;
  /** x0, y0, x1, y1, x2, y2, x3, y3 of each curve (start, two control points, end). */
  readonly curves: Float64Array;
  /** The path of each line; lines of one path are neighbours. */
  readonly linePath: Uint32Array;
  readonly curvePath: Uint32Array;
  /** {@link PATH_FLAG} bits of each path. */
  readonly pathFlags: Uint8Array;
  /** Line width of each stroked path, in user-space units; 0 is the thinnest line of the device. */
  readonly pathWidth: Float32Array;
  /** 0xRRGGBB of each path's stroke. */
  readonly pathStroke: Uint32Array;
  /** 0xRRGGBB of each path's fill. */
  readonly pathFill: Uint32Array;
  /** Index into the sheet's layers, or {@link NO_LAYER}. */
  readonly pathLayer: Uint16Array;
}

export const PATH_FLAG = { stroked: 1, filled: 2, dashed: 4 } as const;

export const NO_LAYER = 0xffff;

export const EMPTY_LINEWORK: Linework = {
  lineCount: 0,
  curveCount: 0,
  pathCount: 0,
  lines: new Float64Array(0),
  curves: new Float64Array(0),
  linePath: new Uint32Array(0),
  curvePath: new Uint32Array(0),
  pathFlags: new Uint8Array(0),
  pathWidth: new Float32Array(0),
  pathStroke: new Uint32Array(0),
  pathFill: new Uint32Array(0),
  pathLayer: new Uint16Array(0),
};

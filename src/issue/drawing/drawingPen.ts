import type { FillClass, HatchKind, LineType, LineWeight, Shape } from './drawing.ts';
import {
  arcPath,
  circlePath,
  type DrawnPath,
  mappedPath,
  polygonPath,
  polylinePath,
  rectanglePath,
  roundedPath,
  type XY,
} from './drawnPath.ts';

/** How a pen draws: a line of a weight and type, a fill, a hatch; without a weight, no line. */
export interface PenStyle {
  readonly weight?: LineWeight;
  readonly type?: LineType;
  readonly fill?: FillClass;
  readonly hatch?: HatchKind;
}

/** Draws shapes of one part at a place; `shapes` holds them in order. */
export interface DrawingPen<Part extends string> {
  readonly shapes: readonly Shape<Part>[];
  readonly path: (path: DrawnPath, style: PenStyle, tag?: string) => void;
  readonly box: (
    left: number,
    bottom: number,
    right: number,
    top: number,
    style: PenStyle,
    tag?: string,
  ) => void;
  readonly rounded: (
    box: readonly [number, number, number, number],
    radii: { readonly bottomRadius?: number; readonly topRadius?: number },
    style: PenStyle,
    tag?: string,
  ) => void;
  readonly polygon: (points: readonly XY[], style: PenStyle, tag?: string) => void;
  readonly line: (points: readonly XY[], style: PenStyle, tag?: string) => void;
  readonly arc: (
    centre: XY,
    radius: number,
    fromRad: number,
    toRad: number,
    style: PenStyle,
    tag?: string,
  ) => void;
  readonly circle: (centre: XY, radius: number, style: PenStyle, tag?: string) => void;
}

/** A pen whose origin lies at `xMm` on the floor line; what it draws belongs to `part` and carries `tag` unless told otherwise. */
export const drawingPen = <Part extends string>(
  xMm: number,
  { part, tag }: { readonly part?: Part | undefined; readonly tag?: string } = {},
): DrawingPen<Part> => {
  const shapes: Shape<Part>[] = [];
  const path = (drawn: DrawnPath, { weight, type, fill, hatch }: PenStyle, ownTag = tag): void => {
    shapes.push({
      path: xMm === 0 ? drawn : mappedPath(drawn, ({ x, y }) => ({ x: x + xMm, y })),
      ...(weight ? { stroke: { weight, type: type ?? 'continuous' } } : {}),
      ...(fill ? { fill } : {}),
      ...(hatch ? { hatch } : {}),
      ...(part === undefined ? {} : { part }),
      ...(ownTag === undefined ? {} : { tag: ownTag }),
    });
  };
  return {
    shapes,
    path,
    box: (left, bottom, right, top, style, ownTag) =>
      path(rectanglePath(left, bottom, right, top), style, ownTag),
    rounded: (box, radii, style, ownTag) => path(roundedPath(box, radii), style, ownTag),
    polygon: (points, style, ownTag) => path(polygonPath(points), style, ownTag),
    line: (points, style, ownTag) => path(polylinePath(points), style, ownTag),
    arc: (centre, radius, fromRad, toRad, style, ownTag) =>
      path(arcPath(centre, radius, fromRad, toRad), style, ownTag),
    circle: (centre, radius, style, ownTag) => path(circlePath(centre, radius), style, ownTag),
  };
};

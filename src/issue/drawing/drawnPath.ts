import type { Point } from '../../geometry/point.ts';

/** A step of a path: straight to a point, or by a cubic Bézier curve, which screens and PDF both know. */
export type PathStep =
  | { readonly kind: 'line'; readonly to: Point }
  | { readonly kind: 'curve'; readonly c1: Point; readonly c2: Point; readonly to: Point };

export interface DrawnPath {
  readonly start: Point;
  readonly steps: readonly PathStep[];
  readonly isClosed: boolean;
}

export type XY = readonly [x: number, y: number];

const at = ([x, y]: XY): Point => ({ x, y });

const chained = (points: readonly XY[], isClosed: boolean): DrawnPath => {
  const [first, ...others] = points;
  if (first === undefined) throw new RangeError('A path needs at least one point.');
  return { start: at(first), steps: others.map((point) => ({ kind: 'line', to: at(point) })), isClosed };
};

/** An open path through points. */
export const polylinePath = (points: readonly XY[]): DrawnPath => chained(points, false);

/** A closed path through points. */
export const polygonPath = (points: readonly XY[]): DrawnPath => chained(points, true);

/** An upright rectangle between its sides. */
export const rectanglePath = (left: number, bottom: number, right: number, top: number): DrawnPath =>
  polygonPath([
    [left, bottom],
    [right, bottom],
    [right, top],
    [left, top],
  ]);

/** Steps of at most a quarter turn along a circle; the control length 4/3 tan(angle / 4) keeps within 0.03 % of the radius. */
const arcSteps = (centre: XY, radius: number, fromRad: number, toRad: number): readonly PathStep[] => {
  const count = Math.max(1, Math.ceil(Math.abs(toRad - fromRad) / (Math.PI / 2) - 1e-9));
  const step = (toRad - fromRad) / count;
  const reach = (4 / 3) * Math.tan(step / 4) * radius;
  const on = (angle: number): XY => [
    centre[0] + radius * Math.cos(angle),
    centre[1] + radius * Math.sin(angle),
  ];
  return Array.from({ length: count }, (_, index) => {
    const start = fromRad + index * step;
    const end = start + step;
    const [sx, sy] = on(start);
    const [ex, ey] = on(end);
    return {
      kind: 'curve',
      c1: { x: sx - reach * Math.sin(start), y: sy + reach * Math.cos(start) },
      c2: { x: ex + reach * Math.sin(end), y: ey - reach * Math.cos(end) },
      to: { x: ex, y: ey },
    };
  });
};

/** An arc, anticlockwise where `toRad` is larger; angles from +x. */
export const arcPath = (centre: XY, radius: number, fromRad: number, toRad: number): DrawnPath => ({
  start: { x: centre[0] + radius * Math.cos(fromRad), y: centre[1] + radius * Math.sin(fromRad) },
  steps: arcSteps(centre, radius, fromRad, toRad),
  isClosed: false,
});

/** A whole circle, anticlockwise from +x. */
export const circlePath = (centre: XY, radius: number): DrawnPath => ({
  ...arcPath(centre, radius, 0, 2 * Math.PI),
  isClosed: true,
});

/** A rectangle with rounded corners: the radii of the two at the bottom and of the two at the top. */
export const roundedPath = (
  [left, bottom, right, top]: readonly [number, number, number, number],
  { bottomRadius = 0, topRadius = 0 }: { readonly bottomRadius?: number; readonly topRadius?: number },
): DrawnPath => {
  const most = Math.min(right - left, top - bottom) / 2;
  const low = Math.min(bottomRadius, most);
  const high = Math.min(topRadius, most);
  const line = (x: number, y: number): PathStep => ({ kind: 'line', to: { x, y } });
  const quarter = (x: number, y: number, radius: number, fromRad: number) =>
    radius === 0 ? [] : arcSteps([x, y], radius, fromRad, fromRad + Math.PI / 2);
  return {
    start: { x: left + low, y: bottom },
    steps: [
      line(right - low, bottom),
      ...quarter(right - low, bottom + low, low, -Math.PI / 2),
      line(right, top - high),
      ...quarter(right - high, top - high, high, 0),
      line(left + high, top),
      ...quarter(left + high, top - high, high, Math.PI / 2),
      line(left, bottom + low),
      ...quarter(left + low, bottom + low, low, Math.PI),
    ],
    isClosed: true,
  };
};

/** The path under a map of points that keeps straight lines straight. */
export const mappedPath = (path: DrawnPath, map: (point: Point) => Point): DrawnPath => ({
  start: map(path.start),
  steps: path.steps.map(
    (step): PathStep =>
      step.kind === 'line'
        ? { kind: 'line', to: map(step.to) }
        : { kind: 'curve', c1: map(step.c1), c2: map(step.c2), to: map(step.to) },
  ),
  isClosed: path.isClosed,
});

/** The points that a path passes or is drawn towards; their box holds the path. */
export const pointsOfPath = (path: DrawnPath): readonly Point[] => [
  path.start,
  ...path.steps.flatMap((step) => (step.kind === 'line' ? [step.to] : [step.c1, step.c2, step.to])),
];

import type { Point } from '../../geometry/point.ts';

/** A rectangle at any angle, as its corners in order. */
export type TurnedBox = readonly Point[];

/** The rectangle around a point, `width` along the direction and `height` across. */
export const turnedBox = (at: Point, angleRad: number, width: number, height: number): TurnedBox => {
  const [cosine, sine] = [Math.cos(angleRad), Math.sin(angleRad)];
  const corner = (along: number, up: number): Point => ({
    x: at.x + along * cosine - up * sine,
    y: at.y + along * sine + up * cosine,
  });
  const [w, h] = [width / 2, height / 2];
  return [corner(-w, -h), corner(w, -h), corner(w, h), corner(-w, h)];
};

const separatedAlong = (one: TurnedBox, other: TurnedBox, slack: number): boolean =>
  one.some((from, index) => {
    const to = one[(index + 1) % one.length]!;
    const length = Math.hypot(to.x - from.x, to.y - from.y);
    if (length === 0) return false;
    const [nx, ny] = [(to.y - from.y) / length, -(to.x - from.x) / length];
    const reach = (box: TurnedBox) => box.map(({ x, y }) => x * nx + y * ny);
    const [a, b] = [reach(one), reach(other)];
    return Math.max(...a) <= Math.min(...b) + slack || Math.max(...b) <= Math.min(...a) + slack;
  });

/**
 * Whether two convex rings share more than `slack` of length across (separating axes: convex shapes are apart where a
 * line along one of their edges parts them).
 */
export const doTurnedBoxesOverlap = (one: TurnedBox, other: TurnedBox, slack = 1e-6): boolean =>
  !separatedAlong(one, other, slack) && !separatedAlong(other, one, slack);

import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';

/** Anticlockwise on the paper, in radians. */
export const directionOf = (from: PaperPoint, to: PaperPoint) => Math.atan2(to.y - from.y, to.x - from.x);

/** The mean of a ring's points: the middle of one with four corners. */
export const middleOf = (ring: readonly PaperPoint[]): PaperPoint => {
  const sum = ring.reduce((total, { x, y }) => ({ x: total.x + x, y: total.y + y }), { x: 0, y: 0 });
  return paperPoint(sum.x / ring.length, sum.y / ring.length);
};

/** From front to back, of a ring whose first two points are its front edge. */
export const depthOf = (ring: readonly PaperPoint[]): number => {
  const start = ring[0];
  const back = ring[3];
  return start && back ? Math.hypot(back.x - start.x, back.y - start.y) : 0;
};

/** Along its front edge. */
export const widthOf = (ring: readonly PaperPoint[]): number => {
  const [start, end] = ring;
  return start && end ? Math.hypot(end.x - start.x, end.y - start.y) : 0;
};

import type { Point } from '../../geometry/point.ts';
import { ringSegmentsOf } from '../../geometry/polyline.ts';
import { dot, type Vector } from '../../geometry/vector.ts';
import { anticlockwise, type PrismLook, type PrismStack } from './prism.ts';

/** A face of the picture, mm of the room at the isometric scale; a later one covers an earlier one. */
export interface PictureFace {
  readonly ring: readonly Point[];
  readonly look: PrismLook;
  /** How the face lies: up, or how far it is turned to the light, from 0 (away) to 1 (facing). */
  readonly facing: 'up' | number;
}

/** sin 30 and cos 30: axes of an isometric picture lie at 30 degrees (ISO 5456-3, 5.1; clause from memory). */
const sine = 0.5;
const cosine = Math.sqrt(3) / 2;

/**
 * A point of the room in the isometric picture: lengths along all three axes at one scale. `turnRad` turns the floor
 * anticlockwise before: then x runs right and down, y right and up.
 */
export const isometricPoint = ({ x, y }: Point, heightMm: number, turnRad: number): Point => {
  const u = x * Math.cos(turnRad) - y * Math.sin(turnRad);
  const v = x * Math.sin(turnRad) + y * Math.cos(turnRad);
  return { x: (u + v) * cosine, y: heightMm + (v - u) * sine };
};

/** On the floor, the direction from the room to who looks at the picture: along x and against y of the turned floor. */
export const towardsViewer = (turnRad: number): Vector => {
  const half = Math.SQRT1_2;
  // (1, -1) of the turned floor, turned back.
  return {
    x: half * Math.cos(turnRad) - half * Math.sin(turnRad),
    y: -half * Math.sin(turnRad) - half * Math.cos(turnRad),
  };
};

const touchMm = 0.5;

/**
 * By the edges of `ring` that have all of `other` on their outside: whether the viewer stands on that side too (`other`
 * can't be hidden by what the ring bounds) or on the ring's (it can't hide that). An edge seen end on parts them so that
 * neither can hide the other.
 */
const partingSides = (
  ring: readonly Point[],
  other: readonly Point[],
  viewer: Vector,
): { readonly isNearer: boolean; readonly isFarther: boolean } => {
  let isNearer = false;
  let isFarther = false;
  for (const { start, end } of ringSegmentsOf(ring)) {
    const length = Math.hypot(end.x - start.x, end.y - start.y);
    if (length < touchMm) continue;
    const outward = { x: (end.y - start.y) / length, y: -(end.x - start.x) / length };
    const isParted = other.every(
      (point) => dot({ x: point.x - start.x, y: point.y - start.y }, outward) >= -touchMm,
    );
    const turned = dot(outward, viewer);
    if (isParted && turned > -1e-9) isNearer = true;
    if (isParted && turned < 1e-9) isFarther = true;
  }
  return { isNearer, isFarther };
};

/** Whether `one` may be hidden by `other`, so that it must be drawn first. */
const isBehind = (one: readonly Point[], other: readonly Point[], viewer: Vector): boolean => {
  const ofOther = partingSides(one, other, viewer);
  const ofOne = partingSides(other, one, viewer);
  const isOtherNearer = ofOther.isNearer || ofOne.isFarther;
  const isOtherFarther = ofOther.isFarther || ofOne.isNearer;
  return isOtherNearer && !isOtherFarther;
};

/**
 * From the farthest to the nearest: what may be hidden comes first. Convex footprints that do not overlap are always
 * parted by an edge of one of them.
 */
export const farthestFirst = (stacks: readonly PrismStack[], turnRad: number): readonly PrismStack[] => {
  const viewer = towardsViewer(turnRad);
  const rings = stacks.map(({ footprint }) => anticlockwise(footprint));
  const behind = rings.map((ring, index) =>
    rings.flatMap((other, at) => (at !== index && isBehind(other, ring, viewer) ? [at] : [])),
  );
  const done = new Set<number>();
  const begun = new Set<number>();
  const order: PrismStack[] = [];
  const visit = (index: number): void => {
    if (done.has(index) || begun.has(index)) return;
    begun.add(index);
    for (const before of behind[index]!) visit(before);
    done.add(index);
    order.push(stacks[index]!);
  };
  for (const index of stacks.keys()) visit(index);
  return order;
};

/** The faces of solids that can be seen, in the order in which they are drawn. */
export const isometricFaces = (stacks: readonly PrismStack[], turnRad: number): readonly PictureFace[] => {
  const viewer = towardsViewer(turnRad);
  return farthestFirst(stacks, turnRad).flatMap(({ prisms }) =>
    prisms.flatMap(({ footprint, fromMm, toMm, look }) => {
      const ring = anticlockwise(footprint);
      const sides = ringSegmentsOf(ring).flatMap(({ start, end }): PictureFace[] => {
        const length = Math.hypot(end.x - start.x, end.y - start.y);
        const facing = length > 0 ? dot({ x: end.y - start.y, y: start.x - end.x }, viewer) / length : 0;
        if (facing <= 1e-6 || toMm - fromMm < 1e-6) return [];
        const at = (point: Point, heightMm: number) => isometricPoint(point, heightMm, turnRad);
        return [{ ring: [at(start, fromMm), at(end, fromMm), at(end, toMm), at(start, toMm)], look, facing }];
      });
      const up: PictureFace = {
        ring: ring.map((point) => isometricPoint(point, toMm, turnRad)),
        look,
        facing: 'up',
      };
      return [...sides, up];
    }),
  );
};

import { axisFrame, bestRoll, rolledRows } from './bestRoll.ts';
import type { RotationRows, Triple } from './boxRotation.ts';
import { longestTilted, tiltedFit } from './rectangleInRectangle.ts';

export interface BoxInBox {
  /** Length of the longest box found; attained by `rows`. */
  readonly longestMm: number;
  /** No box of this cross-section is longer than this at any rotation. */
  readonly boundMm: number;
  readonly rows: RotationRows | null;
}

/** What a search may take for granted and where it may stop. */
export interface BoxSearch {
  /** How far `longestMm` may stay below `boundMm`. */
  readonly toleranceMm?: number;
  /** A length already known to fit. */
  readonly knownMm?: number;
  /** Stop as soon as this length is known to fit. */
  readonly enoughMm?: number;
  /** Lengths below this are of no interest: stop as soon as it is known not to fit. */
  readonly leastMm?: number;
}

/** A square on a face of the cube: directions of the length axis with that component largest. */
interface Cell {
  readonly face: 0 | 1 | 2;
  readonly u: number;
  readonly v: number;
  readonly half: number;
  readonly boundMm: number;
}

/** Cells tried before the search stops with a wider bound; reached by no room and box of ordinary proportions. */
const CELL_BUDGET = 20_000;

/**
 * The longest box l x w x h that lies in a room A x B x C at any rotation, standing, tilted or on the diagonal.
 *
 * Centred in the room at the rotation R, the box reaches |R_i1| l + |R_i2| w + |R_i3| h along the room's axis i
 * (support function of a box); no other place is better, since both bodies are symmetric about their centres. So
 * l(R) = min over i of (A_i - |R_i2| w - |R_i3| h)/|R_i1|, and the answer is its maximum over all rotations.
 *
 * The direction of the length axis is found by branch and bound over an octant of the sphere (reflecting the room in
 * its own planes changes no |R_ij|), the roll about it in closed form. Over a cell of angular radius r, every axis of
 * the box moves by at most r, so giving the room (w + h) r more and the length axis r less bounds the cell from above.
 *
 * Where nothing longer than `knownMm` is found, `longestMm` is `knownMm` and `rows` is null.
 */
export const longestBoxInBox = (
  room: Triple,
  widthMm: number,
  heightMm: number,
  { toleranceMm = 0.02, knownMm = 0, enoughMm = Number.POSITIVE_INFINITY, leastMm = 0 }: BoxSearch = {},
): BoxInBox => {
  let longestMm = knownMm;
  let rows: RotationRows | null = null;
  let droppedMm = 0;
  const tryAxis = (axis: Triple): void => {
    if (bestCase(room, axis, widthMm, heightMm, 0) <= longestMm) return;
    const frame = axisFrame(axis);
    const found = bestRoll(room, frame, widthMm, heightMm, 0);
    if (found.longestMm > longestMm) {
      longestMm = found.longestMm;
      rows = rolledRows(frame, found.rollRad);
    }
  };
  const measured = (face: 0 | 1 | 2, u: number, v: number, half: number): Cell => {
    const axis = onFace(face, u, v);
    tryAxis(axis);
    // Going from the cube to the sphere turns the axis by at most what it moved on the face, at the nearest corner.
    const nearest = Math.hypot(1, Math.max(0, u - half), Math.max(0, v - half));
    const radius = (half * Math.SQRT2) / nearest;
    const roughMm = bestCase(room, axis, widthMm, heightMm, radius);
    const boundMm =
      roughMm <= longestMm + toleranceMm
        ? roughMm
        : bestRoll(room, axisFrame(axis), widthMm, heightMm, radius).longestMm;
    return { face, u, v, half, boundMm };
  };
  // Positions square to a wall lie on the rims of cells, never at a centre, and are the only ones there are where a
  // side fills the room: so they are tried by name.
  for (const face of FACES) {
    tryAxis(onFace(face, 0, 0));
    for (const axis of levelAxes(room, face, widthMm, heightMm)) tryAxis(axis);
  }
  let level: Cell[] = FACES.map((face) => measured(face, 0.5, 0.5, 0.5));
  let tried = 0;
  while (level.length > 0) {
    const next: Cell[] = [];
    for (const cell of level) {
      const settled = longestMm >= enoughMm || cell.boundMm < leastMm;
      if (settled || cell.boundMm <= longestMm + toleranceMm || tried > CELL_BUDGET) {
        droppedMm = Math.max(droppedMm, cell.boundMm);
        continue;
      }
      const half = cell.half / 2;
      for (const [right, up] of QUARTERS) {
        tried += 1;
        next.push(measured(cell.face, cell.u + right * half, cell.v + up * half, half));
      }
    }
    level = next;
  }
  return { longestMm, boundMm: Math.max(droppedMm, longestMm), rows };
};

/** A bound that needs no roll: whatever the roll, w and h reach at least min(w, h) sqrt(1 - x^2) along a room axis. */
const bestCase = (
  room: Triple,
  axis: Triple,
  widthMm: number,
  heightMm: number,
  slackRad: number,
): number => {
  const leastMm = Math.min(widthMm, heightMm);
  const spareMm = (widthMm + heightMm) * slackRad;
  let boundMm = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 3; i += 1) {
    const x = axis[i]!;
    const reach = x - slackRad;
    const sparedMm = room[i]! + spareMm - leastMm * Math.sqrt(Math.max(0, 1 - x * x));
    if (sparedMm < 0) return Number.NEGATIVE_INFINITY;
    if (reach > 0) boundMm = Math.min(boundMm, sparedMm / reach);
  }
  return boundMm;
};

const FACES = [0, 1, 2] as const;

/** Length axes square to the room's axis `face` with which the box is longest there, w or h along that axis. */
const levelAxes = (room: Triple, face: 0 | 1 | 2, widthMm: number, heightMm: number): readonly Triple[] => {
  const first = ((face + 1) % 3) as 0 | 1 | 2;
  const second = ((face + 2) % 3) as 0 | 1 | 2;
  return [widthMm, heightMm].map((acrossMm) => {
    const longMm = longestTilted(room[first], room[second], acrossMm);
    const { tiltRad } = tiltedFit(room[first], room[second], longMm, acrossMm);
    const axis: [number, number, number] = [0, 0, 0];
    axis[first] = Math.cos(tiltRad);
    axis[second] = Math.sin(tiltRad);
    return axis;
  });
};

/** The unit vector through a point of a cube's face: component `face` is the largest, the next two are u and v of it. */
const onFace = (face: 0 | 1 | 2, u: number, v: number): Triple => {
  const size = Math.hypot(1, u, v);
  const axis: [number, number, number] = [0, 0, 0];
  axis[face] = 1 / size;
  axis[(face + 1) % 3] = u / size;
  axis[(face + 2) % 3] = v / size;
  return axis;
};

const QUARTERS = [
  [-1, -1],
  [1, -1],
  [-1, 1],
  [1, 1],
] as const;

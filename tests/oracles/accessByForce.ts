/**
 * Independent oracle for a whole way in, from the contract's words alone (DESIGN sections 5 and 6): every orientation is
 * tried in small steps. It shares nothing with src/access.
 */
export interface ForcedPiece {
  readonly length: number;
  readonly width: number;
  readonly height: number;
  readonly keepUpright: boolean;
}

/** Whether a p x q section fits an opening at one of many tilts. */
const sectionFits = (p: number, q: number, across: number, up: number, tilts: boolean): boolean => {
  if (p <= across && q <= up) return true;
  if (!tilts) return false;
  if (q <= across && p <= up) return true;
  if (Math.min(p, q) > Math.min(across, up) || p * p + q * q > across * across + up * up) return false;
  const steps = 20_000;
  for (let step = 1; step < steps; step += 1) {
    const t = (step * Math.PI) / 2 / steps;
    const c = Math.cos(t);
    const s = Math.sin(t);
    if (p * c + q * s <= across && p * s + q * c <= up) return true;
  }
  return false;
};

/** Through an opening along one of the piece's own axes. */
export const throughOpening = (
  { length, width, height, keepUpright }: ForcedPiece,
  across: number,
  up: number,
): boolean =>
  sectionFits(width, height, across, up, !keepUpright) ||
  sectionFits(length, height, across, up, !keepUpright) ||
  (!keepUpright && sectionFits(width, length, across, up, true));

/** Footprints with the height that goes with each. */
const stances = ({ length, width, height, keepUpright }: ForcedPiece) =>
  keepUpright
    ? [[length, width, height] as const]
    : [[length, width, height] as const, [length, height, width] as const, [width, height, length] as const];

/**
 * The free angles of a rectangle between two walls that meet at an outer corner, with a block behind the inner corner.
 * Pushed into the outer corner the rectangle is out of the block if it can be anywhere at that angle, and all its free
 * places at that angle hang together (both the walls and the block open along the same two directions). So it gets by
 * exactly when a chain of free angles leads from one at which the first passage lets it by to one at which the second does.
 */
const angleStates = (
  long: number,
  short: number,
  from: number,
  to: number,
  turnRad: number,
  steps: number,
) => {
  const alpha = Math.PI - turnRad;
  const inner1 = [0, 1] as const;
  const inner2 = [Math.sin(alpha), -Math.cos(alpha)] as const;
  const cornerX = (to - from * inner2[1]) / inner2[0];
  const states: number[] = [];
  for (let step = 0; step < steps; step += 1) {
    // Angles run from the first passage's direction down into the second's: -step is a turn towards it.
    const t = -(step * Math.PI) / steps;
    const ux = Math.cos(t);
    const uy = Math.sin(t);
    const xs = [0, long * ux, -short * uy, long * ux - short * uy];
    const ys = [0, long * uy, short * ux, long * uy + short * ux];
    const in1 = ys;
    const in2 = xs.map((x, i) => x * inner2[0] + ys[i]! * inner2[1]);
    const low1 = Math.min(...in1);
    const low2 = Math.min(...in2);
    const open1 = Math.max(...in1) - low1 <= from;
    const open2 = Math.max(...in2) - low2 <= to;
    const dy = -low1;
    const dx = (-low2 + low1 * inner2[1]) / inner2[0];
    // The block: beyond `from` of the first wall and beyond `to` of the second, seen from the inner corner.
    const px = xs.map((x) => x + dx);
    const py = ys.map((y) => y + dy);
    const far = 1e7;
    const bx = [cornerX, cornerX + far, cornerX + far * Math.cos(alpha)];
    const by = [from, from, from + far * Math.sin(alpha)];
    const axes = [
      [ux, uy],
      [-uy, ux],
      [inner1[0], inner1[1]],
      [inner2[0], inner2[1]],
    ];
    let depth = Number.POSITIVE_INFINITY;
    for (const [ax, ay] of axes) {
      const a = px.map((x, i) => x * ax! + py[i]! * ay!);
      const b = bx.map((x, i) => x * ax! + by[i]! * ay!);
      depth = Math.min(depth, Math.max(...a) - Math.min(...b), Math.max(...b) - Math.min(...a));
    }
    states.push((depth <= 1e-9 ? 1 : 0) + (open1 ? 2 : 0) + (open2 ? 4 : 0));
  }
  return states;
};

/** Whether the turn lets by a rectangle: round the corner only, or by any chain of angles on an ideal outer corner. */
export const roundTheTurn = (
  long: number,
  short: number,
  turn: { readonly from: number; readonly to: number; readonly turnRad: number },
  { anyWay, steps }: { readonly anyWay: boolean; readonly steps: number },
): boolean => {
  const states = angleStates(long, short, turn.from, turn.to, turn.turnRad, steps);
  const last = Math.round((turn.turnRad / Math.PI) * steps) % steps;
  if (!anyWay && turn.turnRad > Math.PI / 2 + 1e-9) {
    // Only angles between the two passages count.
    let open = false;
    for (let step = 0; step <= last; step += 1) {
      const state = states[step]!;
      if (state & 2) open = true;
      if (!(state & 1)) open = false;
      if (open && state & 4) return true;
    }
    return false;
  }
  // Reach on the ring of angles, from every angle that the first passage lets by.
  const reached = states.map((state) => (state & 2) > 0);
  for (let round = 0; round < 2; round += 1) {
    for (const direction of [1, -1]) {
      let on = false;
      for (let k = 0; k < 2 * steps; k += 1) {
        const at = (((direction * k) % steps) + steps) % steps;
        if (!(states[at]! & 3)) on = false;
        else if (reached[at]) on = true;
        else if (on) reached[at] = true;
      }
    }
  }
  return states.some((state, at) => reached[at] && (state & 4) > 0);
};

/** A level piece round a turn, each allowed dimension vertical in turn. */
export const throughTurn = (
  piece: ForcedPiece,
  turn: { readonly from: number; readonly to: number; readonly up: number; readonly turnRad: number },
  steps: number,
  anyWay = false,
): boolean =>
  stances(piece).some(
    ([p, q, tall]) =>
      tall <= turn.up && roundTheTurn(Math.max(p, q), Math.min(p, q), turn, { anyWay, steps }),
  );

/** Excess of a rotated box over a room: at most 0 where it fits. */
const boxExcess = (room: readonly number[], sides: readonly number[], angles: readonly number[]): number => {
  const [a, b, c] = angles as [number, number, number];
  const ca = Math.cos(a);
  const sa = Math.sin(a);
  const cb = Math.cos(b);
  const sb = Math.sin(b);
  const cc = Math.cos(c);
  const sc = Math.sin(c);
  const rows = [
    [ca * cb, ca * sb * sc - sa * cc, ca * sb * cc + sa * sc],
    [sa * cb, sa * sb * sc + ca * cc, sa * sb * cc - ca * sc],
    [-sb, cb * sc, cb * cc],
  ];
  return Math.max(
    ...rows.map((row, i) => row.reduce((sum, r, j) => sum + Math.abs(r) * sides[j]!, 0) - room[i]!),
  );
};

/** By how much the box is too large for the room at the best rotation found, standing or at any tilt. */
export const carExcess = (
  piece: ForcedPiece,
  room: readonly [number, number, number],
  next: () => number,
): number => {
  let least = Number.POSITIVE_INFINITY;
  for (const [p, q, tall] of stances(piece)) {
    for (let step = 0; step <= 9000; step += 1) {
      const t = (step * Math.PI) / 2 / 9000;
      const c = Math.cos(t);
      const s = Math.sin(t);
      least = Math.min(least, Math.max(p * c + q * s - room[0], p * s + q * c - room[1], tall - room[2]));
    }
  }
  if (piece.keepUpright) return least;
  const sides = [piece.length, piece.width, piece.height];
  // One side square to a wall, the other two tilted between the remaining walls.
  for (let wall = 0; wall < 3; wall += 1) {
    for (let side = 0; side < 3; side += 1) {
      const p = sides[(side + 1) % 3]!;
      const q = sides[(side + 2) % 3]!;
      for (let step = 0; step <= 4000; step += 1) {
        const t = (step * Math.PI) / 2 / 4000;
        const c = Math.cos(t);
        const s = Math.sin(t);
        least = Math.min(
          least,
          Math.max(
            sides[side]! - room[wall]!,
            p * c + q * s - room[(wall + 1) % 3]!,
            p * s + q * c - room[(wall + 2) % 3]!,
          ),
        );
      }
    }
  }
  for (let start = 0; start < 60; start += 1) {
    let at = [next() * Math.PI, next() * Math.PI, next() * Math.PI];
    let value = boxExcess(room, sides, at);
    for (let size = 0.5; size > 1e-7; size *= 0.85) {
      for (let turn = 0; turn < 8; turn += 1) {
        const tried = at.map((angle) => angle + (next() * 2 - 1) * size);
        const excess = boxExcess(room, sides, tried);
        if (excess < value) {
          value = excess;
          at = tried;
        }
      }
    }
    least = Math.min(least, value);
  }
  return least;
};

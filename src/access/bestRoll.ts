import type { RotationRows, Triple } from './boxRotation.ts';

/** A length axis with two unit vectors square to it and to each other. */
export interface AxisFrame {
  readonly axis: Triple;
  readonly across: Triple;
  readonly beyond: Triple;
}

/** A right-handed frame about an axis of unit length: `across` is level, `beyond` is square to both. */
export const axisFrame = (axis: Triple): AxisFrame => {
  const [x, y, z] = axis;
  const level = Math.hypot(x, y);
  if (level < 1e-12) return { axis, across: [1, 0, 0], beyond: [0, z, 0] };
  return {
    axis,
    across: [-y / level, x / level, 0],
    beyond: [(-x * z) / level, (-y * z) / level, level],
  };
};

export interface RolledLength {
  readonly longestMm: number;
  readonly rollRad: number;
}

/**
 * The roll about a fixed length axis with which a box w x h reaches furthest along that axis, in a room.
 *
 * With the axis at the component x along a room axis, w and h reach s = w |u cos p + v sin p| + h |v cos p - u sin p|
 * along it, u and v being the components of two unit vectors square to the axis. The length is the least of (A - s)/x
 * over the three room axes. Between the rolls at which one of the six components changes sign, each (A - s)/x is
 * convex, so the largest minimum lies at such a roll or where two of the three are equal; both are closed forms, and
 * every one is tried. Where a room axis is square to the length axis (x = 0), s <= A is a wall instead; being equal to
 * it is then the same equation.
 *
 * @param slackRad 0 for the true length; otherwise an upper bound over all axes within that angle of this one
 */
export const bestRoll = (
  room: Triple,
  { axis, across, beyond }: AxisFrame,
  widthMm: number,
  heightMm: number,
  slackRad: number,
): RolledLength => {
  const spareMm = (widthMm + heightMm) * slackRad;
  const reach = AXES.map((i) => Math.max(0, Math.abs(axis[i]) - slackRad));
  let longestMm = 0;
  let bestRad = 0;
  const consider = (rollRad: number): void => {
    const cos = Math.cos(rollRad);
    const sin = Math.sin(rollRad);
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i < 3; i += 1) {
      const u = across[i]!;
      const v = beyond[i]!;
      const taken = widthMm * Math.abs(u * cos + v * sin) + heightMm * Math.abs(v * cos - u * sin);
      const spared = room[i]! + spareMm - taken;
      if (spared < -1e-9) return;
      const x = reach[i]!;
      if (x > TINY && spared / x < least) least = spared / x;
      if (least <= longestMm) return;
    }
    longestMm = least;
    bestRad = rollRad;
  };
  // (A_i - s_i) x_j = (A_j - s_j) x_i on one part, as p cos r + q sin r = k: up to two rolls.
  const considerWhere = (p: number, q: number, k: number, fromRad: number, toRad: number): void => {
    const size = Math.hypot(p, q);
    if (size < Math.abs(k) || size < 1e-12) return;
    const base = Math.atan2(q, p);
    const swing = Math.acos(k / size);
    const first = fromRad + modulo(base + swing - fromRad, 2 * Math.PI);
    if (first <= toRad + 1e-12) consider(first);
    const second = fromRad + modulo(base - swing - fromRad, 2 * Math.PI);
    if (second <= toRad + 1e-12) consider(second);
  };
  const half = Math.PI / 2;
  const kinks = AXES.map((i) => modulo(Math.atan2(beyond[i], across[i]), half)).sort((p, q) => p - q);
  for (let part = 0; part < 6; part += 1) {
    const fromRad = kinks[part % 3]! + (part < 3 ? 0 : half);
    const toRad = part === 5 ? kinks[0]! + Math.PI : kinks[(part + 1) % 3]! + (part < 2 ? 0 : half);
    consider(fromRad);
    if (toRad - fromRad < 1e-14) continue;
    const cos = Math.cos((fromRad + toRad) / 2);
    const sin = Math.sin((fromRad + toRad) / 2);
    for (let i = 0; i < 3; i += 1) {
      const j = (i + 1) % 3;
      // s = c cos r + d sin r with the signs of this part.
      const wi = signed(widthMm, across[i]! * cos + beyond[i]! * sin);
      const hi = signed(heightMm, beyond[i]! * cos - across[i]! * sin);
      const wj = signed(widthMm, across[j]! * cos + beyond[j]! * sin);
      const hj = signed(heightMm, beyond[j]! * cos - across[j]! * sin);
      const ci = wi * across[i]! + hi * beyond[i]!;
      const di = wi * beyond[i]! - hi * across[i]!;
      const cj = wj * across[j]! + hj * beyond[j]!;
      const dj = wj * beyond[j]! - hj * across[j]!;
      const xi = reach[i]!;
      const xj = reach[j]!;
      const ai = room[i]! + spareMm;
      const aj = room[j]! + spareMm;
      considerWhere(ci * xj - cj * xi, di * xj - dj * xi, ai * xj - aj * xi, fromRad, toRad);
    }
  }
  return { longestMm, rollRad: bestRad };
};

const AXES = [0, 1, 2] as const;

/** A component of a unit vector below this counts as square to its axis. */
const TINY = 1e-15;

const signed = (mm: number, of: number): number => (of < 0 ? -mm : mm);

/** The rotation that a frame and a roll make. */
export const rolledRows = ({ axis, across, beyond }: AxisFrame, rollRad: number): RotationRows => {
  const cos = Math.cos(rollRad);
  const sin = Math.sin(rollRad);
  const row = (i: 0 | 1 | 2): Triple => [
    axis[i],
    across[i] * cos + beyond[i] * sin,
    beyond[i] * cos - across[i] * sin,
  ];
  return [row(0), row(1), row(2)];
};

const modulo = (value: number, by: number): number => value - Math.floor(value / by) * by;

import type { RotationRows, Triple } from './boxInBox.ts';

/**
 * The roll about a fixed length axis with which a box w x h reaches furthest along that axis, in a room.
 *
 * With the axis at the component x along a room axis, w and h reach s = w |u cos p + v sin p| + h |v cos p - u sin p|
 * along it, where u and v are the components of any two unit vectors square to the axis. The length is
 * min over the three room axes of (A - s)/x. Between the rolls at which one of the six components changes sign, each
 * (A - s)/x is convex, so the largest minimum lies at such a roll or where two of the three are equal; both are closed
 * forms, and every one is tried.
 *
 * @param slackRad 0 for the true length; otherwise an upper bound over all axes within that angle of this one
 */
export const bestRoll = (
  room: Triple,
  axis: Triple,
  widthMm: number,
  heightMm: number,
  slackRad: number,
): { readonly longestMm: number; readonly rows: RotationRows } => {
  const [across, beyond] = squareTo(axis);
  const spareMm = (widthMm + heightMm) * slackRad;
  const x0 = Math.max(0, Math.abs(axis[0]) - slackRad);
  const x1 = Math.max(0, Math.abs(axis[1]) - slackRad);
  const x2 = Math.max(0, Math.abs(axis[2]) - slackRad);
  const limit = (i: 0 | 1 | 2, x: number, cos: number, sin: number): number => {
    const second = Math.abs(across[i] * cos + beyond[i] * sin);
    const third = Math.abs(beyond[i] * cos - across[i] * sin);
    const spared = room[i] + spareMm - widthMm * second - heightMm * third;
    if (spared < -1e-9) return Number.NEGATIVE_INFINITY;
    return x > 1e-15 ? spared / x : Number.POSITIVE_INFINITY;
  };
  let longestMm = Number.NEGATIVE_INFINITY;
  let bestRad = 0;
  const consider = (rollRad: number): void => {
    const cos = Math.cos(rollRad);
    const sin = Math.sin(rollRad);
    const first = limit(0, x0, cos, sin);
    if (first <= longestMm) return;
    const second = limit(1, x1, cos, sin);
    if (second <= longestMm) return;
    const third = limit(2, x2, cos, sin);
    if (third <= longestMm) return;
    longestMm = Math.min(first, second, third);
    bestRad = rollRad;
  };
  const half = Math.PI / 2;
  const kinks: number[] = [];
  for (const i of [0, 1, 2] as const) {
    const kink = modulo(Math.atan2(beyond[i], across[i]), half);
    kinks.push(kink);
    consider(kink);
    consider(kink + half);
  }
  kinks.sort((p, q) => p - q);
  const starts = [kinks[0]!, kinks[1]!, kinks[2]!, kinks[0]! + half, kinks[1]! + half, kinks[2]! + half];
  for (let part = 0; part < 6; part += 1) {
    const fromRad = starts[part]!;
    const toRad = part < 5 ? starts[part + 1]! : starts[0]! + Math.PI;
    if (toRad - fromRad < 1e-14) continue;
    const middleRad = (fromRad + toRad) / 2;
    const cos = Math.cos(middleRad);
    const sin = Math.sin(middleRad);
    // On this part s_i = c_i cos p + d_i sin p with fixed signs.
    const c: number[] = [];
    const d: number[] = [];
    for (const i of [0, 1, 2] as const) {
      const w = across[i] * cos + beyond[i] * sin < 0 ? -widthMm : widthMm;
      const h = beyond[i] * cos - across[i] * sin < 0 ? -heightMm : heightMm;
      c.push(w * across[i] + h * beyond[i]);
      d.push(w * beyond[i] - h * across[i]);
    }
    const crossing = (i: 0 | 1 | 2, xi: number, j: 0 | 1 | 2, xj: number): void => {
      // (A_i - s_i) x_j = (A_j - s_j) x_i, as P cos p + Q sin p = K.
      const p = c[i]! * xj - c[j]! * xi;
      const q = d[i]! * xj - d[j]! * xi;
      const k = (room[i] + spareMm) * xj - (room[j] + spareMm) * xi;
      const size = Math.hypot(p, q);
      if (size < Math.abs(k) || size < 1e-12) return;
      const base = Math.atan2(q, p);
      const swing = Math.acos(k / size);
      for (const rollRad of [base + swing, base - swing]) {
        const at = fromRad + modulo(rollRad - fromRad, 2 * Math.PI);
        if (at <= toRad + 1e-12) consider(at);
      }
    };
    crossing(0, x0, 1, x1);
    crossing(0, x0, 2, x2);
    crossing(1, x1, 2, x2);
    // Where a room axis is square to the length axis its limit is a wall (s <= A), not a slope: try its edge.
    const wall = (i: 0 | 1 | 2, x: number): void => {
      const size = Math.hypot(c[i]!, d[i]!);
      const k = room[i] + spareMm;
      if (x > 1e-15 || size < k) return;
      const base = Math.atan2(d[i]!, c[i]!);
      const swing = Math.acos(k / size);
      for (const rollRad of [base + swing, base - swing]) {
        const at = fromRad + modulo(rollRad - fromRad, 2 * Math.PI);
        if (at <= toRad + 1e-12) consider(at);
      }
    };
    wall(0, x0);
    wall(1, x1);
    wall(2, x2);
  }
  return { longestMm: Math.max(0, longestMm), rows: rowsAt(axis, across, beyond, bestRad) };
};

const rowsAt = (axis: Triple, across: Triple, beyond: Triple, rollRad: number): RotationRows => {
  const cos = Math.cos(rollRad);
  const sin = Math.sin(rollRad);
  const row = (i: 0 | 1 | 2): Triple => [
    axis[i],
    across[i] * cos + beyond[i] * sin,
    beyond[i] * cos - across[i] * sin,
  ];
  return [row(0), row(1), row(2)];
};

/** Two unit vectors square to a unit axis and to each other. */
const squareTo = (axis: Triple): readonly [Triple, Triple] => {
  const [x, y, z] = axis;
  const level = Math.hypot(x, y);
  if (level < 1e-12) {
    return [
      [1, 0, 0],
      [0, z, 0],
    ];
  }
  return [
    [-y / level, x / level, 0],
    [(-x * z) / level, (-y * z) / level, level],
  ];
};

const modulo = (value: number, by: number): number => value - Math.floor(value / by) * by;

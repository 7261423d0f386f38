/**
 * Independent oracle for a box in a box: random rotations improved by random small turns. It finds lengths that do
 * fit, so an answer below what it finds is wrong. Rotations are quaternions here, angles of directions in src/access.
 */
type Quaternion = readonly [number, number, number, number];

const normalised = (q: readonly number[]): Quaternion => {
  const size = Math.hypot(...q);
  return [q[0]! / size, q[1]! / size, q[2]! / size, q[3]! / size];
};

/** Longest box at one rotation: along each axis of the room, what the other two sides leave. */
const lengthAt = (
  room: readonly number[],
  width: number,
  height: number,
  [w, x, y, z]: Quaternion,
): number => {
  const rows = [
    [1 - 2 * (y * y + z * z), 2 * (x * y - w * z), 2 * (x * z + w * y)],
    [2 * (x * y + w * z), 1 - 2 * (x * x + z * z), 2 * (y * z - w * x)],
    [2 * (x * z - w * y), 2 * (y * z + w * x), 1 - 2 * (x * x + y * y)],
  ];
  let longest = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 3; i += 1) {
    const spared = room[i]! - width * Math.abs(rows[i]![1]!) - height * Math.abs(rows[i]![2]!);
    if (spared < 0) return Number.NEGATIVE_INFINITY;
    const along = Math.abs(rows[i]![0]!);
    if (along > 1e-12) longest = Math.min(longest, spared / along);
  }
  return longest;
};

/** The longest box found by searching rotations at random; a lower bound of the true one. */
export const longestByRotation = (
  room: readonly number[],
  width: number,
  height: number,
  random: () => number,
  starts: number,
  improvements: number,
): number => {
  let longest = 0;
  for (let start = 0; start < starts; start += 1) {
    let at = normalised([random() - 0.5, random() - 0.5, random() - 0.5, random() - 0.5]);
    let here = lengthAt(room, width, height, at);
    let reach = 0.5;
    for (let step = 0; step < improvements; step += 1) {
      const next = normalised(at.map((part) => part + reach * (random() - 0.5)));
      const there = lengthAt(room, width, height, next);
      if (there >= here) {
        at = next;
        here = there;
      } else reach = Math.max(1e-7, reach * 0.985);
    }
    longest = Math.max(longest, here);
  }
  return longest;
};

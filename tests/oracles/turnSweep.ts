/**
 * Independent oracle for turns: sweeps a rectangle round a corner in small steps of angle, as polygons. It shares
 * nothing with src/access: the rectangle's vertices are pushed against both outer walls and the result is tested
 * against the wall block behind the inner corner by the separating-axis theorem.
 */
interface Vec {
  readonly x: number;
  readonly y: number;
}

const dot = (p: Vec, q: Vec): number => p.x * q.x + p.y * q.y;

const rectangle = (long: number, short: number, angle: number): Vec[] => {
  const e = { x: Math.cos(angle), y: Math.sin(angle) };
  const m = { x: -e.y, y: e.x };
  return [
    [0, 0],
    [long, 0],
    [long, short],
    [0, short],
  ].map(([l, s]) => ({ x: l! * e.x + s! * m.x, y: l! * e.y + s! * m.y }));
};

/** Depth by which two convex polygons overlap: negative when some edge direction of either separates them. */
const overlapDepth = (first: readonly Vec[], second: readonly Vec[]): number => {
  let depth = Number.POSITIVE_INFINITY;
  for (const polygon of [first, second]) {
    for (let i = 0; i < polygon.length; i += 1) {
      const a = polygon[i]!;
      const b = polygon[(i + 1) % polygon.length]!;
      const size = Math.hypot(b.x - a.x, b.y - a.y);
      const normal = { x: (b.y - a.y) / size, y: -(b.x - a.x) / size };
      const range = (points: readonly Vec[]): [number, number] => {
        const along = points.map((point) => dot(point, normal));
        return [Math.min(...along), Math.max(...along)];
      };
      const [lowA, highA] = range(first);
      const [lowB, highB] = range(second);
      depth = Math.min(depth, Math.min(highA - lowB, highB - lowA));
    }
  }
  return depth;
};

export interface SweptTurn {
  readonly from: number;
  readonly to: number;
  readonly turnRad: number;
}

/** Walls of the turn: unit normals into the passages, the inner corner, and the block behind it as a large triangle. */
const walls = ({ from, to, turnRad }: SweptTurn) => {
  const alpha = Math.PI - turnRad;
  const second = { x: Math.cos(alpha), y: Math.sin(alpha) };
  const intoFirst = { x: 0, y: 1 };
  const intoSecond = { x: Math.sin(alpha), y: -Math.cos(alpha) };
  // The inner corner is `from` away from the first outer wall and `to` away from the second.
  const innerX = (to - from * intoSecond.y) / intoSecond.x;
  const inner = { x: innerX, y: from };
  const far = 1000 * (from + to);
  const block = [
    inner,
    { x: inner.x + far, y: inner.y },
    { x: inner.x + far * second.x, y: inner.y + far * second.y },
  ];
  return { intoFirst, intoSecond, block };
};

/** By how much the snug rectangle cuts into the inner block at an angle to the first wall; negative is clear. */
const cutAt = (turn: SweptTurn, long: number, short: number, t: number): number => {
  const { intoSecond, block } = walls(turn);
  const loose = rectangle(long, short, -t);
  const down = Math.min(...loose.map((point) => point.y));
  const back = Math.min(...loose.map((point) => dot(point, intoSecond)));
  const shift = { y: -down, x: (-back + down * intoSecond.y) / intoSecond.x };
  return overlapDepth(
    loose.map((point) => ({ x: point.x + shift.x, y: point.y + shift.y })),
    block,
  );
};

/** The deepest cut into the inner corner over a whole swing from one passage into the other, in steps of angle. */
export const deepestCut = (turn: SweptTurn, long: number, short: number, steps: number): number => {
  let deepest = Number.NEGATIVE_INFINITY;
  for (let step = 0; step <= steps; step += 1) {
    deepest = Math.max(deepest, cutAt(turn, long, short, (turn.turnRad * step) / steps));
  }
  return deepest;
};

/**
 * By how much the rectangle is too broad for one of the passages at the best constant angle: at most 0 where it can be
 * slid across without turning. Steps of angle first, then thirds around the three best of them.
 */
export const slideExcess = (turn: SweptTurn, long: number, short: number, steps: number): number => {
  const { intoFirst, intoSecond } = walls(turn);
  const excessAt = (angle: number): number => {
    const corners = rectangle(long, short, -angle);
    const breadth = (normal: Vec): number => {
      const along = corners.map((point) => dot(point, normal));
      return Math.max(...along) - Math.min(...along);
    };
    return Math.max(breadth(intoFirst) - turn.from, breadth(intoSecond) - turn.to);
  };
  // Past a right angle only angles between the two passages count: others need the depth of the outer corner.
  const range = turn.turnRad > Math.PI / 2 + 1e-9 ? turn.turnRad : Math.PI;
  const size = range / steps;
  const tried = Array.from({ length: steps + 1 }, (_, step) => ({
    angle: step * size,
    excess: excessAt(step * size),
  }));
  const best = [...tried].sort((p, q) => p.excess - q.excess).slice(0, 3);
  let least = Number.POSITIVE_INFINITY;
  for (const { angle } of best) {
    let low = Math.max(0, angle - size);
    let high = Math.min(range, angle + size);
    for (let step = 0; step < 60; step += 1) {
      const third = (high - low) / 3;
      if (excessAt(low + third) < excessAt(high - third)) high -= third;
      else low += third;
    }
    least = Math.min(least, excessAt((low + high) / 2), excessAt(angle));
  }
  return least;
};

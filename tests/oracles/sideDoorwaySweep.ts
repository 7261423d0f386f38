/**
 * Independent oracle for doorways in the side of a passage: the rectangle is turned in small steps as a polygon, its
 * tail pushed on the far wall and its side on the near jamb, and held against the far jamb as a polygon. It follows
 * the movement; that no other movement does better is for the free search (freeMotion.ts) to say.
 */
interface Vec {
  readonly x: number;
  readonly y: number;
}

export interface SweptDoorway {
  readonly passage: number;
  readonly door: number;
  readonly wall: number;
}

/** Signed distance of a convex polygon above the line through a point with a direction; positive is to its left. */
const above = (points: readonly Vec[], through: Vec, direction: Vec): number =>
  Math.min(...points.map((p) => direction.x * (p.y - through.y) - direction.y * (p.x - through.x)));

/** Whether a convex polygon stays out of an axis-parallel block, to a slack. */
const staysOut = (
  points: readonly Vec[],
  block: { x0: number; x1: number; y0: number; y1: number },
  slack: number,
): boolean => {
  const xs = points.map((p) => p.x);
  const ys = points.map((p) => p.y);
  if (Math.max(...xs) <= block.x0 + slack || Math.min(...xs) >= block.x1 - slack) return true;
  if (Math.max(...ys) <= block.y0 + slack || Math.min(...ys) >= block.y1 - slack) return true;
  const corners = [
    { x: block.x0, y: block.y0 },
    { x: block.x1, y: block.y0 },
    { x: block.x1, y: block.y1 },
    { x: block.x0, y: block.y1 },
  ];
  return points.some((start, index) => {
    const end = points[(index + 1) % points.length]!;
    const size = Math.hypot(end.x - start.x, end.y - start.y);
    const direction = { x: -(end.x - start.x) / size, y: -(end.y - start.y) / size };
    return above(corners, start, direction) >= -slack;
  });
};

const FAR = 1e6;

/** The rectangle at an angle, tail on the far wall (y = 0), its upper side through the edge of the near jamb. */
const placed = ({ passage }: SweptDoorway, long: number, short: number, t: number): Vec[] => {
  const e = { x: Math.cos(t), y: Math.sin(t) };
  const m = { x: -e.y, y: e.x };
  const at = (l: number, s: number): Vec => ({ x: l * e.x + s * m.x, y: l * e.y + s * m.y });
  const loose = [at(0, 0), at(long, 0), at(long, short), at(0, short)];
  // Down on the far wall first; then along the wall until the upper side meets the jamb's edge at (0, passage).
  const down = Math.min(...loose.map((p) => p.y));
  const standing = loose.map((p) => ({ x: p.x, y: p.y - down }));
  const upper = standing[3]!;
  const shift = -(upper.x + ((passage - upper.y) * e.x) / e.y);
  return standing.map((p) => ({ x: p.x + shift, y: p.y }));
};

const farJamb = ({ passage, door, wall }: SweptDoorway) => ({
  x0: door,
  x1: FAR,
  y0: passage,
  y1: passage + wall,
});

/** Whether, at an angle, the piece may be drawn on along its own axis without meeting the far jamb. */
const clears = (doorway: SweptDoorway, short: number, t: number, slack: number): boolean => {
  // Long enough to reach from the far wall past both jambs, however flat it lies.
  const drawnOn = doorway.passage / Math.sin(t) + 20 * (doorway.passage + doorway.door + doorway.wall);
  return staysOut(placed(doorway, drawnOn, short, t), farJamb(doorway), slack);
};

/** Whether the rectangle is swung through, in steps of angle. */
export const swingsThrough = (
  doorway: SweptDoorway,
  long: number,
  short: number,
  steps: number,
  slack: number,
): boolean => {
  for (let step = 1; step < steps; step += 1) {
    const t = (Math.PI / 2) * (step / steps) ** 2; // finer where a little turn changes much
    if (clears(doorway, short, t, slack)) return true;
    if (!staysOut(placed(doorway, long, short, t), farJamb(doorway), slack)) return false;
  }
  return short <= doorway.door + slack;
};

/** Whether the rectangle is moved through at one angle, in steps. */
export const slidesThrough = (
  doorway: SweptDoorway,
  long: number,
  short: number,
  steps: number,
  slack: number,
): boolean => {
  if (long <= doorway.door + slack && short <= doorway.passage + slack) return true;
  if (long <= doorway.passage + slack && short <= doorway.door + slack) return true;
  for (let step = 1; step < steps; step += 1) {
    const t = (Math.PI / 2) * (step / steps) ** 2; // finer where a little turn changes much
    const taken = long * Math.sin(t) + short * Math.cos(t);
    if (taken <= doorway.passage + slack && clears(doorway, short, t, slack)) return true;
  }
  return false;
};

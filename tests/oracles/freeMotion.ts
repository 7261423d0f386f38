/**
 * Independent oracle for moving a rectangle among walls: a breadth-first search over a grid of positions and angles,
 * with no idea of how a turn is made. It is coarse (the grid), so hold it only against answers a few per cent away
 * from the limit.
 */
export interface Wall {
  /** Vertices of a convex wall, in order. */
  readonly points: readonly (readonly [number, number])[];
}

export interface MotionProblem {
  readonly walls: readonly Wall[];
  readonly long: number;
  readonly short: number;
  readonly bounds: { readonly x: readonly [number, number]; readonly y: readonly [number, number] };
  readonly step: number;
  readonly angleSteps: number;
  readonly start: { readonly x: number; readonly y: number; readonly angle: number };
  /** Asked of the centre and the half extents along x and y. */
  readonly isThere: (x: number, y: number, halfX: number, halfY: number) => boolean;
}

interface Prepared {
  readonly edges: readonly { readonly nx: number; readonly ny: number; readonly top: number }[];
  readonly xs: Float64Array;
  readonly ys: Float64Array;
}

const prepared = (wall: Wall): Prepared => {
  const { points } = wall;
  const edges = points.map(([ax, ay], index) => {
    const [bx, by] = points[(index + 1) % points.length]!;
    const size = Math.hypot(bx - ax, by - ay);
    let nx = (by - ay) / size;
    let ny = -(bx - ax) / size;
    const along = points.map(([x, y]) => x * nx + y * ny);
    // Outward: the rest of a convex wall lies on the other side of each of its edges.
    if (Math.max(...along) > ax * nx + ay * ny + 1e-6) {
      nx = -nx;
      ny = -ny;
    }
    return { nx, ny, top: ax * nx + ay * ny };
  });
  return { edges, xs: Float64Array.from(points, ([x]) => x), ys: Float64Array.from(points, ([, y]) => y) };
};

/** Whether the rectangle can be moved from its start to a place that counts as there. */
export const canMove = (problem: MotionProblem): boolean => {
  const { bounds, step, angleSteps, long, short } = problem;
  const walls = problem.walls.map(prepared);
  const nx = Math.floor((bounds.x[1] - bounds.x[0]) / step) + 1;
  const ny = Math.floor((bounds.y[1] - bounds.y[0]) / step) + 1;
  const seen = new Uint8Array(nx * ny * angleSteps);
  const cosines = Float64Array.from({ length: angleSteps }, (_, k) => Math.cos((Math.PI * k) / angleSteps));
  const sines = Float64Array.from({ length: angleSteps }, (_, k) => Math.sin((Math.PI * k) / angleSteps));
  const halfLong = long / 2;
  const halfShort = short / 2;
  const isFree = (x: number, y: number, k: number): boolean => {
    const c = cosines[k]!;
    const s = sines[k]!;
    for (const wall of walls) {
      let separated = false;
      for (const { nx: ex, ny: ey, top } of wall.edges) {
        const reach = halfLong * Math.abs(ex * c + ey * s) + halfShort * Math.abs(ey * c - ex * s);
        if (x * ex + y * ey - reach >= top) {
          separated = true;
          break;
        }
      }
      if (separated) continue;
      let lowL = Number.POSITIVE_INFINITY;
      let highL = Number.NEGATIVE_INFINITY;
      let lowS = Number.POSITIVE_INFINITY;
      let highS = Number.NEGATIVE_INFINITY;
      for (let i = 0; i < wall.xs.length; i += 1) {
        const dx = wall.xs[i]! - x;
        const dy = wall.ys[i]! - y;
        const l = dx * c + dy * s;
        const w = dy * c - dx * s;
        if (l < lowL) lowL = l;
        if (l > highL) highL = l;
        if (w < lowS) lowS = w;
        if (w > highS) highS = w;
      }
      if (lowL >= halfLong || highL <= -halfLong || lowS >= halfShort || highS <= -halfShort) continue;
      return false;
    }
    return true;
  };
  const start: [number, number, number] = [
    Math.round((problem.start.x - bounds.x[0]) / step),
    Math.round((problem.start.y - bounds.y[0]) / step),
    Math.round((problem.start.angle / Math.PI) * angleSteps) % angleSteps,
  ];
  const startX = bounds.x[0] + start[0] * step;
  const startY = bounds.y[0] + start[1] * step;
  if (!isFree(startX, startY, start[2])) throw new Error('the search must start at a free position');
  // Last in, first out, with turning and going on tried first: it only matters how soon the end is found.
  const open: number[] = [(start[2] * ny + start[1]) * nx + start[0]];
  seen[open[0]!] = 1;
  while (open.length > 0) {
    const cell = open.pop()!;
    const i = cell % nx;
    const j = Math.floor(cell / nx) % ny;
    const k = Math.floor(cell / (nx * ny));
    const x = bounds.x[0] + i * step;
    const y = bounds.y[0] + j * step;
    const c = Math.abs(cosines[k]!);
    const s = Math.abs(sines[k]!);
    if (problem.isThere(x, y, halfLong * c + halfShort * s, halfLong * s + halfShort * c)) return true;
    for (let dk = -1; dk <= 1; dk += 1) {
      const nk = (k + dk + angleSteps) % angleSteps;
      for (let dj = -1; dj <= 1; dj += 1) {
        const nj = j + dj;
        if (nj < 0 || nj >= ny) continue;
        for (let di = -1; di <= 1; di += 1) {
          const ni = i + di;
          if (ni < 0 || ni >= nx) continue;
          const next = (nk * ny + nj) * nx + ni;
          if (seen[next] === 1) continue;
          seen[next] = 1;
          if (isFree(bounds.x[0] + ni * step, bounds.y[0] + nj * step, nk)) open.push(next);
        }
      }
    }
  }
  return false;
};

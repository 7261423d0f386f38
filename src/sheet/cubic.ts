/** A cubic Bezier curve: start, two control points, end, as [x0, y0, x1, y1, x2, y2, x3, y3]. */
export type Cubic = readonly [number, number, number, number, number, number, number, number];

/** The curve of so many of a linework, whose curves lie one after another, eight numbers each. */
export const cubicOf = (curves: ArrayLike<number>, curve: number): Cubic => {
  const at = (offset: number): number => curves[curve * 8 + offset]!;
  return [at(0), at(1), at(2), at(3), at(4), at(5), at(6), at(7)];
};

/** The point of a curve at t in 0..1 (Bernstein form). */
export const cubicAt = (curve: Cubic, t: number): readonly [number, number] => {
  const u = 1 - t;
  const w0 = u * u * u;
  const w1 = 3 * u * u * t;
  const w2 = 3 * u * t * t;
  const w3 = t * t * t;
  return [
    w0 * curve[0] + w1 * curve[2] + w2 * curve[4] + w3 * curve[6],
    w0 * curve[1] + w1 * curve[3] + w2 * curve[5] + w3 * curve[7],
  ];
};

/** The part of a curve between two parameters, as a curve (blossoming, the de Casteljau scheme). */
export const subCubic = (curve: Cubic, from: number, to: number): Cubic => {
  const blossom = (axis: 0 | 1, r: number, s: number, t: number): number => {
    const mix = (a: number, b: number, at: number): number => a + (b - a) * at;
    const a = mix(curve[axis], curve[(axis + 2) as 2], r);
    const b = mix(curve[(axis + 2) as 2], curve[(axis + 4) as 4], r);
    const c = mix(curve[(axis + 4) as 4], curve[(axis + 6) as 6], r);
    return mix(mix(a, b, s), mix(b, c, s), t);
  };
  const at = (r: number, s: number, t: number): [number, number] => [
    blossom(0, r, s, t),
    blossom(1, r, s, t),
  ];
  return [...at(from, from, from), ...at(from, from, to), ...at(from, to, to), ...at(to, to, to)];
};

/** Parameters in (0, 1) where a curve crosses the line segment from (ax, ay) to (bx, by). */
export const cubicLineCrossings = (
  curve: Cubic,
  ax: number,
  ay: number,
  bx: number,
  by: number,
): number[] => {
  const dx = bx - ax;
  const dy = by - ay;
  const length2 = dx * dx + dy * dy;
  if (length2 === 0) return [];
  // Signed distances of the four control points from the line are the Bezier coefficients of the distance.
  const d = [0, 2, 4, 6].map((i) => (curve[i]! - ax) * dy - (curve[i + 1]! - ay) * dx);
  return bernsteinRoots(d[0]!, d[1]!, d[2]!, d[3]!).filter((t) => {
    const [x, y] = cubicAt(curve, t);
    const along = ((x - ax) * dx + (y - ay) * dy) / length2;
    return along >= 0 && along <= 1;
  });
};

/** Roots in (0, 1) of a cubic in Bernstein form, by splitting at its turning points and bisecting. */
const bernsteinRoots = (b0: number, b1: number, b2: number, b3: number): number[] => {
  if ((b0 > 0 && b1 > 0 && b2 > 0 && b3 > 0) || (b0 < 0 && b1 < 0 && b2 < 0 && b3 < 0)) return [];
  const value = (t: number): number => {
    const u = 1 - t;
    return u * u * u * b0 + 3 * u * u * t * b1 + 3 * u * t * t * b2 + t * t * t * b3;
  };
  // The derivative is the quadratic with Bernstein coefficients 3(b1-b0), 3(b2-b1), 3(b3-b2).
  const p = b1 - b0;
  const q = b2 - b1;
  const r = b3 - b2;
  const stops = [0, ...quadraticRoots(p - 2 * q + r, 2 * (q - p), p), 1];
  const roots: number[] = [];
  for (let i = 0; i + 1 < stops.length; i++) {
    let low = stops[i]!;
    let high = stops[i + 1]!;
    const startSign = Math.sign(value(low));
    if (startSign === Math.sign(value(high))) continue;
    for (let step = 0; step < 60; step++) {
      const middle = (low + high) / 2;
      if (Math.sign(value(middle)) === startSign) low = middle;
      else high = middle;
    }
    if (high > 1e-9 && high < 1 - 1e-9) roots.push(high);
  }
  return roots;
};

/** Roots in (0, 1) of a t^2 + b t + c, in order. */
const quadraticRoots = (a: number, b: number, c: number): number[] => {
  const roots: number[] = [];
  if (Math.abs(a) < 1e-12 * (Math.abs(b) + Math.abs(c))) {
    if (b !== 0) roots.push(-c / b);
  } else {
    const discriminant = b * b - 4 * a * c;
    if (discriminant >= 0) {
      const q = -0.5 * (b + (b < 0 ? -1 : 1) * Math.sqrt(discriminant));
      roots.push(q / a);
      if (q !== 0) roots.push(c / q);
    }
  }
  return roots.filter((t) => t > 0 && t < 1).sort((x, y) => x - y);
};

import type { Box } from '../geometry/box.ts';
import { type Cubic, cubicAt, cubicLineCrossings, subCubic } from './cubic.ts';

/** What may be painted: a box, and any clip paths inside it that are no upright rectangles. Immutable. */
export interface ClipRegion {
  readonly box: Box;
  readonly outlines: readonly ClipOutline[];
}

/** A closed clip path as straight edges [x0, y0, x1, y1, …]; curves are flattened. */
export interface ClipOutline {
  readonly edges: Float64Array;
  readonly evenOdd: boolean;
}

/** Lines drawn exactly along the edge of a clip are half visible, so they count as inside. In user-space units. */
const EDGE_TOLERANCE = 0.01;

/** Clip paths with more edges than this are taken as their box: exactness there would cost minutes. */
const MOST_OUTLINE_EDGES = 2000;

/** Everything inside an upright box, in the page's user space. */
export const clipToBox = (box: Box): ClipRegion => ({ box, outlines: [] });

/** The part of `clip` inside a closed path, given by its rings of points [x0, y0, x1, y1, …]. */
export const clipToRings = (
  clip: ClipRegion,
  rings: readonly (readonly number[])[],
  evenOdd: boolean,
): ClipRegion => {
  let xMin = Infinity;
  let yMin = Infinity;
  let xMax = -Infinity;
  let yMax = -Infinity;
  let points = 0;
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i += 2) {
      xMin = Math.min(xMin, ring[i]!);
      yMin = Math.min(yMin, ring[i + 1]!);
      xMax = Math.max(xMax, ring[i]!);
      yMax = Math.max(yMax, ring[i + 1]!);
      points++;
    }
  }
  const box: Box = {
    minX: Math.max(clip.box.minX, xMin),
    minY: Math.max(clip.box.minY, yMin),
    maxX: Math.min(clip.box.maxX, xMax),
    maxY: Math.min(clip.box.maxY, yMax),
  };
  if (points === 0 || (rings.length === 1 && isUprightRectangle(rings[0]!))) return { ...clip, box };
  if (points > MOST_OUTLINE_EDGES) return { ...clip, box };
  return { box, outlines: [...clip.outlines, { edges: ringEdges(rings, points), evenOdd }] };
};

/** Whether nothing can be seen through it. */
export const isEmptyClip = ({ box }: ClipRegion): boolean => !(box.minX <= box.maxX && box.minY <= box.maxY);

const isUprightRectangle = (ring: readonly number[]): boolean => {
  const count = ring.length / 2;
  const closesOnStart = count === 5 && same(ring[0]!, ring[8]!) && same(ring[1]!, ring[9]!);
  if (count !== 4 && !closesOnStart) return false;
  const [x0, y0, x1, y1, x2, y2, x3, y3] = ring as number[];
  const acrossFirst = same(y0!, y1!) && same(x1!, x2!) && same(y2!, y3!) && same(x3!, x0!);
  const upFirst = same(x0!, x1!) && same(y1!, y2!) && same(x2!, x3!) && same(y3!, y0!);
  return acrossFirst || upFirst;
};

const same = (a: number, b: number): boolean => Math.abs(a - b) < EDGE_TOLERANCE;

const ringEdges = (rings: readonly (readonly number[])[], points: number): Float64Array => {
  const edges = new Float64Array(points * 4);
  let at = 0;
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i += 2) {
      const next = (i + 2) % ring.length;
      edges[at++] = ring[i]!;
      edges[at++] = ring[i + 1]!;
      edges[at++] = ring[next]!;
      edges[at++] = ring[next + 1]!;
    }
  }
  return edges;
};

/** Hands on the visible parts of a line. */
export const clipLine = (
  { box, outlines }: ClipRegion,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  keep: (x0: number, y0: number, x1: number, y1: number) => void,
): void => {
  const range = boxRange(box, x0, y0, x1, y1);
  if (!range) return;
  const dx = x1 - x0;
  const dy = y1 - y0;
  if (outlines.length === 0) {
    keep(
      x0 + range[0] * dx,
      y0 + range[0] * dy,
      range[1] === 1 ? x1 : x0 + range[1] * dx,
      range[1] === 1 ? y1 : y0 + range[1] * dy,
    );
    return;
  }
  const cuts: number[] = [];
  for (const { edges } of outlines) {
    for (let i = 0; i < edges.length; i += 4) {
      const ex = edges[i + 2]! - edges[i]!;
      const ey = edges[i + 3]! - edges[i + 1]!;
      const cross = dx * ey - dy * ex;
      if (cross === 0) continue;
      const t = ((edges[i]! - x0) * ey - (edges[i + 1]! - y0) * ex) / cross;
      const s = ((edges[i]! - x0) * dy - (edges[i + 1]! - y0) * dx) / cross;
      if (t > range[0] && t < range[1] && s >= 0 && s <= 1) cuts.push(t);
    }
  }
  forVisibleSpans(
    outlines,
    range,
    cuts,
    (t) => [x0 + t * dx, y0 + t * dy],
    (from, to) => keep(x0 + from * dx, y0 + from * dy, x0 + to * dx, y0 + to * dy),
  );
};

/** Hands on the visible parts of a curve, as curves. */
export const clipCubic = ({ box, outlines }: ClipRegion, curve: Cubic, keep: (part: Cubic) => void): void => {
  const xs = [curve[0], curve[2], curve[4], curve[6]];
  const ys = [curve[1], curve[3], curve[5], curve[7]];
  const hull = { minX: Math.min(...xs), minY: Math.min(...ys), maxX: Math.max(...xs), maxY: Math.max(...ys) };
  const { minX: xMin, minY: yMin, maxX: xMax, maxY: yMax } = box;
  const t = EDGE_TOLERANCE;
  if (hull.maxX < xMin - t || hull.minX > xMax + t || hull.maxY < yMin - t || hull.minY > yMax + t) return;
  const isInBox =
    hull.minX >= xMin - t && hull.maxX <= xMax + t && hull.minY >= yMin - t && hull.maxY <= yMax + t;
  if (isInBox && outlines.length === 0) {
    keep(curve);
    return;
  }
  const boxEdges = Float64Array.of(
    ...[xMin, yMin, xMax, yMin],
    ...[xMax, yMin, xMax, yMax],
    ...[xMax, yMax, xMin, yMax],
    ...[xMin, yMax, xMin, yMin],
  );
  const all = isInBox ? outlines : [{ edges: boxEdges, evenOdd: false }, ...outlines];
  const cuts = all.flatMap(({ edges }) => {
    const found: number[] = [];
    for (let i = 0; i < edges.length; i += 4) {
      found.push(...cubicLineCrossings(curve, edges[i]!, edges[i + 1]!, edges[i + 2]!, edges[i + 3]!));
    }
    return found;
  });
  forVisibleSpans(
    all,
    [0, 1],
    cuts,
    (at) => cubicAt(curve, at),
    (from, to) => keep(subCubic(curve, from, to)),
  );
};

/** Cuts a span of a line or curve where it crosses the outlines and keeps the pieces whose middle is inside all. */
const forVisibleSpans = (
  outlines: readonly ClipOutline[],
  range: readonly [number, number],
  cuts: number[],
  pointAt: (t: number) => readonly [number, number],
  keep: (from: number, to: number) => void,
): void => {
  cuts.sort((a, b) => a - b);
  cuts.push(range[1]);
  let openFrom = Number.NaN;
  let from = range[0];
  for (const to of cuts) {
    if (to - from < 1e-9) continue;
    const [x, y] = pointAt((from + to) / 2);
    const isInside = outlines.every((outline) => isInOutline(outline, x, y));
    if (isInside && Number.isNaN(openFrom)) openFrom = from;
    if (!isInside && !Number.isNaN(openFrom)) {
      keep(openFrom, from);
      openFrom = Number.NaN;
    }
    from = to;
  }
  if (!Number.isNaN(openFrom)) keep(openFrom, from);
};

/** The parameter range of a line inside a box (Liang and Barsky 1984), or null. */
const boxRange = (
  { minX: xMin, minY: yMin, maxX: xMax, maxY: yMax }: Box,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
): [number, number] | null => {
  let from = 0;
  let to = 1;
  const dx = x1 - x0;
  const dy = y1 - y0;
  const t = EDGE_TOLERANCE;
  for (let side = 0; side < 4; side++) {
    const p = side === 0 ? -dx : side === 1 ? dx : side === 2 ? -dy : dy;
    const q = (side === 0 ? x0 - xMin : side === 1 ? xMax - x0 : side === 2 ? y0 - yMin : yMax - y0) + t;
    if (p === 0) {
      if (!(q >= 0)) return null;
    } else if (p < 0) {
      from = Math.max(from, q / p);
    } else {
      to = Math.min(to, q / p);
    }
  }
  return from < to ? [from, to] : null;
};

const isInOutline = ({ edges, evenOdd }: ClipOutline, x: number, y: number): boolean => {
  let winding = 0;
  let crossings = 0;
  for (let i = 0; i < edges.length; i += 4) {
    const x0 = edges[i]!;
    const y0 = edges[i + 1]!;
    const x1 = edges[i + 2]!;
    const y1 = edges[i + 3]!;
    if (distanceToEdge(x, y, x0, y0, x1, y1) < EDGE_TOLERANCE) return true;
    if (y0 > y === y1 > y) continue;
    if (x < x0 + ((y - y0) / (y1 - y0)) * (x1 - x0)) {
      crossings++;
      winding += y1 > y0 ? 1 : -1;
    }
  }
  return evenOdd ? crossings % 2 === 1 : winding !== 0;
};

const distanceToEdge = (x: number, y: number, x0: number, y0: number, x1: number, y1: number): number => {
  const dx = x1 - x0;
  const dy = y1 - y0;
  const length2 = dx * dx + dy * dy;
  const t = length2 === 0 ? 0 : Math.min(1, Math.max(0, ((x - x0) * dx + (y - y0) * dy) / length2));
  return Math.hypot(x - x0 - t * dx, y - y0 - t * dy);
};

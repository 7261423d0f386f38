import type { AffineMatrix } from '../geometry/affine.ts';
import { type ClipRegion, clipCubic, clipLine, clipToRings } from './clipRegion.ts';
import { type Cubic, cubicAt } from './cubic.ts';
import type { LineworkBuilder } from './lineworkBuilder.ts';
import { DRAW } from './operatorList.ts';

/** Pieces into which a curve of a clip path is flattened: within 0.1 % of its size of the true edge. */
const CLIP_CURVE_PIECES = 16;

/**
 * Adds the visible lines and curves of one packed path to the linework.
 *
 * @param data pdf.js's packed path: a {@link DRAW} code, then its coordinates, and so on.
 * @param isFilled closes each subpath, as filling does (ISO 32000-1, 8.5.3.3.1).
 */
export const addPath = (
  builder: LineworkBuilder,
  data: ArrayLike<number>,
  [a, b, c, d, e, f]: AffineMatrix,
  clip: ClipRegion,
  isFilled: boolean,
): void => {
  const { minX: xMin, minY: yMin, maxX: xMax, maxY: yMax } = clip.box;
  const hasOutlines = clip.outlines.length > 0;
  const keepLine = builder.addLine;
  let startX = 0;
  let startY = 0;
  let x = 0;
  let y = 0;
  const lineTo = (nextX: number, nextY: number): void => {
    const isInside =
      !hasOutlines &&
      x >= xMin &&
      x <= xMax &&
      y >= yMin &&
      y <= yMax &&
      nextX >= xMin &&
      nextX <= xMax &&
      nextY >= yMin &&
      nextY <= yMax;
    if (isInside) keepLine(x, y, nextX, nextY);
    else clipLine(clip, x, y, nextX, nextY, keepLine);
    x = nextX;
    y = nextY;
  };
  const curveTo = (x1: number, y1: number, x2: number, y2: number, x3: number, y3: number): void => {
    clipCubic(clip, [x, y, x1, y1, x2, y2, x3, y3], builder.addCurve);
    x = x3;
    y = y3;
  };
  const close = (): void => {
    if (x !== startX || y !== startY) lineTo(startX, startY);
  };
  for (let i = 0; i < data.length; ) {
    switch (data[i++]) {
      case DRAW.moveTo: {
        if (isFilled) close();
        const u = data[i++]!;
        const v = data[i++]!;
        startX = x = a * u + c * v + e;
        startY = y = b * u + d * v + f;
        break;
      }
      case DRAW.lineTo: {
        const u = data[i++]!;
        const v = data[i++]!;
        lineTo(a * u + c * v + e, b * u + d * v + f);
        break;
      }
      case DRAW.curveTo: {
        const u1 = data[i++]!;
        const v1 = data[i++]!;
        const u2 = data[i++]!;
        const v2 = data[i++]!;
        const u3 = data[i++]!;
        const v3 = data[i++]!;
        curveTo(
          a * u1 + c * v1 + e,
          b * u1 + d * v1 + f,
          a * u2 + c * v2 + e,
          b * u2 + d * v2 + f,
          a * u3 + c * v3 + e,
          b * u3 + d * v3 + f,
        );
        break;
      }
      case DRAW.quadraticCurveTo: {
        const u1 = data[i++]!;
        const v1 = data[i++]!;
        const u2 = data[i++]!;
        const v2 = data[i++]!;
        const qx = a * u1 + c * v1 + e;
        const qy = b * u1 + d * v1 + f;
        const x3 = a * u2 + c * v2 + e;
        const y3 = b * u2 + d * v2 + f;
        // A quadratic is the cubic whose controls lie two thirds of the way to its own.
        curveTo(
          x + (2 / 3) * (qx - x),
          y + (2 / 3) * (qy - y),
          x3 + (2 / 3) * (qx - x3),
          y3 + (2 / 3) * (qy - y3),
          x3,
          y3,
        );
        break;
      }
      case DRAW.closePath:
        close();
        break;
      default:
        throw new Error(`Packed path has code ${data[i - 1]} at ${i - 1} when expected 0 to 4.`);
    }
  }
  if (isFilled) close();
};

/** The part of a clip inside one packed path. A path without points clips everything away. */
export const clipToPath = (
  clip: ClipRegion,
  data: ArrayLike<number> | null,
  [a, b, c, d, e, f]: AffineMatrix,
  evenOdd: boolean,
): ClipRegion => {
  const rings: number[][] = [];
  let ring: number[] = [];
  const add = (u: number, v: number): void => {
    ring.push(a * u + c * v + e, b * u + d * v + f);
  };
  let lastU = 0;
  let lastV = 0;
  for (let i = 0; data && i < data.length; ) {
    const code = data[i++];
    if (code === DRAW.closePath) continue;
    if (code === DRAW.moveTo) {
      if (ring.length > 2) rings.push(ring);
      ring = [];
    }
    const count = code === DRAW.curveTo ? 6 : code === DRAW.quadraticCurveTo ? 4 : 2;
    const p = Array.from({ length: count }, (_, k) => data[i + k]!);
    i += count;
    const endU = p[count - 2]!;
    const endV = p[count - 1]!;
    if (count > 2) {
      const curve: Cubic =
        count === 6
          ? [lastU, lastV, p[0]!, p[1]!, p[2]!, p[3]!, endU, endV]
          : [
              lastU,
              lastV,
              lastU + (2 / 3) * (p[0]! - lastU),
              lastV + (2 / 3) * (p[1]! - lastV),
              endU + (2 / 3) * (p[0]! - endU),
              endV + (2 / 3) * (p[1]! - endV),
              endU,
              endV,
            ];
      for (let k = 1; k < CLIP_CURVE_PIECES; k++) add(...cubicAt(curve, k / CLIP_CURVE_PIECES));
    }
    add(endU, endV);
    lastU = endU;
    lastV = endV;
  }
  if (ring.length > 2) rings.push(ring);
  return clipToRings(clip, rings, evenOdd);
};

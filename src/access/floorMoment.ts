import type { Point } from '../geometry/point.ts';
import type { RotationRows } from './boxRotation.ts';
import { otherTwo, sizeOf } from './handling.ts';
import type { MomentView, Outline, TightestMoment } from './momentOutline.ts';
import { centredOutline, rectangleOutline } from './momentOutline.ts';
import type { PassingWay } from './passingWay.ts';
import type { AccessPiece } from './wayInSchema.ts';

/**
 * A floor of limited area, a lift car or a set-down point, with the piece on it: the plan, and where the height is
 * limited an elevation. A piece tilted in a car shows the shadow it throws on the floor and on the back wall.
 */
export const floorMoment = (
  widthMm: number,
  depthMm: number,
  heightMm: number | null,
  piece: AccessPiece,
  way: PassingWay,
): TightestMoment => {
  const floor = rectangleOutline(widthMm, depthMm);
  const wall = heightMm === null ? null : rectangleOutline(widthMm, heightMm);
  if (way.rows !== undefined && heightMm !== null && wall !== null) {
    const centre = [widthMm / 2, depthMm / 2, heightMm / 2] as const;
    const corners = boxCorners(piece, way.rows);
    const plan = hull(corners.map(([x, y]) => ({ x: centre[0] + x, y: centre[1] + y })));
    const elevation = hull(corners.map(([x, , z]) => ({ x: centre[0] + x, y: centre[2] + z })));
    return {
      views: [
        { view: 'plan', clear: floor, piece: plan },
        { view: 'elevation', clear: wall, piece: elevation },
      ],
    };
  }
  const vertical = way.vertical ?? 'height';
  const [first, second] = otherTwo(vertical);
  const centre = { x: widthMm / 2, y: depthMm / 2 };
  const plan = centredOutline(centre, sizeOf(piece, first), sizeOf(piece, second), way.atRad ?? 0);
  const views: MomentView[] = [{ view: 'plan', clear: floor, piece: plan }];
  if (wall !== null) {
    const xs = plan.map((point) => point.x);
    const leftMm = Math.min(...xs);
    const outline = rectangleOutline(Math.max(...xs) - leftMm, sizeOf(piece, vertical), { x: leftMm, y: 0 });
    views.push({ view: 'elevation', clear: wall, piece: outline });
  }
  return { views };
};

/** The eight corners of a turned box about its centre. */
const boxCorners = (
  piece: AccessPiece,
  rows: RotationRows,
): readonly (readonly [number, number, number])[] => {
  const corners: [number, number, number][] = [];
  for (const l of [-0.5, 0.5]) {
    for (const w of [-0.5, 0.5]) {
      for (const h of [-0.5, 0.5]) {
        const [x, y, z] = rows.map(
          (row) => row[0] * l * piece.lengthMm + row[1] * w * piece.widthMm + row[2] * h * piece.heightMm,
        ) as [number, number, number];
        corners.push([x, y, z]);
      }
    }
  }
  return corners;
};

/** Convex hull of a few points, anticlockwise (A. M. Andrew's monotone chain, 1979). */
const hull = (points: readonly Point[]): Outline => {
  const sorted = [...points].sort((p, q) => p.x - q.x || p.y - q.y);
  const chain = (ordered: readonly Point[]): Point[] => {
    const kept: Point[] = [];
    for (const point of ordered) {
      while (kept.length >= 2 && leftTurn(kept.at(-2)!, kept.at(-1)!, point) <= 0) kept.pop();
      kept.push(point);
    }
    kept.pop();
    return kept;
  };
  return [...chain(sorted), ...chain(sorted.reverse())];
};

const leftTurn = (a: Point, b: Point, c: Point): number =>
  (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);

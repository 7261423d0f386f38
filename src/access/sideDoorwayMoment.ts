import type { Point } from '../geometry/point.ts';
import { otherTwo, sizeOf } from './handling.ts';
import type { Outline, TightestMoment } from './momentOutline.ts';
import { turnedOutline } from './momentOutline.ts';
import type { PassingWay } from './passingWay.ts';
import type { SideDoorwayPlan } from './sideDoorwaySwing.ts';
import type { AccessPiece } from './wayInSchema.ts';

/**
 * The plan of a doorway in the side of a passage, with the piece at the tightest angle: its inner side on the near
 * jamb, its tail on the far wall. The far wall runs along x, the near jamb of the doorway stands at x = 0.
 */
export const sideDoorwayMoment = (
  plan: SideDoorwayPlan,
  piece: AccessPiece,
  way: PassingWay,
): TightestMoment => {
  const [first, second] = way.vertical === null ? (['length', 'width'] as const) : otherTwo(way.vertical);
  const longMm = Math.max(sizeOf(piece, first), sizeOf(piece, second));
  const shortMm = Math.min(sizeOf(piece, first), sizeOf(piece, second));
  const outline = pieceOutline(plan, longMm, shortMm, way.atRad ?? Math.PI / 4);
  return {
    views: [
      {
        view: 'plan',
        clear: sideDoorwayOutline(plan, Math.min(...outline.map((point) => point.x)), longMm),
        piece: outline,
      },
    ],
  };
};

/** Passage, doorway and room, drawn a little beyond the piece. */
const sideDoorwayOutline = (
  { passageMm: c, doorMm: d, wallMm }: SideDoorwayPlan,
  leftMm: number,
  longMm: number,
): Outline => {
  const backMm = Math.min(-1.15 * longMm, leftMm - 0.15 * longMm);
  const forthMm = d + 1.15 * longMm;
  const wallFaceMm = c + wallMm;
  const endMm = wallFaceMm + 1.15 * longMm;
  return [
    { x: backMm, y: 0 },
    { x: forthMm, y: 0 },
    { x: forthMm, y: c },
    { x: d, y: c },
    { x: d, y: wallFaceMm },
    { x: forthMm, y: wallFaceMm },
    { x: forthMm, y: endMm },
    { x: backMm, y: endMm },
    { x: backMm, y: wallFaceMm },
    { x: 0, y: wallFaceMm },
    { x: 0, y: c },
    { x: backMm, y: c },
  ];
};

const pieceOutline = (
  { passageMm: c, doorMm: d }: SideDoorwayPlan,
  longMm: number,
  shortMm: number,
  t: number,
): Outline => {
  const along: Point = { x: Math.cos(t), y: Math.sin(t) };
  const across: Point = { x: -Math.sin(t), y: Math.cos(t) };
  // Square to the passage, or along it: in the middle of the doorway, on the far wall.
  if (Math.cos(t) < 1e-9)
    return turnedOutline({ x: (d + shortMm) / 2, y: 0 }, along, longMm, across, shortMm);
  if (Math.sin(t) < 1e-9) return turnedOutline({ x: (d - longMm) / 2, y: 0 }, along, longMm, across, shortMm);
  const outerMm = c * Math.cos(t) - shortMm;
  const tailMm = (-outerMm * Math.cos(t)) / Math.sin(t);
  const corner: Point = {
    x: tailMm * along.x + outerMm * across.x,
    y: tailMm * along.y + outerMm * across.y,
  };
  return turnedOutline(corner, along, longMm, across, shortMm);
};

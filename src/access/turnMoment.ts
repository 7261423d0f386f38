import type { Point } from '../geometry/point.ts';
import { otherTwo, sizeOf } from './handling.ts';
import type { Outline, TightestMoment } from './momentOutline.ts';
import { turnedOutline } from './momentOutline.ts';
import type { PassingWay } from './passingWay.ts';
import type { TurnShape } from './turnPlan.ts';
import type { AccessPiece } from './wayInSchema.ts';

/**
 * The plan of a turn with the piece pushed into its outer corner at the tightest angle. The outer corner is the
 * origin, the first passage runs along x.
 */
export const turnMoment = (turn: TurnShape, piece: AccessPiece, way: PassingWay): TightestMoment => {
  const { longMm, shortMm } = sweptRectangle(turn, piece, way);
  return {
    views: [
      {
        view: 'plan',
        clear: turnOutline(turn, longMm),
        piece: snugOutline(turn.turnRad, longMm, shortMm, way.atRad ?? turn.turnRad / 2),
      },
    ],
  };
};

/** What the piece covers of the floor: two of its sides, or the shadow of its pitched length and one side. */
const sweptRectangle = (
  turn: TurnShape,
  piece: AccessPiece,
  way: PassingWay,
): { readonly longMm: number; readonly shortMm: number } => {
  if (way.vertical !== null) {
    const [first, second] = otherTwo(way.vertical);
    const firstMm = sizeOf(piece, first);
    const secondMm = sizeOf(piece, second);
    return { longMm: Math.max(firstMm, secondMm), shortMm: Math.min(firstMm, secondMm) };
  }
  const acrossMm = sizeOf(piece, way.across ?? 'width');
  const tiltingMm = sizeOf(piece, way.across === 'height' ? 'width' : 'height');
  // Raised as far as the clear height lets it: l sin p + u cos p = H.
  const diagonalMm = Math.hypot(piece.lengthMm, tiltingMm);
  const raisedRad =
    Math.asin(Math.min(1, turn.heightMm / diagonalMm)) - Math.atan2(tiltingMm, piece.lengthMm);
  const pitchRad = Math.max(0, raisedRad);
  const shadowMm = piece.lengthMm * Math.cos(pitchRad) + tiltingMm * Math.sin(pitchRad);
  return { longMm: shadowMm, shortMm: acrossMm };
};

/** Floor of the two passages, each drawn a little longer than the piece. */
const turnOutline = (turn: TurnShape, longMm: number): Outline => {
  const { fromMm: a, toMm: b, turnRad } = turn;
  const sine = Math.sin(turnRad);
  const cosine = Math.cos(turnRad);
  const inner: Point = { x: (b - a * cosine) / sine, y: a };
  const second: Point = { x: -cosine, y: sine };
  const intoSecond: Point = { x: sine, y: cosine };
  const innerAlongSecondMm = inner.x * second.x + inner.y * second.y;
  const firstLegMm = turn.fromLegMm ?? Math.max(0, inner.x) + 1.15 * longMm;
  const secondLegMm = turn.toLegMm ?? Math.max(0, innerAlongSecondMm) + 1.15 * longMm;
  const end: Point = { x: second.x * secondLegMm, y: second.y * secondLegMm };
  return [
    { x: 0, y: 0 },
    { x: firstLegMm, y: 0 },
    { x: firstLegMm, y: a },
    inner,
    { x: end.x + b * intoSecond.x, y: end.y + b * intoSecond.y },
    end,
  ];
};

/** The rectangle at an angle to the first wall, touching both outer walls. */
const snugOutline = (turnRad: number, longMm: number, shortMm: number, t: number): Outline => {
  const along: Point = { x: Math.cos(t), y: -Math.sin(t) };
  const across: Point = { x: Math.sin(t), y: Math.cos(t) };
  const intoSecond: Point = { x: Math.sin(turnRad), y: Math.cos(turnRad) };
  const loose = turnedOutline({ x: 0, y: 0 }, along, longMm, across, shortMm);
  const fromFirstMm = -Math.min(...loose.map((point) => point.y));
  const fromSecondMm = -Math.min(...loose.map((point) => point.x * intoSecond.x + point.y * intoSecond.y));
  const corner: Point = {
    x: (fromSecondMm - fromFirstMm * intoSecond.y) / intoSecond.x,
    y: fromFirstMm,
  };
  return turnedOutline(corner, along, longMm, across, shortMm);
};

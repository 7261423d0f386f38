import type { Point } from '../geometry/point.ts';

/** A closed outline, in mm, its last point joined to its first. */
export type Outline = readonly Point[];

/** One view of the tightest moment: what is clear, and the piece in it. Plan: y away from the viewer. Section: y up. */
export interface MomentView {
  readonly view: 'plan' | 'section' | 'elevation';
  /** Everything inside is free; several outlines stand side by side. */
  readonly clear: Outline;
  readonly piece: Outline;
}

/** The drawing of a piece at the tightest moment of an obstacle. Where it does not pass, the piece crosses the outline. */
export interface TightestMoment {
  readonly views: readonly MomentView[];
}

/** A rectangle with its corner at the origin. */
export const rectangleOutline = (widthMm: number, heightMm: number, at: Point = { x: 0, y: 0 }): Outline => [
  { x: at.x, y: at.y },
  { x: at.x + widthMm, y: at.y },
  { x: at.x + widthMm, y: at.y + heightMm },
  { x: at.x, y: at.y + heightMm },
];

/** A rectangle from one corner along two directions. */
export const turnedOutline = (
  corner: Point,
  along: Point,
  lengthMm: number,
  across: Point,
  widthMm: number,
): Outline => {
  const at = (l: number, w: number): Point => ({
    x: corner.x + l * along.x + w * across.x,
    y: corner.y + l * along.y + w * across.y,
  });
  return [at(0, 0), at(lengthMm, 0), at(lengthMm, widthMm), at(0, widthMm)];
};

/** A rectangle turned by an angle about its centre, which lies at `centre`. */
export const centredOutline = (
  centre: Point,
  firstMm: number,
  secondMm: number,
  turnRad: number,
): Outline => {
  const along = { x: Math.cos(turnRad), y: Math.sin(turnRad) };
  const across = { x: -along.y, y: along.x };
  const corner = {
    x: centre.x - (along.x * firstMm + across.x * secondMm) / 2,
    y: centre.y - (along.y * firstMm + across.y * secondMm) / 2,
  };
  return turnedOutline(corner, along, firstMm, across, secondMm);
};

import type { Point } from '../../geometry/point.ts';
import type { Vector } from '../../geometry/vector.ts';
import { mmPerUserUnit, type SheetScale } from '../../measure/tracedRun.ts';

/** Room coordinates of a sheet: millimetres of the room, y up as the sheet is shown, from a named origin. */
export interface RoomFrame {
  readonly toRoom: (paperPoint: Point) => Point;
  readonly turned: (direction: Vector) => Vector;
  /** How far a direction of the unrotated page is turned, anticlockwise. */
  readonly turnRad: number;
}

const quarterTurns: Readonly<Record<number, readonly [cosine: number, sine: number]>> = {
  0: [1, 0],
  90: [0, -1],
  180: [-1, 0],
  270: [0, 1],
};

/**
 * The frame of a sheet that is shown turned clockwise by `rotationDeg` (the page's /Rotate, a multiple of 90), with its
 * origin at a paper point. Throws a RangeError for any other rotation.
 */
export const roomFrame = (scale: SheetScale, rotationDeg: number, originPaper: Point): RoomFrame => {
  const shownDeg = ((rotationDeg % 360) + 360) % 360;
  const turn = quarterTurns[shownDeg];
  if (!turn) throw new RangeError(`A page is turned by multiples of 90 degrees, found ${rotationDeg}`);
  const [cosine, sine] = turn;
  const mm = mmPerUserUnit(scale);
  const turned = ({ x, y }: Vector): Vector => ({ x: x * cosine - y * sine, y: x * sine + y * cosine });
  return {
    turned,
    toRoom: ({ x, y }) => turned({ x: (x - originPaper.x) * mm, y: (y - originPaper.y) * mm }),
    turnRad: (-shownDeg * Math.PI) / 180,
  };
};

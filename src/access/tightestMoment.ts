import { floorMoment } from './floorMoment.ts';
import type { TightestMoment } from './momentOutline.ts';
import type { PassingWay } from './passingWay.ts';
import { sectionMoment } from './sectionMoment.ts';
import { sideDoorwayMoment } from './sideDoorwayMoment.ts';
import { turnMoment } from './turnMoment.ts';
import type { AccessPiece, Obstacle } from './wayInSchema.ts';

/** Angle of the quarter turn on a stair's landing. */
const QUARTER_RAD = Math.PI / 2;

/**
 * Draws the moment that decides one obstacle, from the way that its rule found for the piece.
 *
 * @example tightestMoment(doorway, piece, obstacleRule(doorway)(piece, handlingOf(piece), WHOLE_ANSWER).way)
 */
export const tightestMoment = (obstacle: Obstacle, piece: AccessPiece, way: PassingWay): TightestMoment => {
  switch (obstacle.kind) {
    case 'doorway':
      return sectionMoment(
        obstacle.widthMm - (obstacle.leafMm ?? 0),
        obstacle.heightMm - (obstacle.thresholdMm ?? 0),
        piece,
        way,
      );
    case 'passage':
      return sectionMoment(obstacle.widthMm, obstacle.heightMm, piece, way);
    case 'ramp':
      return sectionMoment(obstacle.widthMm, obstacle.heightMm, piece, way, obstacle.slopeDeg);
    case 'height-limit': {
      const widthMm = 1.2 * Math.max(piece.lengthMm, piece.widthMm, piece.heightMm);
      return sectionMoment(widthMm, obstacle.heightMm, piece, way);
    }
    case 'turn':
      return turnMoment({ ...obstacle, turnRad: ((obstacle.angleDeg ?? 90) * Math.PI) / 180 }, piece, way);
    case 'side-doorway':
      return sideDoorwayMoment(
        {
          passageMm: obstacle.passageMm,
          doorMm: obstacle.widthMm - (obstacle.leafMm ?? 0),
          wallMm: obstacle.wallMm ?? 0,
        },
        piece,
        way,
      );
    case 'lift':
      return way.part === 'door'
        ? sectionMoment(obstacle.doorWidthMm, obstacle.doorHeightMm, piece, way)
        : floorMoment(obstacle.carWidthMm, obstacle.carDepthMm, obstacle.carHeightMm, piece, way);
    case 'stair':
      return way.part === 'landing'
        ? turnMoment(
            {
              fromMm: obstacle.widthMm,
              toMm: obstacle.landingMm,
              heightMm: obstacle.headroomMm,
              turnRad: QUARTER_RAD,
            },
            piece,
            way,
          )
        : sectionMoment(obstacle.widthMm, obstacle.headroomMm, piece, way, obstacle.pitchDeg);
    case 'set-down':
      return floorMoment(obstacle.widthMm, obstacle.depthMm, obstacle.heightMm ?? null, piece, way);
  }
};

import type { Obstacle } from './wayInSchema.ts';

/**
 * An obstacle with every clear dimension larger (or, negative, smaller) by the same amount: the two ends of what an
 * uncertain measurement allows. Wall thickness, pitch and rated load are left alone. Never below a micrometre.
 */
export const resizeObstacle = (obstacle: Obstacle, byMm: number): Obstacle => {
  const sized = (mm: number): number => Math.max(0.001, mm + byMm);
  switch (obstacle.kind) {
    case 'doorway':
    case 'passage':
    case 'ramp':
      return { ...obstacle, widthMm: sized(obstacle.widthMm), heightMm: sized(obstacle.heightMm) };
    case 'turn':
      return {
        ...obstacle,
        fromMm: sized(obstacle.fromMm),
        toMm: sized(obstacle.toMm),
        heightMm: sized(obstacle.heightMm),
        ...(obstacle.fromLegMm === undefined ? {} : { fromLegMm: sized(obstacle.fromLegMm) }),
        ...(obstacle.toLegMm === undefined ? {} : { toLegMm: sized(obstacle.toLegMm) }),
      };
    case 'side-doorway':
      return {
        ...obstacle,
        passageMm: sized(obstacle.passageMm),
        widthMm: sized(obstacle.widthMm),
        heightMm: sized(obstacle.heightMm),
      };
    case 'lift':
      return {
        ...obstacle,
        doorWidthMm: sized(obstacle.doorWidthMm),
        doorHeightMm: sized(obstacle.doorHeightMm),
        carWidthMm: sized(obstacle.carWidthMm),
        carDepthMm: sized(obstacle.carDepthMm),
        carHeightMm: sized(obstacle.carHeightMm),
      };
    case 'stair':
      return {
        ...obstacle,
        widthMm: sized(obstacle.widthMm),
        landingMm: sized(obstacle.landingMm),
        headroomMm: sized(obstacle.headroomMm),
        ...(obstacle.wellMm === undefined ? {} : { wellMm: sized(obstacle.wellMm) }),
      };
    case 'height-limit':
      return { ...obstacle, heightMm: sized(obstacle.heightMm) };
    case 'set-down':
      return {
        ...obstacle,
        widthMm: sized(obstacle.widthMm),
        depthMm: sized(obstacle.depthMm),
        ...(obstacle.heightMm === undefined ? {} : { heightMm: sized(obstacle.heightMm) }),
      };
  }
};

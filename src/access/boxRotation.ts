/** Three clear dimensions in mm. */
export type Triple = readonly [number, number, number];

/** A rotation as three rows; row i holds the components of the box's three axes along the room's axis i. */
export type RotationRows = readonly [Triple, Triple, Triple];

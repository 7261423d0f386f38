import { z } from 'zod';

/** No piece is longer than this: 100 m. It is also what `longestMm` says where nothing limits a length. */
export const LONGEST_DESCRIBABLE_MM = 100_000;

/** A clear dimension may be larger than any piece: people write 999 999 where there is no wall or ceiling. */
const clearMm = z.number().positive().max(1_000_000);
const lengthMm = z.number().positive().max(LONGEST_DESCRIBABLE_MM);
const allowanceMm = z.number().nonnegative().max(LONGEST_DESCRIBABLE_MM);
const massKg = z.number().nonnegative().max(1_000_000);

/** What every obstacle may carry: a name for people, and the +/- of its measured dimensions (k = 2). */
const common = { name: z.string().max(200).optional(), uncertaintyMm: allowanceMm.optional() };

const doorway = z.object({
  kind: z.literal('doorway'),
  widthMm: clearMm,
  heightMm: clearMm,
  /** Taken off the width: what the open leaf, its stop and its handle keep. */
  leafMm: allowanceMm.optional(),
  /** Taken off the height: an upstand at the floor over which the piece must pass. */
  thresholdMm: allowanceMm.optional(),
  ...common,
});

const passage = z.object({ kind: z.literal('passage'), widthMm: clearMm, heightMm: clearMm, ...common });

const turn = z.object({
  kind: z.literal('turn'),
  fromMm: clearMm,
  toMm: clearMm,
  heightMm: clearMm,
  /** How far the direction of travel changes; 90 where it is not given. */
  angleDeg: z.number().positive().max(170).optional(),
  /** Clear length of the first leg along its outer wall, from the outer corner to the wall that ends it. */
  fromLegMm: clearMm.optional(),
  /** The same for the second leg. */
  toLegMm: clearMm.optional(),
  ...common,
});

const sideDoorway = z.object({
  kind: z.literal('side-doorway'),
  passageMm: clearMm,
  widthMm: clearMm,
  heightMm: clearMm,
  /** Thickness of the wall that the doorway stands in; 0 where it is not given. */
  wallMm: allowanceMm.optional(),
  leafMm: allowanceMm.optional(),
  thresholdMm: allowanceMm.optional(),
  ...common,
});

const lift = z.object({
  kind: z.literal('lift'),
  doorWidthMm: clearMm,
  doorHeightMm: clearMm,
  carWidthMm: clearMm,
  carDepthMm: clearMm,
  carHeightMm: clearMm,
  ratedKg: massKg,
  ...common,
});

const stair = z.object({
  kind: z.literal('stair'),
  widthMm: clearMm,
  landingMm: clearMm,
  headroomMm: clearMm,
  /** How far the way turns on the landing: 0 (straight on), 90 (where it is not given) or 180 (back on itself). */
  landingTurnDeg: z.union([z.literal(0), z.literal(90), z.literal(180)]).optional(),
  /** Clear width between two flights that run back on each other; 0 where it is not given. */
  wellMm: allowanceMm.optional(),
  /** Pitch of the flight. Where it is given, headroom is measured vertically above the nosings. */
  pitchDeg: z.number().nonnegative().max(60).optional(),
  ...common,
});

const ramp = z.object({
  kind: z.literal('ramp'),
  widthMm: clearMm,
  heightMm: clearMm,
  slopeDeg: z.number().nonnegative().max(45).optional(),
  ...common,
});

const heightLimit = z.object({ kind: z.literal('height-limit'), heightMm: clearMm, ...common });

const setDown = z.object({
  kind: z.literal('set-down'),
  widthMm: clearMm,
  depthMm: clearMm,
  heightMm: clearMm.optional(),
  ...common,
});

const obstacleKinds = z.discriminatedUnion('kind', [
  doorway,
  passage,
  turn,
  sideDoorway,
  lift,
  stair,
  ramp,
  heightLimit,
  setDown,
]);

/** One piece as it travels: the packed box, its mass, and how it may be held. */
export const pieceSchema = z
  .object({
    id: z.string().min(1).max(200),
    lengthMm,
    /** 0 for a thin ladder or sheet, as the textbook has it. */
    widthMm: allowanceMm,
    heightMm: lengthMm,
    massKg,
    /** The height stays vertical; the piece may still turn about the vertical. Default false. */
    keepUpright: z.boolean().optional(),
    /** The width may be vertical. Default: not `keepUpright`. */
    mayGoOnEdge: z.boolean().optional(),
    /** The length may be vertical. Default: not `keepUpright`. */
    mayGoOnEnd: z.boolean().optional(),
    /** One end may be raised while the piece goes round a turn. Default false: carried level there. */
    mayPitchInTurns: z.boolean().optional(),
  })
  .refine(
    (piece) =>
      piece.keepUpright !== true || !(piece.mayGoOnEdge || piece.mayGoOnEnd || piece.mayPitchInTurns),
    {
      path: ['keepUpright'],
      params: { code: 'contradictory-handling' },
      message:
        'a piece that must stay upright cannot also go on edge, on end or pitched; drop one of the two',
    },
  );

/** What a door's leaf and threshold leave of its opening must be more than nothing. */
const openingLeft = (
  obstacle: z.infer<typeof obstacleKinds>,
): { readonly path: string; readonly leftMm: number } | undefined => {
  if (obstacle.kind !== 'doorway' && obstacle.kind !== 'side-doorway') return undefined;
  const widthLeftMm = obstacle.widthMm - (obstacle.leafMm ?? 0);
  const heightLeftMm = obstacle.heightMm - (obstacle.thresholdMm ?? 0);
  if (widthLeftMm <= 0) return { path: 'leafMm', leftMm: widthLeftMm };
  return heightLeftMm <= 0 ? { path: 'thresholdMm', leftMm: heightLeftMm } : undefined;
};

/** One obstacle of a way in. All lengths are clear dimensions in mm. */
export const obstacleSchema = obstacleKinds.superRefine((obstacle, context) => {
  const left = openingLeft(obstacle);
  if (left === undefined) return;
  context.addIssue({
    code: 'custom',
    path: [left.path],
    params: { code: 'nothing-left-of-opening' },
    message: `this allowance leaves ${left.leftMm} mm of the opening; give a smaller one or a larger opening`,
  });
});

/** The input of `footrail access`: obstacles in the order of the way, and the pieces that must pass all of them. */
export const wayInSchema = z.object({
  obstacles: z.array(obstacleSchema).max(1000),
  pieces: z.array(pieceSchema).max(10_000),
  /** +/- (k = 2) for obstacles that give none of their own. */
  uncertaintyMm: allowanceMm.optional(),
});

/** A schema's output, deeply readonly. */
type DeepReadonly<T> = T extends readonly (infer Item)[]
  ? readonly DeepReadonly<Item>[]
  : T extends object
    ? { readonly [Key in keyof T]: DeepReadonly<T[Key]> }
    : T;

export type Obstacle = DeepReadonly<z.infer<typeof obstacleSchema>>;
export type ObstacleKind = Obstacle['kind'];
export type ObstacleOf<Kind extends ObstacleKind> = Extract<Obstacle, { kind: Kind }>;
export type AccessPiece = DeepReadonly<z.infer<typeof pieceSchema>>;
export type WayIn = DeepReadonly<z.infer<typeof wayInSchema>>;

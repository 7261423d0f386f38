/**
 * The kinds of obstacle on a way in, and what each is described by: sizes (lengths, typed or picked on a sheet) and
 * plain figures (angles in degrees, mass in kg). The names are those of the access contract.
 */
export const obstacleKinds = [
  'doorway',
  'passage',
  'turn',
  'side-doorway',
  'lift',
  'stair',
  'ramp',
  'height-limit',
  'set-down',
] as const;
export type DrawnObstacleKind = (typeof obstacleKinds)[number];

export const sizeNames = [
  'widthMm',
  'heightMm',
  'leafMm',
  'thresholdMm',
  'fromMm',
  'toMm',
  'fromLegMm',
  'toLegMm',
  'passageMm',
  'wallMm',
  'doorWidthMm',
  'doorHeightMm',
  'carWidthMm',
  'carDepthMm',
  'carHeightMm',
  'landingMm',
  'headroomMm',
  'wellMm',
  'depthMm',
] as const;
export type SizeName = (typeof sizeNames)[number];

export const figureNames = ['angleDeg', 'ratedKg', 'landingTurnDeg', 'pitchDeg', 'slopeDeg'] as const;
export type FigureName = (typeof figureNames)[number];

interface Described {
  readonly needed: readonly SizeName[];
  readonly mayHave: readonly SizeName[];
  readonly neededFigures: readonly FigureName[];
  readonly mayHaveFigures: readonly FigureName[];
}

const by = (
  needed: readonly SizeName[],
  mayHave: readonly SizeName[] = [],
  figures: { readonly needed?: readonly FigureName[]; readonly mayHave?: readonly FigureName[] } = {},
): Described => ({
  needed,
  mayHave,
  neededFigures: figures.needed ?? [],
  mayHaveFigures: figures.mayHave ?? [],
});

/** What each kind of obstacle must and may be given. */
export const obstacleDescription: Readonly<Record<DrawnObstacleKind, Described>> = {
  doorway: by(['widthMm', 'heightMm'], ['leafMm', 'thresholdMm']),
  passage: by(['widthMm', 'heightMm']),
  turn: by(['fromMm', 'toMm', 'heightMm'], ['fromLegMm', 'toLegMm'], { mayHave: ['angleDeg'] }),
  'side-doorway': by(['passageMm', 'widthMm', 'heightMm'], ['wallMm', 'leafMm', 'thresholdMm']),
  lift: by(['doorWidthMm', 'doorHeightMm', 'carWidthMm', 'carDepthMm', 'carHeightMm'], [], {
    needed: ['ratedKg'],
  }),
  stair: by(['widthMm', 'landingMm', 'headroomMm'], ['wellMm'], { mayHave: ['landingTurnDeg', 'pitchDeg'] }),
  ramp: by(['widthMm', 'heightMm'], [], { mayHave: ['slopeDeg'] }),
  'height-limit': by(['heightMm']),
  'set-down': by(['widthMm', 'depthMm'], ['heightMm']),
};

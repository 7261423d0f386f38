import { type LiftPreset, liftPresets } from '../../src/access/liftPresets.ts';
import type { ObstacleId } from '../../src/document/ids.ts';
import type { DrawnObstacleKind, FigureName, SizeName } from '../../src/document/obstacleKinds.ts';
import type { DrawnObstacle, DrawnSize } from '../../src/document/wayInRecords.ts';

type Sizes = Partial<Record<SizeName, number>>;
type Figures = Partial<Record<FigureName, number>>;

const typed = (sizes: Sizes): Readonly<Partial<Record<SizeName, DrawnSize>>> =>
  Object.fromEntries(Object.entries(sizes).map(([name, lengthMm]) => [name, { from: 'typed', lengthMm }]));

const liftSizes = ({ name: _, ratedKg: __, ...sizes }: LiftPreset): Sizes => sizes;
const usualLift = liftPresets[1]!;

/** Usual sizes to start from (common practice, no source), each to be confirmed on site. */
const usual: Readonly<Record<DrawnObstacleKind, { readonly sizes: Sizes; readonly figures?: Figures }>> = {
  doorway: { sizes: { widthMm: 900, heightMm: 2040, leafMm: 45 } },
  passage: { sizes: { widthMm: 1200, heightMm: 2300 } },
  turn: { sizes: { fromMm: 1200, toMm: 1200, heightMm: 2300 }, figures: { angleDeg: 90 } },
  'side-doorway': { sizes: { passageMm: 1200, widthMm: 900, heightMm: 2040, wallMm: 120, leafMm: 45 } },
  lift: { sizes: liftSizes(usualLift), figures: { ratedKg: usualLift.ratedKg } },
  stair: { sizes: { widthMm: 1120, landingMm: 1120, headroomMm: 2030 }, figures: { pitchDeg: 33 } },
  ramp: { sizes: { widthMm: 1200, heightMm: 2300 }, figures: { slopeDeg: 5 } },
  'height-limit': { sizes: { heightMm: 2000 } },
  'set-down': { sizes: { widthMm: 2000, depthMm: 2000 } },
};

/** An obstacle of a kind with usual sizes. */
export const newObstacle = (kind: DrawnObstacleKind, id: ObstacleId): DrawnObstacle => ({
  id,
  kind,
  name: '',
  sizes: typed(usual[kind].sizes),
  figures: usual[kind].figures ?? {},
  typedPlusMinusMm: 0,
  confirmOnSite: true,
});

/** A lift with the figures of a preset, still to be confirmed on site. */
export const withPreset = (lift: DrawnObstacle, preset: LiftPreset): DrawnObstacle => ({
  ...lift,
  sizes: typed(liftSizes(preset)),
  figures: { ratedKg: preset.ratedKg },
  confirmOnSite: true,
});

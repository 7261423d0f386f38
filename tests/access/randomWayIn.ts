import type { AccessPiece, Obstacle, ObstacleKind } from '../../src/access/wayInSchema.ts';
import type { SeededRandom } from '../oracles/seededRandom.ts';

const KINDS: readonly ObstacleKind[] = [
  'doorway',
  'passage',
  'turn',
  'side-doorway',
  'lift',
  'stair',
  'ramp',
  'height-limit',
  'set-down',
];

/** An obstacle of ordinary size, of every kind and with every optional field now and then. */
export const randomObstacle = (random: SeededRandom, kind: ObstacleKind = random.pick(KINDS)): Obstacle => {
  const mm = (low: number, high: number): number => Math.round(low + random.next() * (high - low));
  const sometimes = <Value>(value: Value): Value | undefined => (random.chance(0.4) ? value : undefined);
  switch (kind) {
    case 'doorway':
      return {
        kind,
        widthMm: mm(600, 1600),
        heightMm: mm(1800, 2400),
        leafMm: sometimes(mm(0, 60)),
        thresholdMm: sometimes(mm(0, 40)),
      };
    case 'passage':
      return { kind, widthMm: mm(700, 1800), heightMm: mm(2000, 2800) };
    case 'turn':
      return {
        kind,
        fromMm: mm(700, 1800),
        toMm: mm(700, 1800),
        heightMm: mm(900, 2800),
        angleDeg: sometimes(mm(10, 160)),
        fromLegMm: sometimes(mm(1500, 4000)),
        toLegMm: sometimes(mm(1500, 4000)),
      };
    case 'side-doorway':
      return {
        kind,
        passageMm: mm(800, 1800),
        widthMm: mm(700, 1400),
        heightMm: mm(900, 2400),
        wallMm: sometimes(mm(0, 400)),
        leafMm: sometimes(mm(0, 60)),
      };
    case 'lift':
      return {
        kind,
        doorWidthMm: mm(700, 1400),
        doorHeightMm: mm(1900, 2300),
        carWidthMm: mm(900, 2000),
        carDepthMm: mm(1200, 2400),
        carHeightMm: mm(2000, 2600),
        ratedKg: mm(300, 2000),
      };
    case 'stair':
      return {
        kind,
        widthMm: mm(800, 1500),
        landingMm: mm(900, 2000),
        headroomMm: mm(1900, 2600),
        landingTurnDeg: random.pick([undefined, 0, 90, 180] as const),
        wellMm: sometimes(mm(0, 300)),
        pitchDeg: sometimes(mm(25, 42)),
      };
    case 'ramp':
      return { kind, widthMm: mm(800, 1800), heightMm: mm(1900, 2600), slopeDeg: sometimes(mm(1, 12)) };
    case 'height-limit':
      return { kind, heightMm: mm(600, 2400) };
    case 'set-down':
      return { kind, widthMm: mm(700, 2500), depthMm: mm(900, 3000), heightMm: sometimes(mm(800, 2500)) };
  }
};

/** A piece of a bar's size, held by any of the handling rules. */
export const randomPiece = (random: SeededRandom): AccessPiece => {
  const mm = (low: number, high: number): number => Math.round(low + random.next() * (high - low));
  const rule = random.integer(0, 4);
  return {
    id: 'p',
    lengthMm: mm(300, 3000),
    widthMm: mm(200, 1100),
    heightMm: mm(150, 1300),
    massKg: mm(5, 250),
    ...(rule === 0 ? { keepUpright: true } : {}),
    ...(rule === 1 ? { mayGoOnEnd: false } : {}),
    ...(rule === 2 ? { mayGoOnEdge: false } : {}),
    ...(rule === 3 ? { mayPitchInTurns: true } : {}),
  };
};

/** What may only help when it grows: every clear dimension, and the rated load. */
export const HELPFUL = [
  'widthMm',
  'heightMm',
  'fromMm',
  'toMm',
  'fromLegMm',
  'toLegMm',
  'passageMm',
  'doorWidthMm',
  'doorHeightMm',
  'carWidthMm',
  'carDepthMm',
  'carHeightMm',
  'ratedKg',
  'landingMm',
  'headroomMm',
  'wellMm',
  'depthMm',
] as const;

/** The same obstacle with some of its clear dimensions larger. */
export const widened = (obstacle: Obstacle, random: SeededRandom): Obstacle => {
  const fields: Record<string, unknown> = { ...obstacle };
  for (const name of HELPFUL) {
    const value = fields[name];
    if (typeof value === 'number' && random.chance(0.6)) fields[name] = value * (1 + 0.2 * random.next());
  }
  return fields as unknown as Obstacle;
};

/** The same piece, smaller in some of its dimensions and no heavier. */
export const reduced = (piece: AccessPiece, random: SeededRandom): AccessPiece => ({
  ...piece,
  lengthMm: piece.lengthMm * (1 - 0.2 * random.next() * random.integer(0, 1)),
  widthMm: piece.widthMm * (1 - 0.2 * random.next() * random.integer(0, 1)),
  heightMm: piece.heightMm * (1 - 0.2 * random.next() * random.integer(0, 1)),
  massKg: piece.massKg * (1 - 0.2 * random.next()),
});

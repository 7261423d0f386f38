import type { Point } from '../../geometry/point.ts';
import type { FloorPlan, FloorRun, FloorStraight } from './floorPlan.ts';
import { doTurnedBoxesOverlap, type TurnedBox } from './turnedBox.ts';

/** Where the dimensions of one straight stand: on which side, and from where to where off the front line, mm of the room. */
export interface Band {
  readonly side: 'front' | 'back';
  /** Off the front line towards the back: negative in front. The first is nearer to the run. */
  readonly nearMm: number;
  readonly farMm: number;
  readonly ring: TurnedBox;
}

const mostSteps = 60;

/** A place `alongMm` from a straight's datum and `offsetMm` off its front line towards the back. */
export const placeOff = (
  { start, along, towardsBack }: Pick<FloorStraight, 'start' | 'along' | 'towardsBack'>,
  alongMm: number,
  offsetMm: number,
): Point => ({
  x: start.x + along.x * alongMm + towardsBack.x * offsetMm,
  y: start.y + along.y * alongMm + towardsBack.y * offsetMm,
});

/** From where to where the pieces of a straight, its front line and what reaches beyond stand. */
export const reachOf = ({ lengthMm, spans }: FloorStraight): readonly [lowMm: number, highMm: number] => [
  Math.min(0, ...spans.map(({ fromMm }) => fromMm)),
  Math.max(lengthMm, ...spans.map(({ toMm }) => toMm)),
];

const ringOff = (
  straight: FloorStraight,
  [lowMm, highMm]: readonly [number, number],
  fromMm: number,
  toMm: number,
): TurnedBox => [
  placeOff(straight, lowMm, fromMm),
  placeOff(straight, highMm, fromMm),
  placeOff(straight, highMm, toMm),
  placeOff(straight, lowMm, toMm),
];

const backOf = ({ run }: FloorRun): number => run.depthMm + run.allowances.claddingMm;

/** From where to where off the line between its ends a straight's body lies: an arc bulges to one side of its chord. */
export const bodyOf = (
  run: FloorRun,
  { bend }: FloorStraight,
): readonly [frontMm: number, backMm: number] => [
  -Math.max(0, bend?.bulgeMm ?? 0),
  backOf(run) + Math.max(0, -(bend?.bulgeMm ?? 0)),
];

/**
 * Gives the dimensions of each straight a band beside it that lies over no run and over no other band: in front where
 * there is room, else behind, else further out. One list for each run, one band for each straight.
 *
 * @param size of a band: how deep it is, how far at least from the run, and by how much it is moved out in a step; mm
 * of the room.
 */
export const placeBands = (
  { runs }: FloorPlan,
  size: {
    readonly depthMm: number;
    readonly clearMm: number;
    readonly stepMm: number;
    /** From where to where along the front the band's lines and letters reach. */
    readonly reach: (straight: FloorStraight) => readonly [lowMm: number, highMm: number];
    /** How far a band may reach into a run at a corner. */
    readonly cornerMm: number;
  },
): readonly (readonly Band[])[] => {
  const bands: TurnedBox[] = [];
  const bodies: readonly TurnedBox[] = runs.flatMap((run) =>
    run.straights.map((straight) => ringOff(straight, reachOf(straight), ...bodyOf(run, straight))),
  );
  return runs.map((run) =>
    run.straights.map((straight): Band => {
      const reach = size.reach(straight);
      const candidate = (side: Band['side'], step: number): Band => {
        const off = size.clearMm + step * size.stepMm;
        const [frontMm, backMm] = bodyOf(run, straight);
        const near = side === 'front' ? frontMm - off : backMm + off;
        const far = side === 'front' ? near - size.depthMm : near + size.depthMm;
        return { side, nearMm: near, farMm: far, ring: ringOff(straight, reach, near, far) };
      };
      const candidates = Array.from({ length: mostSteps }, (_, step) => [
        candidate('front', step),
        candidate('back', step),
      ]).flat();
      const isFree = ({ ring }: Band) =>
        !bands.some((other) => doTurnedBoxesOverlap(ring, other)) &&
        !bodies.some((body) => doTurnedBoxesOverlap(ring, body, size.cornerMm));
      const band = candidates.find(isFree) ?? candidates.at(-2)!;
      bands.push(band.ring);
      return band;
    }),
  );
};

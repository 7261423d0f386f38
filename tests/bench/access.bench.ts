import { checkWayIn } from '../../src/access/checkWayIn.ts';
import type { AccessPiece, Obstacle, WayIn } from '../../src/access/wayInSchema.ts';

/**
 * 60 pieces by 20 obstacles, with and without the drawings, and as the widths and heights of the pieces differ more
 * and more. Prints times and ratios of one run; asserts nothing.
 */
const obstacles: readonly Obstacle[] = Array.from({ length: 4 }, (_, storey): readonly Obstacle[] => [
  { kind: 'doorway', widthMm: 880 + 10 * storey, heightMm: 2040, leafMm: 30, uncertaintyMm: 15 },
  { kind: 'passage', widthMm: 1200 + 20 * storey, heightMm: 2400, uncertaintyMm: 15 },
  {
    kind: 'turn',
    fromMm: 1250 + 20 * storey,
    toMm: 1300,
    heightMm: 2350,
    angleDeg: 90 + 10 * storey,
    uncertaintyMm: 15,
  },
  storey % 2 === 0
    ? {
        kind: 'lift',
        doorWidthMm: 900,
        doorHeightMm: 2100,
        carWidthMm: 1400,
        carDepthMm: 1600 + 200 * storey,
        carHeightMm: 2300,
        ratedKg: 1000,
        uncertaintyMm: 10,
      }
    : { kind: 'stair', widthMm: 1200, landingMm: 1400, headroomMm: 2100, pitchDeg: 33, uncertaintyMm: 15 },
  {
    kind: 'side-doorway',
    passageMm: 1300,
    widthMm: 950,
    heightMm: 2050,
    wallMm: 120 + 30 * storey,
    uncertaintyMm: 15,
  },
]).flat();

const piecesWith = (crossSections: number): readonly AccessPiece[] =>
  Array.from({ length: 60 }, (_, index) => ({
    id: `p${index}`,
    lengthMm: 600 + 300 * (index % 7),
    widthMm: 550 + 10 * (index % crossSections),
    heightMm: 900 + 3 * (index % crossSections),
    massKg: 40 + index,
    keepUpright: index % 3 === 0,
  }));

interface Spent {
  /** By the clock: more than the work where the machine is shared. */
  readonly wallMs: number;
  /** By the processor, of this process. */
  readonly cpuMs: number;
}

const medianOf = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;

const time = (run: () => unknown): Spent => {
  const spent = Array.from({ length: 15 }, () => {
    const cpu = process.cpuUsage();
    const start = performance.now();
    run();
    const wallMs = performance.now() - start;
    const { user, system } = process.cpuUsage(cpu);
    return { wallMs, cpuMs: (user + system) / 1000 };
  });
  return { wallMs: medianOf(spent.map((one) => one.wallMs)), cpuMs: medianOf(spent.map((one) => one.cpuMs)) };
};

const shown = ({ wallMs, cpuMs }: Spent): string =>
  `${wallMs.toFixed(1)} ms by the clock, ${cpuMs.toFixed(1)} ms of processor`;

const wayIn = (crossSections: number, used: readonly Obstacle[] = obstacles): WayIn => ({
  obstacles: used,
  pieces: piecesWith(crossSections),
});
const warm = time(() => checkWayIn(wayIn(6)));
const without = time(() => checkWayIn(wayIn(6)));
console.log(
  `60 pieces x ${obstacles.length} obstacles, median of 15; ratios are of processor time in this run`,
);
console.log(`verdicts only, before warming up: ${shown(warm)}`);
console.log(`verdicts only: ${shown(without)}`);
for (const crossSections of [1, 6, 20, 60]) {
  const drawn = time(() => checkWayIn(wayIn(crossSections), { drawings: true }));
  console.log(
    `with drawings, ${crossSections} cross-sections: ${shown(drawn)}, x${(drawn.cpuMs / without.cpuMs).toFixed(2)}`,
  );
}
const lifts = obstacles.filter((obstacle) => obstacle.kind === 'lift');
const onlyLifts = time(() => checkWayIn(wayIn(6, lifts), { drawings: true }));
console.log(
  `${lifts.length} lifts alone, where every tilt counts: ${shown(onlyLifts)}, x${(onlyLifts.cpuMs / without.cpuMs).toFixed(2)}`,
);

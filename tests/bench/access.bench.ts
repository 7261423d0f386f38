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

const time = (run: () => unknown): number => {
  const times = Array.from({ length: 15 }, () => {
    const start = performance.now();
    run();
    return performance.now() - start;
  });
  return times.sort((a, b) => a - b)[Math.floor(times.length / 2)]!;
};

const wayIn = (crossSections: number, used: readonly Obstacle[] = obstacles): WayIn => ({
  obstacles: used,
  pieces: piecesWith(crossSections),
});
const without = time(() => checkWayIn(wayIn(6)));
console.log(`60 pieces x ${obstacles.length} obstacles, 6 cross-sections, median of 15`);
console.log(`verdicts only          ${without.toFixed(1)} ms`);
for (const crossSections of [1, 6, 20, 60]) {
  const drawn = time(() => checkWayIn(wayIn(crossSections), { drawings: true }));
  console.log(
    `with drawings, ${String(crossSections).padStart(2)} cross-sections  ${drawn.toFixed(1)} ms  x${(drawn / without).toFixed(2)}`,
  );
}
const lifts = obstacles.filter((obstacle) => obstacle.kind === 'lift');
const onlyLifts = time(() => checkWayIn(wayIn(6, lifts), { drawings: true }));
console.log(
  `lifts alone (${lifts.length}), where every tilt counts  ${onlyLifts.toFixed(1)} ms  x${(onlyLifts / without).toFixed(2)}`,
);

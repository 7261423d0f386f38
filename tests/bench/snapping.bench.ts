import { pickAt } from '../../renderer/snapping/pickAt.ts';
import { paperPoint } from '../../src/geometry/point.ts';
import { followLine } from '../../src/sheet/followLine.ts';
import { createLineworkIndex } from '../../src/sheet/lineworkIndex.ts';
import { buildLineworkTree } from '../../src/sheet/lineworkTree.ts';
import { randomFrom, randomLinework } from '../sheet/randomLinework.ts';

/**
 * What picking costs on the main thread of a window: taking over an index that a worker built, and one pick with every
 * relation looked for; beside the same on a sheet of a thousand lines. Run with `node tests/bench/snapping.bench.ts`.
 */
const percentile = (values: readonly number[], share: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(values.length * share))]!;

const measured = (segments: number) => {
  const linework = randomLinework(3, segments);
  const begin = performance.now();
  const tree = buildLineworkTree(linework);
  const built = performance.now();
  const index = createLineworkIndex(linework, tree);
  const taken = performance.now();
  const random = randomFrom(5);
  const picks: number[] = [];
  for (let round = 0; round < 6000; round += 1) {
    const [x, y] = [random() * 2384, random() * 1684];
    const before = paperPoint(random() * 2384, random() * 1684);
    const anchor = paperPoint(random() * 2384, random() * 1684);
    const points = Array.from({ length: 40 }, () => ({
      at: paperPoint(random() * 2384, random() * 1684),
      uncertaintyPt: 0.2,
    }));
    const start = performance.now();
    pickAt(paperPoint(x, y), {
      index,
      pxPerUnit: round % 2 ? 0.6 : 4,
      userUnit: 1,
      guides: { anchor, before, points, hold: null },
      isSuspended: false,
      isStepped: false,
      candidate: 0,
      sheetRightRad: 0,
    });
    // The first rounds run uncompiled code.
    if (round >= 1000) picks.push(performance.now() - start);
  }
  const follows: number[] = [];
  for (let line = 0; line < 300; line += 1) {
    const start = performance.now();
    followLine(index, line * 100, { mmPerUnit: 17.6 });
    follows.push(performance.now() - start);
  }
  return { build: built - begin, take: taken - built, picks, follows };
};

const small = measured(1_000);
const large = measured(300_000);
const shown = (ms: number): string => `${ms.toFixed(3)} ms`;
process.stdout.write(
  `300 000 lines: tree built in ${shown(large.build)} (in a worker), taken over in ${shown(large.take)}\n` +
    `pick: median ${shown(percentile(large.picks, 0.5))}, p99 ${shown(percentile(large.picks, 0.99))}; ` +
    `p99 is ${(percentile(large.picks, 0.99) / percentile(small.picks, 0.99)).toFixed(2)} times that on 1 000 lines\n` +
    `follow a line: median ${shown(percentile(large.follows, 0.5))}, p99 ${shown(percentile(large.follows, 0.99))}\n`,
);

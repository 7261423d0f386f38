import { checkFit } from '../../src/fitting/checkFit.ts';
import { fitRun } from '../../src/fitting/fitRun.ts';
import type { FitProblem } from '../../src/fitting/problemSchema.ts';
import { solveRun } from '../../src/fitting/runSolver.ts';
import { highsFit } from '../oracles/highsFit.ts';
import { longRun } from '../oracles/longRun.ts';

/*
 * Fitting against HiGHS, in processor time of one run of this program:
 *   node tests/bench/fitting.bench.ts [seconds that HiGHS may take for each of its seven programs, default 20]
 * The run: 30 m, 4 corners, 12 wanted stations, 3 blocked zones, 2 openings (tests/oracles/longRun.ts).
 * The HiGHS sequence: tests/oracles/fitModel.ts states the program, tests/oracles/highsFit.ts the sequence.
 */

const cpuMs = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

const timed = <Result>(
  work: () => Result,
): { readonly result: Result; readonly ms: number; readonly wallMs: number } => {
  const [cpu, wall] = [cpuMs(), performance.now()];
  const result = work();
  return { result, ms: cpuMs() - cpu, wallMs: performance.now() - wall };
};

const median = (values: readonly number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1]!;

const shown = (ms: number): string => `${ms.toFixed(ms < 10 ? 2 : 0)} ms`;

const medianOf = (problems: readonly FitProblem[], alternatives: number): { cpu: number; wall: number } => {
  const times = problems.map((problem) => timed(() => fitRun(problem, { alternatives })));
  return { cpu: median(times.map(({ ms }) => ms)), wall: median(times.map(({ wallMs }) => wallMs)) };
};

const problems = Array.from({ length: 41 }, (_, index) => longRun(index));
const limitS = Number(process.argv[2] ?? 20);

const cold = timed(() => fitRun(problems[0]!, { alternatives: 1 }));
const one = medianOf(problems, 1);
const three = medianOf(problems, 3);
console.log('30 m run, 4 corners, 12 wanted stations, 3 blocked zones, 2 openings');
console.log(`  first call in a fresh process   ${shown(cold.ms)}`);
console.log(
  `  median of ${problems.length}, the optimum        ${shown(one.cpu)} processor, ${shown(one.wall)} wall`,
);
console.log(
  `  median of ${problems.length}, 3 alternatives     ${shown(three.cpu)} processor, ${shown(three.wall)} wall`,
);
const broken = problems.flatMap((problem) => checkFit(problem, fitRun(problem, { alternatives: 3 })));
console.log(`  violations found by the checker ${broken.length}`);

console.log('\nAgainst the HiGHS sequence on the same problem');
const judge = async (name: string, problem: FitProblem) => {
  const ours = timed(() => solveRun(problem, 'best'));
  const again = median(Array.from({ length: 9 }, () => timed(() => solveRun(problem, 'best')).ms));
  const [cpu] = [cpuMs()];
  const theirs = await highsFit(problem, limitS);
  const ms = cpuMs() - cpu;
  const fit = fitRun(problem, { alternatives: 1 }).alternatives[0];
  const same =
    theirs.status === 'optimal' &&
    fit !== undefined &&
    Object.values(fit.score).every((value, place) => Math.abs(value - theirs.score[place]!) < 0.05);
  const verdict =
    theirs.status === 'unknown'
      ? `HiGHS did not finish (${theirs.detail}), so at least`
      : same
        ? 'same optimum,'
        : 'DIFFERENT,';
  console.log(
    `  ${name.padEnd(34)} ours ${shown(again).padStart(9)}  HiGHS ${shown(ms).padStart(9)}  ${verdict} ${(ms / again).toFixed(0)} times  (${ours.result.steps} steps)`,
  );
};
const part = (straights: number): FitProblem => {
  const whole = longRun();
  return {
    ...whole,
    straights: whole.straights.slice(0, straights),
    corners: whole.corners!.slice(0, straights - 1),
    wanted: whole.wanted!.filter((wish) => wish.straight < straights),
  };
};
for (const straights of [1, 2, 3, 4])
  await judge(`the first ${straights} of its 5 straights`, part(straights));
await judge('the whole run', longRun());

console.log('\nCost against length (one straight between two walls) and against wanted stations');
const stock = longRun().stock;
const straightOf = (lengthMm: number, stations: number): FitProblem => ({
  depthMm: 700,
  straights: [{ lengthMm, uncertaintyMm: 10 }],
  ends: [{ kind: 'wall' }, { kind: 'wall' }],
  stock,
  fillerMaxMm: 150,
  allowances: { jointMm: 2 },
  wanted: Array.from({ length: stations }, (_, index) => ({
    id: `w${index}`,
    item: ['beer-450', 'cocktail-1000', 'basin-320'][index % 3]!,
    straight: 0,
    nearMm: ((index + 0.5) * lengthMm) / stations,
    withinMm: 250,
  })),
});
console.log('  length      0 stations   4 stations   8 stations  12 stations');
for (const lengthMm of [7_510, 15_020, 30_040, 60_080]) {
  const cells = [0, 4, 8, 12].map((stations) => {
    const problem = straightOf(lengthMm, stations);
    const results = Array.from({ length: 5 }, () => timed(() => solveRun(problem, 'best')));
    const mark = results[0]!.result.proven ? ' ' : '*';
    return `${shown(median(results.map(({ ms }) => ms)))}${mark}`.padStart(12);
  });
  console.log(`  ${String(lengthMm / 1000).padStart(5)} m ${cells.join(' ')}`);
}
console.log('  * stopped with a bound');
console.log('\nWith rules between pieces and with columns (one straight of 6.2 m and of 12.2 m)');
type Rules = Partial<FitProblem['stock'][number]>;
const ruled = (
  lengthMm: number,
  wishes: readonly (readonly [string, number])[],
  rules: Readonly<Record<string, Rules>>,
  columns: FitProblem['straights'][number]['columns'] = [],
): FitProblem => ({
  ...straightOf(lengthMm, 0),
  straights: [{ lengthMm, uncertaintyMm: 10, columns }],
  stock: stock.map((item) => ({ ...item, ...rules[item.id] })),
  wanted: wishes.map(([item, nearMm], index) => ({
    id: `w${index}`,
    item,
    straight: 0,
    nearMm,
    withinMm: 250,
  })),
});
const shallow = { M600: { depthMm: 500 }, M900: { depthMm: 500 } };
const clearOf = (item: string, distanceMm: number): Rules => ({ clearOf: [{ item, distanceMm }] });
const many = [
  ['cocktail-1000', 2_000],
  ['basket-650', 3_400],
  ['beer-450', 6_400],
  ['basin-320', 8_000],
  ['beer-450', 10_400],
] as const;
for (const [name, problem] of [
  [
    'basin 600 clear of blender',
    ruled(
      6_248,
      [
        ['basin-320', 2_000],
        ['blender-300', 2_600],
      ],
      { 'basin-320': clearOf('blender-300', 600) },
    ),
  ],
  [
    'basin 300 clear of blender',
    ruled(
      6_248,
      [
        ['basin-320', 1_000],
        ['blender-300', 2_600],
      ],
      { 'basin-320': clearOf('blender-300', 300) },
    ),
  ],
  [
    'cocktail 900 clear of beer',
    ruled(
      6_248,
      [
        ['cocktail-1000', 2_000],
        ['beer-450', 3_400],
      ],
      { 'cocktail-1000': clearOf('beer-450', 900) },
    ),
  ],
  [
    'basket beside cocktail, 5 stations',
    ruled(12_248, many, { 'basket-650': { beside: ['cocktail-1000'] } }),
  ],
  [
    'one column, 2 stations',
    ruled(
      6_248,
      [
        ['basin-320', 2_900],
        ['beer-450', 2_400],
      ],
      shallow,
      [{ fromMm: 3_000, toMm: 3_300, depthMm: 200 }],
    ),
  ],
  [
    'two columns, 5 stations',
    ruled(12_248, many, shallow, [
      { fromMm: 4_000, toMm: 4_300, depthMm: 200 },
      { fromMm: 8_800, toMm: 9_200, depthMm: 200 },
    ]),
  ],
] as const) {
  const results = Array.from({ length: 3 }, () => timed(() => solveRun(problem, 'best')));
  const [first] = results;
  console.log(
    `  ${name.padEnd(36)} ${shown(median(results.map(({ ms }) => ms))).padStart(9)}  ${first!.result.proven ? 'proven' : 'stopped, with a bound'}`,
  );
}
console.log(
  `\nMemory after all this: ${(process.memoryUsage().heapUsed / 1e6).toFixed(0)} MB of heap in use`,
);

import { performance } from 'node:perf_hooks';
import { dxfOfFloorPlan } from '../../src/issue/dxf/dxfOfFloorPlan.ts';
import { writeDxf } from '../../src/issue/dxf/writeDxf.ts';
import { floorPlans } from '../../src/issue/settingOut/floorPlan.ts';
import { settingOutPdf } from '../../src/issue/settingOut/settingOutPdf.ts';
import { scaleOfSheet } from '../../src/measure/scaleOfSheet.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { drawHeavyPlan } from '../fixtures/drawPlan/drawHeavyPlan.ts';
import { frontThrough, type Scene } from '../issue/elevation/elevationScenes.ts';
import { blankPlan, issueFont } from '../issue/settingOut/blankPlan.ts';
import { projectOf, projectSheetId } from '../issue/settingOut/randomProject.ts';

/** Issues a 30 m bar of some 40 modules: setting-out drawing over an empty plan and over one of 90,000 segments, and CAD file. */

const longBar: Scene = {
  name: 'Long bar with a name that goes on',
  frontLine: frontThrough([0, -6_000], [18_000, -6_000], [18_000, 0]),
  ends: ['wall', 'wall'],
  zones: [
    { kind: 'opening', name: 'Lifting flap', straight: 1, fromMm: 6_000, toMm: 6_850 },
    {
      kind: 'blocked',
      name: 'Existing cast iron rainwater riser to remain',
      straight: 1,
      fromMm: 12_040,
      toMm: 12_400,
    },
  ],
  wanted: [2_500, 4_500, 9_000, 14_500]
    .map((nearMm) => ({
      item: 'beer-station-600',
      straight: 1,
      nearMm,
      withinMm: 900,
    }))
    .filter(({ item }) => demoRange.items.some(({ id }) => id === item)),
  changes: { maxWidthMm: 750 },
};

const megabytes = (bytes: number): string => `${(bytes / 1024 / 1024).toFixed(1)} MiB`;

const project = projectOf([longBar], 60);
const pieces = [...project.alternatives.values()].reduce((sum, fit) => sum + fit.pieces.length, 0);
const { document, alternatives } = project;
const scale = scaleOfSheet(document, projectSheetId);
const sheet = document.sheets[projectSheetId];
if (!scale || !sheet) throw new Error('The bench has a sheet with a scale.');
const font = await issueFont();
console.log(`A 30 m bar of ${pieces} pieces.`);

/** What work gives, the time that it took, and how much of it this process computed: others share the machine. */
const timed = async <Value>(
  work: () => Promise<Value> | Value,
): Promise<readonly [value: Value, ms: number, computedMs: number]> => {
  const started = performance.now();
  const before = process.cpuUsage();
  const value = await work();
  const { user, system } = process.cpuUsage(before);
  return [value, performance.now() - started, (user + system) / 1000];
};

for (const [name, bytes] of [
  ['an empty plan', await blankPlan()],
  ['a heavy plan', (await drawHeavyPlan(90_000)).bytes],
] as const) {
  const [answer, ms, computedMs] = await timed(() =>
    settingOutPdf(
      { bytes },
      { document, sheet, scale, range: demoRange, alternatives },
      { font, at: '2027-03-15T08:00:00.000Z', system: 'iso' },
    ),
  );
  if (!answer.ok) throw new Error(answer.message);
  console.log(
    `Setting-out drawing over ${name} (${megabytes(bytes.length)}): ${answer.letters.length} sheets, ${answer.paper.name}, ${megabytes(answer.bytes.length)}, ${Math.round(ms)} ms (${Math.round(computedMs)} ms computed)`,
  );
  if (process.argv[2] && name === 'an empty plan') {
    const { writeFile } = await import('node:fs/promises');
    await writeFile(process.argv[2], answer.bytes);
  }
}
const [text, ms] = await timed(() => {
  const [plan] = floorPlans(document, projectSheetId, {
    rotationDeg: 0,
    range: demoRange,
    alternatives,
  });
  if (!plan) throw new Error('The bench has a plan.');
  return writeDxf(dxfOfFloorPlan(plan, []));
});
console.log(`CAD file: ${megabytes(text.length)}, ${Math.round(ms)} ms`);
console.log(
  `Memory at the end: ${megabytes(process.memoryUsage().rss)} resident, ${megabytes(process.memoryUsage().heapUsed)} heap`,
);

// `npm test`: installs what is missing, then runs every check and test. `--campaign` runs the full random campaigns.
// Ends with the plain line "N passed, N failed"; a check that finds something counts as one failed item.
import { readFileSync, rmSync } from 'node:fs';
import { countTests, summarise } from './countTests.mjs';
import { ensureBuilt } from './ensureBuilt.mjs';
import { ensureInstalled } from './ensureInstalled.mjs';
import { inProject } from './projectPaths.mjs';
import { projectEnvironment, runProcess } from './runProcess.mjs';

/**
 * @typedef {import('./countTests.mjs').Counts} Counts
 * @typedef {{name: string, args: string[]}} Check
 */

/** @type {import('./ensureBuilt.mjs').Bundle[]} */
const bundles = ['node', 'electron', 'renderer'];
const startedAt = Date.now();
const environment = projectEnvironment({
  ...(process.argv.includes('--campaign') ? { FOOTRAIL_CAMPAIGN: 'full' } : {}),
  // A log file is no terminal: colour codes would only clutter it.
  ...(process.stdout.isTTY ? {} : { NO_COLOR: '1' }),
});

/** Biome asks the terminal, not the environment. */
const colours = process.stdout.isTTY ? [] : ['--colors=off'];

/** @type {(name: string, script: string, ...args: string[]) => Check} */
const check = (name, script, ...args) => ({ name, args: [inProject(...script.split('/')), ...args] });
/** @param {string} world */
const typeCheck = (world) =>
  check(`types: ${world}`, 'node_modules/typescript/bin/tsc', '-p', `build/types/${world}.json`);

const checks = [
  check('format and lint', 'node_modules/@biomejs/biome/bin/biome', 'ci', '--max-diagnostics=50', ...colours),
  check('layers', 'build/lint/checkLayers.ts'),
  check('dead code', 'node_modules/knip/bin/knip.js', '--config', 'build/lint/knip.json', '--no-progress'),
  ...['pure', 'node', 'electron', 'renderer', 'tests'].map(typeCheck),
];

/** @type {(Counts & {name: string})[]} */
const results = [];

/** @type {(name: string, counts: Counts) => void} */
const report = (name, counts) => {
  results.push({ name, ...counts });
  console.log(summarise({ name, ...counts }));
};

/** @type {(node: string, check: Check) => Promise<void>} */
const runCheck = async (node, { name, args }) => {
  console.log(`\n── ${name}`);
  const code = await runProcess(node, args, { env: environment });
  report(name, code === 0 ? { passed: 1, failed: 0, skipped: 0 } : { passed: 0, failed: 1, skipped: 0 });
};

/** @type {(node: string, project: 'unit' | 'e2e', name: string) => Promise<void>} */
const runTests = async (node, project, name) => {
  console.log(`\n── ${name}`);
  const file = inProject('build', 'out', `tests-${project}.json`);
  rmSync(file, { force: true });
  const args = ['run', '--config', 'build/test/vitest.config.ts', '--project', project, '--passWithNoTests'];
  const reporters = ['--reporter=dot', '--reporter=json', `--outputFile.json=${file}`];
  const code = await runProcess(
    node,
    [inProject('node_modules', 'vitest', 'vitest.mjs'), ...args, ...reporters],
    {
      env: environment,
    },
  );
  report(
    name,
    countTests(() => JSON.parse(readFileSync(file, 'utf8')), code),
  );
};

/** @param {string} node */
const runBuild = async (node) => {
  console.log('\n── build');
  try {
    await ensureBuilt(node, bundles);
    report('build', { passed: 1, failed: 0, skipped: 0 });
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    report('build', { passed: 0, failed: 1, skipped: 0 });
  }
};

try {
  const node = await ensureInstalled();
  for (const item of checks) await runCheck(node, item);
  await runBuild(node);
  await runTests(node, 'unit', 'unit and command-line tests');
  await runTests(node, 'e2e', 'browser tests');
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  report('setting up', { passed: 0, failed: 1, skipped: 0 });
}

/** @param {keyof Counts} key */
const total = (key) => results.reduce((sum, result) => sum + result[key], 0);
console.log(`\n── summary after ${Math.round((Date.now() - startedAt) / 1000)} s`);
for (const result of results) console.log(summarise(result));
if (total('skipped') > 0) console.log(`${total('skipped')} skipped`);
console.log(`${total('passed')} passed, ${total('failed')} failed`);
process.exitCode = total('failed') === 0 && total('passed') > 0 ? 0 : 1;

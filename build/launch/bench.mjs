// `npm run bench [NAME …]`: runs the benchmarks in tests/bench one after another; each prints ratios from its own run.
import { existsSync, readdirSync } from 'node:fs';
import { ensureBuilt } from './ensureBuilt.mjs';
import { ensureInstalled } from './ensureInstalled.mjs';
import { inProject } from './projectPaths.mjs';
import { projectEnvironment, runProcess } from './runProcess.mjs';

try {
  const node = await ensureInstalled();
  await ensureBuilt(node, ['node', 'electron', 'renderer']);
  const folder = inProject('tests', 'bench');
  const wanted = process.argv.slice(2);
  const names = existsSync(folder)
    ? readdirSync(folder).filter(
        (name) =>
          name.endsWith('.bench.ts') && (wanted.length === 0 || wanted.some((part) => name.includes(part))),
      )
    : [];
  if (names.length === 0) throw new Error(`No benchmark in tests/bench matches "${wanted.join(' ')}".`);
  for (const name of names.sort()) {
    console.log(`\n${name}`);
    const code = await runProcess(node, [inProject('tests', 'bench', name)], { env: projectEnvironment() });
    if (code !== 0) process.exitCode = code;
  }
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}

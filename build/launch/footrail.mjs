#!/usr/bin/env node
// The command line. Plain JavaScript that an old Node can read: it first sees that a new enough Node runs it.
import { existsSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { canBundle, ensureBuilt } from './ensureBuilt.mjs';
import { findNode, inProject, missingNodeAdvice } from './projectPaths.mjs';
import { runProcess } from './runProcess.mjs';

/** @param {string} message */
const refuse = (message) => {
  console.error(`footrail: ${message}`);
  process.exitCode = 2;
};

const node = findNode();
if (node === undefined) {
  refuse(missingNodeAdvice);
} else if (node !== process.execPath) {
  process.exitCode = await runProcess(node, [fileURLToPath(import.meta.url), ...process.argv.slice(2)], {
    cwd: process.cwd(),
  });
} else {
  try {
    const bundle = inProject('build', 'out', 'cli.mjs');
    if (canBundle()) await ensureBuilt(node, ['node'], 'stderr');
    if (existsSync(bundle)) await import(pathToFileURL(bundle).href);
    else
      refuse(
        'build/out/cli.mjs is missing. Run "npm ci" (with development dependencies) in the project folder.',
      );
  } catch (error) {
    refuse(error instanceof Error ? error.message : String(error));
  }
}

import { existsSync } from 'node:fs';
import { rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build as buildWithEsbuild } from 'esbuild';
import { build as buildWithVite } from 'vite';
import {
  electronBundles,
  externalPackages,
  type NodeBundle,
  nodeBundles,
  rendererEntry,
  requiredEntries,
} from './bundles.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

const isPresent = (entry: string): boolean => {
  if (existsSync(join(root, entry))) return true;
  if (requiredEntries.includes(entry)) throw new Error(`${entry} is missing`);
  console.log(`bundle: ${entry} is not there, skipped`);
  return false;
};

/** CommonJS packages inside an ES module bundle call `require` for Node's own modules. */
const requireBanner =
  "import { createRequire as createRequireForBundle } from 'node:module'; const require = createRequireForBundle(import.meta.url);";

const bundleForNode = async (bundles: readonly NodeBundle[]): Promise<void> => {
  const present = bundles.filter((bundle) => isPresent(bundle.entry));
  await Promise.all(
    present.map(async ({ entry, outFile, format }) => {
      await buildWithEsbuild({
        absWorkingDir: root,
        entryPoints: [entry],
        outfile: outFile,
        bundle: true,
        platform: 'node',
        target: 'node24',
        format,
        external: [...externalPackages],
        banner: format === 'esm' ? { js: requireBanner } : {},
        sourcemap: 'linked',
        legalComments: 'linked',
        logLevel: 'warning',
      });
      console.log(`bundle: ${outFile}`);
    }),
  );
};

const bundleRenderer = async (): Promise<void> => {
  if (!isPresent(rendererEntry)) return;
  const finished = join(root, 'build/out/renderer');
  const draft = join(root, 'build/out/renderer.draft');
  await buildWithVite({
    configFile: join(root, 'build/bundle/vite.config.ts'),
    build: { outDir: draft },
    logLevel: 'warn',
  });
  await rm(finished, { recursive: true, force: true });
  await rename(draft, finished);
  console.log('bundle: build/out/renderer');
};

const tasks = {
  node: () => bundleForNode(nodeBundles),
  electron: () => bundleForNode(electronBundles),
  renderer: bundleRenderer,
};

const isTask = (name: string): name is keyof typeof tasks => Object.hasOwn(tasks, name);

const runTasks = async (names: readonly string[]): Promise<void> => {
  for (const name of names) {
    if (!isTask(name)) throw new Error(`there is no bundle "${name}", only ${Object.keys(tasks).join(', ')}`);
    await tasks[name]();
  }
};

try {
  await runTasks(process.argv.slice(2));
} catch (error) {
  // esbuild has printed its findings by then; vite's are in the message.
  console.error(`bundle: ${error instanceof Error ? error.message : error}`);
  process.exitCode = 1;
}

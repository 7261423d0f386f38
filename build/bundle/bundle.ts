import { rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build as buildWithEsbuild } from 'esbuild';
import { build as buildWithVite } from 'vite';
import { electronBundles, externalPackages, type NodeBundle, nodeBundles } from './bundles.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** CommonJS packages inside an ES module bundle call `require` for Node's own modules. */
const requireBanner =
  "import { createRequire as createRequireForBundle } from 'node:module'; const require = createRequireForBundle(import.meta.url);";

const bundleForNode = async (bundles: readonly NodeBundle[]): Promise<void> => {
  await Promise.all(
    bundles.map(async ({ entry, outFile, format }) => {
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

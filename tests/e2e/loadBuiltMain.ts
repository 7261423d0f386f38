import { registerHooks } from 'node:module';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { compileFunction, constants } from 'node:vm';
import type { ElectronStandIn } from '../electron/electronStandIn.ts';

/** The desktop shell's built main process. */
const mainBundle = fileURLToPath(new URL('../../build/out/electron/main.mjs', import.meta.url));

/** Imports by Node itself, past the test runner, which would resolve and change the bundle's imports. */
const importByNode = compileFunction('return import(address)', ['address'], {
  importModuleDynamically: constants.USE_MAIN_CONTEXT_DEFAULT_LOADER,
}) as (address: string) => Promise<unknown>;

let loads = 0;

const exportLines = (electron: ElectronStandIn): string =>
  Object.keys(electron.main)
    .map((name) => `export const ${name} = stand.${name};`)
    .join('\n');

/**
 * Runs the built main process with its arguments, and a stand-in where it imports `electron`. Each call runs it afresh.
 */
export const loadBuiltMain = async (electron: ElectronStandIn, args: readonly string[]): Promise<void> => {
  loads += 1;
  const key = `electronStandIn${loads}`;
  const address = `stand-in:${key}`;
  const globals = globalThis as unknown as Record<string, unknown>;
  globals[key] = electron.main;
  const hooks = registerHooks({
    resolve: (specifier, context, next) =>
      specifier === 'electron'
        ? { url: address, format: 'module', shortCircuit: true }
        : next(specifier, context),
    load: (url, context, next) =>
      url === address
        ? {
            format: 'module',
            source: `const stand = globalThis.${key};\n${exportLines(electron)}`,
            shortCircuit: true,
          }
        : next(url, context),
  });
  const argv = process.argv;
  process.argv = ['electron', mainBundle, ...args];
  try {
    await importByNode(`${pathToFileURL(mainBundle).href}?${key}`);
  } finally {
    process.argv = argv;
    hooks.deregister();
    delete globals[key];
  }
};

/** One file that esbuild makes: where it starts, where it goes, and in which module format. */
export interface NodeBundle {
  readonly entry: string;
  readonly outFile: string;
  readonly format: 'esm' | 'cjs';
}

/** The bundles that run in Node: the command line, the loopback host and its reading worker. */
export const nodeBundles: readonly NodeBundle[] = [
  { entry: 'src/cli/main.ts', outFile: 'build/out/cli.mjs', format: 'esm' },
  { entry: 'src/host/main.ts', outFile: 'build/out/host.mjs', format: 'esm' },
  { entry: 'src/host/reading/readingWorker.ts', outFile: 'build/out/readingWorker.mjs', format: 'esm' },
];

/** The desktop shell's bundles. A sandboxed preload is loaded as CommonJS. */
export const electronBundles: readonly NodeBundle[] = [
  { entry: 'electron/main/main.ts', outFile: 'build/out/electron/main.mjs', format: 'esm' },
  {
    entry: 'src/host/reading/readingWorker.ts',
    outFile: 'build/out/electron/readingWorker.mjs',
    format: 'esm',
  },
  { entry: 'electron/preload/preload.ts', outFile: 'build/out/electron/preload.cjs', format: 'cjs' },
];

/** The renderer's page, from which vite starts. */
export const rendererEntry = 'renderer/index.html';

/** Packages that stay outside the bundles: native code, pdf.js (it loads its own worker) and Electron itself. */
export const externalPackages: readonly string[] = [
  'better-sqlite3',
  'pdfjs-dist',
  'electron',
  '@napi-rs/canvas',
];

/** Entries that must exist; another is skipped with a line. */
export const requiredEntries: readonly string[] = [
  'src/host/main.ts',
  'src/host/reading/readingWorker.ts',
  'electron/main/main.ts',
  'electron/preload/preload.ts',
  'renderer/index.html',
];

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

/** Packages that stay outside the bundles: native code, pdf.js (it loads its own worker) and Electron itself. */
export const externalPackages: readonly string[] = [
  'better-sqlite3',
  'pdfjs-dist',
  'electron',
  '@napi-rs/canvas',
];

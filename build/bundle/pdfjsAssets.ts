import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type { Plugin } from 'vite';

/** pdf.js's folders of data that it fetches when a page needs them. */
const folders = ['cmaps', 'standard_fonts', 'wasm', 'iccs'] as const;

const pdfjsFolder = (): string => dirname(createRequire(import.meta.url).resolve('pdfjs-dist/package.json'));

/**
 * Puts pdf.js's data beside the renderer, so that nothing is fetched from elsewhere: `pdfjs/cmaps/`,
 * `pdfjs/standard_fonts/`, `pdfjs/wasm/`, `pdfjs/iccs/`. (Its workers come by `new URL(…, import.meta.url)`.)
 */
export const pdfjsAssets = (): Plugin => ({
  name: 'pdfjs-assets',
  apply: 'build',
  generateBundle() {
    const root = pdfjsFolder();
    for (const folder of folders) {
      for (const name of readdirSync(join(root, folder))) {
        this.emitFile({
          type: 'asset',
          fileName: `pdfjs/${folder}/${name}`,
          source: readFileSync(join(root, folder, name)),
        });
      }
    }
  },
});

import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { pdfjsAssets } from './pdfjsAssets.ts';

const inProject = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url));

/** Builds the renderer into files that work from any base address and under a policy without inline code. */
export default defineConfig({
  root: inProject('renderer'),
  base: './',
  cacheDir: inProject('node_modules/.vite'),
  plugins: [react(), pdfjsAssets()],
  worker: { format: 'es' },
  build: {
    outDir: inProject('build/out/renderer'),
    emptyOutDir: true,
    target: 'chrome140',
    // Data addresses would need `data:` in the policy; small fonts and pictures stay files.
    assetsInlineLimit: 0,
    // The polyfill is an inline script in disguise, and every engine we run in preloads modules itself.
    modulePreload: { polyfill: false },
    sourcemap: true,
    chunkSizeWarningLimit: 4000,
  },
});

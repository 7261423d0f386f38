import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** Unit, contract and command-line tests. Tests marked `e2e` drive a real browser and run in their own project. */
export default defineConfig({
  root: fileURLToPath(new URL('../..', import.meta.url)),
  test: {
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
          exclude: ['tests/e2e/**', 'tests/bench/**'],
          testTimeout: 60_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'e2e',
          include: ['tests/e2e/**/*.test.ts'],
          testTimeout: 180_000,
          hookTimeout: 120_000,
          fileParallelism: false,
          // A page takes what it takes on a machine that builds and tests at once.
          expect: { poll: { timeout: 30_000 } },
        },
      },
    ],
  },
});

import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const minuteMs = 60_000;
/** A random campaign at its full count may take half an hour a file. */
const unitTimeoutMs = process.env['FOOTRAIL_CAMPAIGN'] === 'full' ? 30 * minuteMs : minuteMs;

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
          testTimeout: unitTimeoutMs,
          hookTimeout: minuteMs,
        },
      },
      {
        extends: true,
        test: {
          name: 'e2e',
          include: ['tests/e2e/**/*.test.ts'],
          testTimeout: 3 * minuteMs,
          hookTimeout: 2 * minuteMs,
          fileParallelism: false,
          // A page takes what it takes on a machine that builds and tests at once.
          expect: { poll: { timeout: 30_000 } },
        },
      },
    ],
  },
});

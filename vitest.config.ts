import { defineConfig } from 'vitest/config';

const jsx = { jsx: { runtime: 'automatic', importSource: 'preact' } } as const;

/** ms. A slow or busy machine is no failure: a hang is what this ends; speed is measured in tests/bench. */
const PATIENCE = 60_000;

/**
 * Unit and reference tests run in `npm run check`; the long ones (a thousand random networks for each invariant), faults
 * and end-to-end only in `npm test`. Faults and end-to-end need the built program and a Chromium.
 */
export default defineConfig({
  test: {
    projects: [
      {
        oxc: jsx,
        test: {
          name: 'unit',
          include: ['tests/{core,main,reference}/**/*.test.ts', 'tests/layers/**/*.test.ts'],
          environment: 'node',
          // What these files test keeps no state between calls but what it may remember; a third of the time was importing it again.
          isolate: false,
          testTimeout: PATIENCE,
        },
      },
      {
        oxc: jsx,
        test: {
          name: 'renderer',
          include: ['tests/renderer/**/*.test.{ts,tsx}'],
          environment: 'happy-dom',
          testTimeout: PATIENCE,
        },
      },
      { oxc: jsx, test: { name: 'long', include: ['tests/long/**/*.test.ts'], environment: 'node', testTimeout: PATIENCE * 5 } },
      {
        oxc: jsx,
        test: {
          name: 'faults',
          include: ['tests/faults/**/*.test.ts'],
          environment: 'node',
          testTimeout: 120_000,
          hookTimeout: 60_000,
          sequence: { groupOrder: 1 },
        },
      },
      {
        oxc: jsx,
        test: {
          name: 'e2e',
          include: ['tests/e2e/**/*.test.ts'],
          environment: 'node',
          testTimeout: 60_000,
          hookTimeout: 120_000,
          expect: { poll: { timeout: 15_000 } },
          fileParallelism: false,
          sequence: { groupOrder: 2 },
        },
      },
    ],
  },
});

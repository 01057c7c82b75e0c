import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';
import { temporaryInMemory } from './tests/in-memory.ts';

const jsx = { jsx: { runtime: 'automatic', importSource: 'preact' } } as const;

/** ms. A slow or busy machine is no failure: a hang is what this ends; speed is measured in tests/bench. */
const PATIENCE = 60_000;

const setupFiles = ['tests/seed.ts'];

const patient = { poll: { timeout: PATIENCE } };

const inBrowser = {
  environment: 'node',
  testTimeout: PATIENCE * 6,
  hookTimeout: PATIENCE * 2,
  expect: patient,
} as const;

/** Files that measure the window's speed: one at a time, with nothing beside them. */
const MEASURED = ['tests/e2e/{long-route,quick-window}.test.ts'];

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
          setupFiles,
          // What these files test keeps no state between calls but what it may remember; a third of the time was importing it again.
          isolate: false,
          env: temporaryInMemory(),
          testTimeout: PATIENCE,
        },
      },
      {
        oxc: jsx,
        test: {
          name: 'renderer',
          include: ['tests/renderer/**/*.test.{ts,tsx}'],
          environment: 'happy-dom',
          setupFiles: [...setupFiles, 'tests/renderer/setup.ts'],
          isolate: false,
          env: temporaryInMemory(),
          testTimeout: PATIENCE,
        },
      },
      {
        oxc: jsx,
        test: {
          name: 'long',
          include: ['tests/long/**/*.test.ts'],
          environment: 'node',
          setupFiles,
          testTimeout: PATIENCE * 5,
        },
      },
      {
        oxc: jsx,
        test: {
          name: 'faults',
          include: ['tests/faults/**/*.test.ts'],
          environment: 'node',
          setupFiles,
          testTimeout: PATIENCE * 5,
          hookTimeout: PATIENCE * 2,
          expect: patient,
          sequence: { groupOrder: 1 },
        },
      },
      {
        oxc: jsx,
        test: {
          name: 'e2e',
          include: ['tests/e2e/**/*.test.ts'],
          exclude: MEASURED,
          ...inBrowser,
          // A browser beside another: while one waits for its host, its disk or its next frame, the other goes on.
          maxWorkers: Math.max(2, Math.floor(availableParallelism() / 2)),
          sequence: { groupOrder: 2 },
        },
      },
      {
        oxc: jsx,
        test: { name: 'measured', include: MEASURED, ...inBrowser, fileParallelism: false, sequence: { groupOrder: 3 } },
      },
    ],
  },
});

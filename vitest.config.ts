import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

/** Tests of pure code: nothing that one file leaves behind can reach another, so they share what is imported. */
const PURE = ['tests/{keying,outside,fuzz,plans}/**/*.test.ts'];

export default defineConfig({
  test: {
    testTimeout: 20_000,
    // left to itself Vitest keeps one core free, and two is all that many machines have
    maxWorkers: Math.max(2, availableParallelism() - 1),
    projects: [
      { extends: true, test: { name: 'pure', include: PURE, isolate: false } },
      {
        extends: true,
        test: {
          name: 'host',
          include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
          exclude: [...PURE, 'tests/browser/**', 'node_modules/**'],
        },
      },
    ],
  },
});

import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    exclude: ['tests/browser/**', 'node_modules/**'],
    testTimeout: 20_000,
    // left to itself Vitest keeps one core free, and two is all that many machines have
    maxWorkers: Math.max(2, availableParallelism() - 1),
  },
});

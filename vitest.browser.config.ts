import { defineConfig } from 'vitest/config';

/** The whole job in real Chromium, against the built files: run after both builds. */
export default defineConfig({
  test: {
    include: ['tests/browser/**/*.test.ts'],
    testTimeout: 180_000,
    hookTimeout: 120_000,
    maxWorkers: 2,
  },
});

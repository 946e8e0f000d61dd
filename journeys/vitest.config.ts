import { defineConfig } from 'vitest/config';

/** The journeys run on the built page and command line, in a real browser; one at a time, for they share two cores. */
export default defineConfig({
  test: {
    include: ['journeys/**/*.test.ts'],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    fileParallelism: false,
  },
});

import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  resolve: {
    // Tests run on the sources, so that a failing line is the line one edits.
    alias: [
      {
        find: /^@fettle\/([a-z]+)$/,
        replacement: fileURLToPath(new URL('./packages/$1/src/index.ts', import.meta.url)),
      },
    ],
  },
  test: {
    include: ['packages/*/src/**/*.test.ts', 'conformance/**/*.test.ts', 'scripts/**/*.test.mjs'],
    testTimeout: 60_000,
  },
});

// `npm run journeys`: builds command line and page, then walks through the page in Chromium.
import { join } from 'node:path';
import { nodeStatus, ROOT, ready } from './setup.mjs';

const STEPS = [
  [join(ROOT, 'node_modules/typescript/bin/tsc'), '-b', 'packages/cli', 'packages/web'],
  [join(ROOT, 'node_modules/vite/bin/vite.js'), 'build', 'packages/web', '--logLevel', 'warn'],
  [join(ROOT, 'node_modules/vitest/vitest.mjs'), 'run', '--config', 'journeys/vitest.config.ts'],
];

/** The first step that fails decides. */
function walked() {
  for (const args of STEPS) {
    const status = nodeStatus(args);
    if (status !== 0) return status;
  }
  return 0;
}

process.exitCode = ready() ? walked() : 1;

// `npm run journeys`: builds command line and page, then walks through the page in Chromium; `npm test` does so too.
import { join } from 'node:path';
import { buildStatus, nodeStatus, ROOT, ready, testProgramsWanted } from './setup.mjs';

const WALK = [join(ROOT, 'node_modules/vitest/vitest.mjs'), 'run', '--config', 'journeys/vitest.config.ts'];

function walked() {
  testProgramsWanted();
  return buildStatus() || nodeStatus(WALK);
}

process.exitCode = ready() ? walked() : 1;

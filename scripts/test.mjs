// `npm test`: the checks, then every test, the walks in the browser last, then one plain line with the count of all.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { checked, reportText } from './check/checks.mjs';
import { buildStatus, nodeStatus, ROOT, ready, testProgramsWanted } from './setup.mjs';
import { allAreas, areaLines, areasOf, closingLine, totalOf } from './test/tally.mjs';

/** What vitest wrote; a report that is missing or cut short is one in which nothing ran. */
function reportIn(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return { testResults: [] };
  }
}

/** Runs the tests of one vitest config: what vitest reports, and whether it ended well. */
function testRun(config) {
  const folder = mkdtempSync(join(tmpdir(), 'fettle-test-'));
  const file = join(folder, 'report.json');
  try {
    const status = nodeStatus([
      join(ROOT, 'node_modules/vitest/vitest.mjs'),
      'run',
      '--config',
      config,
      '--reporter=default',
      '--reporter=json',
      `--outputFile.json=${file}`,
    ]);
    return { status, report: reportIn(file) };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The tests on the sources, then the walks through the built page; a page that cannot be built is walked by nobody. */
function testRuns() {
  const sources = testRun('vitest.config.ts');
  const built = buildStatus();
  const walks =
    built === 0 ? testRun('journeys/vitest.config.ts') : { status: built, report: { testResults: [] } };
  return [sources, walks];
}

function finish(areas) {
  const total = totalOf(areas);
  for (const line of areaLines(areas)) console.log(line);
  console.log(closingLine(total));
  process.exitCode = total.failed > 0 || total.passed === 0 ? 1 : 0;
}

if (!ready()) finish(new Map([['install', { passed: 0, failed: 1, skipped: 0 }]]));
else {
  testProgramsWanted();
  const checks = await checked(ROOT, (result) => console.log(reportText(result)));
  const runs = testRuns().map(({ status, report }) => ({
    status,
    areas: areasOf(report, (path) => relative(ROOT, path)),
  }));
  finish(allAreas(checks, runs));
}

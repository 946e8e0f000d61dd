// `npm test`: the checks, then every test, then one plain line with the count of both.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { checked, reportText } from './check/checks.mjs';
import { nodeStatus, popplerWanted, ROOT, ready } from './setup.mjs';
import { allAreas, areaLines, areasOf, closingLine, totalOf } from './test/tally.mjs';

/** What vitest wrote; a report that is missing or cut short is one in which nothing ran. */
function reportIn(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return { testResults: [] };
  }
}

/** Runs the tests: what vitest reports, and whether it ended well. */
function testRun() {
  const folder = mkdtempSync(join(tmpdir(), 'fettle-test-'));
  const file = join(folder, 'report.json');
  try {
    const status = nodeStatus([
      join(ROOT, 'node_modules/vitest/vitest.mjs'),
      'run',
      '--reporter=default',
      '--reporter=json',
      `--outputFile.json=${file}`,
    ]);
    return { status, report: reportIn(file) };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function finish(areas) {
  const total = totalOf(areas);
  for (const line of areaLines(areas)) console.log(line);
  console.log(closingLine(total));
  process.exitCode = total.failed > 0 || total.passed === 0 ? 1 : 0;
}

if (!ready()) finish(new Map([['install', { passed: 0, failed: 1, skipped: 0 }]]));
else {
  popplerWanted();
  const checks = await checked(ROOT, (result) => console.log(reportText(result)));
  const { status, report } = testRun();
  finish(
    allAreas(
      checks,
      areasOf(report, (path) => relative(ROOT, path)),
      status,
    ),
  );
}

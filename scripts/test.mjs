// `npm test`: the checks, then every test, then one plain line with the count of both.
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { checked, reportText } from './check/checks.mjs';
import { nodeStatus, ROOT, ready } from './setup.mjs';
import { areaLines, areasOf, closingLine, totalOf } from './test/tally.mjs';

/** Runs the tests: what vitest reports, and whether it ended well. */
function testRun() {
  const folder = mkdtempSync(join(tmpdir(), 'fettle-test-'));
  const file = join(folder, 'report.json');
  try {
    const { status } = nodeStatus([
      join(ROOT, 'node_modules/vitest/vitest.mjs'),
      'run',
      '--reporter=default',
      '--reporter=json',
      `--outputFile.json=${file}`,
    ]);
    return {
      status,
      report: existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : { testResults: [] },
    };
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
  const checks = await checked(ROOT, (result) => console.log(reportText(result)));
  const faulty = checks.filter(({ faults }) => faults.length > 0).length;
  const areas = new Map([['check', { passed: checks.length - faulty, failed: faulty, skipped: 0 }]]);

  const { status, report } = testRun();
  const tests = areasOf(report, (path) => relative(ROOT, path));
  for (const [name, area] of tests) areas.set(name, area);
  const { passed, failed } = totalOf(tests);
  // An error outside any test, a crash, or no test at all is a failure too, though no test names it.
  if (failed === 0 && (status !== 0 || passed === 0)) {
    console.error(passed === 0 ? 'No test ran.' : `The test run ended with ${status} though no test failed.`);
    areas.set('test run', { passed: 0, failed: 1, skipped: 0 });
  }
  finish(areas);
}

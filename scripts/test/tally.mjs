// Counting what ran: by area, and in all. A file that could not be loaded counts as one failure.
import { posix } from 'node:path';

/** `core`, `book`, … for packages; the first folder for the rest. */
function areaOf(path) {
  const parts = path.split(posix.sep);
  return parts[0] === 'packages' ? (parts[1] ?? 'packages') : (parts[0] ?? path);
}

const empty = () => ({ passed: 0, failed: 0, skipped: 0 });

/** Counts by area of vitest's JSON report; `relative` makes a path relative to the house. */
export function areasOf(report, relative) {
  const areas = new Map();
  for (const file of report.testResults) {
    const name = areaOf(relative(file.name).replaceAll('\\', '/'));
    const area = areas.get(name) ?? empty();
    areas.set(name, area);
    for (const { status } of file.assertionResults)
      area[status === 'passed' || status === 'failed' ? status : 'skipped']++;
    const loaded =
      file.assertionResults.some(({ status }) => status === 'failed') || file.status === 'passed';
    if (!loaded) area.failed++;
  }
  return areas;
}

export function totalOf(areas) {
  const total = empty();
  for (const area of areas.values()) for (const key of Object.keys(total)) total[key] += area[key];
  return total;
}

/**
 * Checks and tests together. An error outside any test, a crash, or a run of no test at all is a failure too, though
 * no test names it.
 *
 * @param runs  each with its areas and the status with which it ended
 */
export function allAreas(checks, runs) {
  const failed = checks.filter(({ faults }) => faults.length > 0).length;
  const areas = new Map([['check', { passed: checks.length - failed, failed, skipped: 0 }]]);
  for (const { areas: tests, status } of runs) {
    for (const [name, count] of tests) {
      const before = areas.get(name) ?? empty();
      areas.set(name, Object.fromEntries(Object.keys(before).map((key) => [key, before[key] + count[key]])));
    }
    const total = totalOf(tests);
    if (total.failed > 0 || (status === 0 && total.passed > 0)) continue;
    const broken = areas.get('test run') ?? empty();
    areas.set('test run', { ...broken, failed: broken.failed + 1 });
  }
  return areas;
}

/** One line an area, worded so that only the closing line says how many passed. */
export function areaLines(areas) {
  return [...areas].map(([name, { passed, failed, skipped }]) => {
    const all = `${name.padEnd(12)} ${passed} of ${passed + failed} good`;
    return skipped === 0 ? all : `${all}, ${skipped} skipped`;
  });
}

export const closingLine = ({ passed, failed }) => `${passed} passed, ${failed} failed`;

import { expect, it } from 'vitest';
import { nodeIsNewEnough } from '../setup.mjs';
import { areaLines, areasOf, closingLine, totalOf } from './tally.mjs';

const file = (name, status, ...statuses) => ({
  name,
  status,
  assertionResults: statuses.map((one) => ({ status: one })),
});

it('counts by area, and a file that could not be loaded as one failure', () => {
  const areas = areasOf(
    {
      testResults: [
        file('packages/core/src/a.test.ts', 'passed', 'passed', 'passed', 'skipped'),
        file('packages/core/src/b.test.ts', 'failed'),
        file('conformance/c.test.ts', 'failed', 'passed', 'failed'),
        file('conformance/d.test.ts', 'failed', 'passed'),
      ],
    },
    (path) => path,
  );
  expect(areas.get('core')).toEqual({ passed: 2, failed: 1, skipped: 1 });
  expect(areas.get('conformance')).toEqual({ passed: 2, failed: 2, skipped: 0 });
  expect(closingLine(totalOf(areas))).toBe('4 passed, 3 failed');
  expect(areaLines(areas)).toEqual(['core         2 of 3 good, 1 skipped', 'conformance  2 of 4 good']);
});

it('knows which Node is new enough', () => {
  expect(['18.20.0', '20.18.9', '20.19.0', '20.20.2', '24.0.0'].map(nodeIsNewEnough)).toEqual([
    false,
    false,
    true,
    true,
    true,
  ]);
});

import { expect, it } from 'vitest';
import { nodeIsNewEnough } from '../setup.mjs';
import { allAreas, areaLines, areasOf, closingLine, totalOf } from './tally.mjs';

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

it('a run that breaks off, or that runs nothing, fails though no test does', () => {
  const checks = [{ faults: [] }, { faults: ['a.ts:1 x'] }];
  const tests = new Map([['core', { passed: 3, failed: 0, skipped: 0 }]]);
  const counted = (...runs) => closingLine(totalOf(allAreas(checks, runs)));
  expect(counted({ areas: tests, status: 0 })).toBe('4 passed, 1 failed');
  expect(counted({ areas: tests, status: 1 })).toBe('4 passed, 2 failed');
  expect(counted({ areas: new Map(), status: 0 })).toBe('1 passed, 2 failed');
  // A good run before does not hide one that broke off, nor two that did each other.
  expect(counted({ areas: tests, status: 0 }, { areas: new Map(), status: 1 })).toBe('4 passed, 2 failed');
  expect(counted({ areas: new Map(), status: 1 }, { areas: new Map(), status: 1 })).toBe(
    '1 passed, 3 failed',
  );
});

it('adds up the areas of several runs', () => {
  const run = (passed) => ({ areas: new Map([['core', { passed, failed: 0, skipped: 1 }]]), status: 0 });
  expect(allAreas([], [run(3), run(4)]).get('core')).toEqual({ passed: 7, failed: 0, skipped: 2 });
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

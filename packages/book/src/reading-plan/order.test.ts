import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type Goal, lateness, orderOf, type SetUps, type Task, timed } from './order.ts';

const FREE: SetUps = { tool: () => 0, part: 0 };
const DEAR: SetUps = { tool: (tool) => (tool === 'a' ? 8 : 3), part: 2 };

function* permutations(items: readonly number[]): Generator<number[]> {
  if (items.length === 0) yield [];
  for (const [i, one] of items.entries())
    for (const rest of permutations([...items.slice(0, i), ...items.slice(i + 1)])) yield [one, ...rest];
}

/** The least lateness of any order, by trying every one. */
const least = (tasks: readonly Task[], goals: readonly Goal[], setUps: SetUps): number =>
  Math.min(
    ...[...permutations(tasks.map((_, i) => i))].map((order) =>
      lateness(timed(order, tasks, goals, setUps), goals),
    ),
  );

const task = (minutes: number, tool = 'a', part = 'p'): Task => ({ minutes, tool, part });

it('takes the most worth a minute first where nothing has to be set up', () => {
  // Worth a minute: 1/4, 6/3, 2/2, 5/1.
  const tasks = [task(4), task(3), task(2), task(1)];
  const goals = [1, 6, 2, 5].map((worth, i) => ({ needs: [i], worth }));
  expect(orderOf(tasks, goals, FREE).map((one) => one.task)).toEqual([3, 1, 2, 0]);
});

it('keeps an instrument in hand while what it decides is worth it, and says when each thing is decided', () => {
  const tasks = [task(1, 'a', 'p'), task(1, 'b', 'p'), task(1, 'a', 'p')];
  const goals = [0, 1, 2].map((i) => ({ needs: [i], worth: 1 }));
  const plan = orderOf(tasks, goals, DEAR);
  // b: 3 + 2 + 1 = 6; a: 8 + 1 = 15, and 16: 37 in all. With a first: 11, 12, 16 makes 39.
  expect(plan.map(({ task, at }) => [task, at])).toEqual([
    [1, 6],
    [0, 15],
    [2, 16],
  ]);
  expect(plan.map(({ meets }) => meets)).toEqual([[1], [0], [2]]);
});

it('reads all that one verdict needs before another is begun, and nothing that decides nothing', () => {
  const tasks = [task(1), task(1), task(1), task(1), task(1)];
  const goals = [
    { needs: [0, 2], worth: 3 },
    { needs: [1, 3], worth: 2 },
    { needs: [4], worth: 0 },
  ];
  expect(orderOf(tasks, goals, FREE).map((one) => one.task)).toEqual([0, 2, 1, 3]);
});

const cases = fc
  .array(
    fc.record({
      minutes: fc.integer({ min: 1, max: 6 }),
      tool: fc.constantFrom('a', 'b', 'c'),
      part: fc.constantFrom('p', 'q'),
    }),
    { minLength: 2, maxLength: 6 },
  )
  .chain((tasks) =>
    fc.tuple(
      fc.constant(tasks),
      fc.array(
        fc.record({
          needs: fc.uniqueArray(fc.integer({ min: 0, max: tasks.length - 1 }), {
            minLength: 1,
            maxLength: 3,
          }),
          worth: fc.integer({ min: 1, max: 9 }),
        }),
        { minLength: 1, maxLength: 5 },
      ),
    ),
  );

it('is the best of all orders without set-ups and shared readings', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 })), {
        minLength: 1,
        maxLength: 6,
      }),
      (rows) => {
        const tasks = rows.map(([minutes]) => task(minutes));
        const goals = rows.map(([, worth], i) => ({ needs: [i], worth }));
        expect(lateness(orderOf(tasks, goals, FREE), goals)).toBeCloseTo(least(tasks, goals, FREE), 9);
      },
    ),
  );
});

it('is never far from the best of all orders, each of which was tried', () => {
  const ratios: number[] = [];
  fc.assert(
    fc.property(cases, ([tasks, goals]) => {
      const ratio = lateness(orderOf(tasks, goals, DEAR), goals) / least(tasks, goals, DEAR);
      ratios.push(ratio);
      expect(ratio).toBeGreaterThan(1 - 1e-9);
      expect(ratio).toBeLessThan(1.25);
    }),
    { numRuns: 150 },
  );
  expect(ratios.reduce((sum, one) => sum + one, 0) / ratios.length).toBeLessThan(1.02);
});

it('takes every reading that something waits for once, whatever is asked', () => {
  fc.assert(
    fc.property(cases, ([tasks, goals]) => {
      const plan = orderOf(tasks, goals, DEAR);
      expect(plan.map((one) => one.task).sort((a, b) => a - b)).toEqual(
        [...new Set(goals.flatMap(({ needs }) => needs))].sort((a, b) => a - b),
      );
      expect(plan.flatMap(({ meets }) => meets).length).toBe(goals.length);
      expect(orderOf(tasks, goals, DEAR)).toEqual(plan);
    }),
  );
});

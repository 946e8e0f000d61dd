import { expect, it } from 'vitest';
import { daysOf, finishDays } from './lead-time.ts';

it('reads a time as people say it', () => {
  expect(daysOf('2 weeks')).toBe(14);
  expect(daysOf('10 days')).toBe(10);
  expect(daysOf('1d')).toBe(1);
  expect(daysOf('0 days')).toBe(0);
  expect(daysOf('seven weeks, before the summer round')).toBe(49);
  expect(daysOf('a week')).toBe(7);
  expect(daysOf('1.5 weeks')).toBe(10.5);
});

it.each(['', 'soon', '2', '2 decades', 'weeks', 'some weeks', '-2 weeks', '3 daylight'])(
  'does not guess at "%s"',
  (text) => expect(daysOf(text)).toBeUndefined(),
);

it('puts what is needed before, and all else side by side', () => {
  const days = finishDays([
    { id: 'grind', days: 14, needs: [] },
    { id: 'shells', days: 7, needs: ['grind'] },
    { id: 'bushes', days: 3, needs: [] },
    { id: 'reaming', days: 1, needs: ['bushes', 'shells'] },
  ]);
  expect(Object.fromEntries(days)).toEqual({ grind: 14, shells: 21, bushes: 3, reaming: 22 });
});

it('a circle begins together, after all that it needs', () => {
  const days = finishDays([
    { id: 'a', days: 2, needs: ['b'] },
    { id: 'b', days: 3, needs: ['a', 'c'] },
    { id: 'c', days: 4, needs: ['not on offer'] },
  ]);
  expect(Object.fromEntries(days)).toEqual({ a: 6, b: 7, c: 4 });
});

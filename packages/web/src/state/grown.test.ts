import type { Entry } from '@fettle/book';
import { expect, it } from 'vitest';
import { grewByReadings } from './grown.ts';

const entry = (id: string, kind: string) => ({ id, kind }) as Entry;
const had = [entry('a', 'job-opened'), entry('b', 'reading')];

it('is so for a reading more, or one struck', () => {
  expect(grewByReadings(had, [...had, entry('c', 'reading')])).toBe(true);
  expect(grewByReadings(had, [...had, entry('c', 'strike'), entry('d', 'reading')])).toBe(true);
});

it('is not for anything else that was added, nor for another job, nor for what is the same', () => {
  expect(grewByReadings(had, [...had, entry('c', 'part-fitted')])).toBe(false);
  expect(grewByReadings([], had)).toBe(false);
  expect(grewByReadings(had, [entry('x', 'reading'), entry('y', 'reading'), entry('z', 'reading')])).toBe(
    false,
  );
  expect(grewByReadings(had, had)).toBe(false);
});

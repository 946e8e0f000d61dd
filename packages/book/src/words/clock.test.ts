import { expect, it } from 'vitest';
import { isZone, momentWords, spanWords } from './clock.ts';

const MINUTE = 60_000;

it('says a span in two units at the most', () => {
  expect([0, 25, 60, 1240, 1439.9, 4560].map((minutes) => spanWords(minutes * MINUTE))).toEqual([
    '0 min',
    '25 min',
    '1 h',
    '20 h 40 min',
    '1 day',
    '3 days 4 h',
  ]);
});

it('says a moment by the clock of a place, and whose clock it is where none was named', () => {
  const eight = Date.parse('2026-01-06T08:00:00Z');
  expect(momentWords(eight)).toBe('Tue 6 Jan 2026, 08:00 UTC');
  // By hand: half past one in the afternoon where the clock is five and a half hours ahead.
  expect(momentWords(eight, 'Asia/Kolkata')).toBe('Tue 6 Jan 2026, 13:30');
  expect([isZone('Asia/Kolkata'), isZone('nowhere/at all')]).toEqual([true, false]);
});

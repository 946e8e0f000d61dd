import type { Book, Stair } from '@fettle/book';
import { exact } from '@fettle/core';
import { expect, it } from 'vitest';
import { stairChart } from './stair-chart.ts';

const BOOK = { sheet: undefined } as unknown as Book;
const IDLE = { speed: 62.8, temperature: 366 };

const tread = (repair: string, share: number, lifted = false) => ({
  repair,
  share: exact(share),
  error: 0,
  with: 60_000,
  lifted,
  measured: true,
});

const stairOf = (treads: Stair['treads'], now: number): Stair => ({
  asNew: 100_000,
  now,
  asFound: 50_000,
  treads,
  exact: true,
  doubted: false,
});

it('prints treads that add up to the difference of the printed pressures', () => {
  // Each would be 16.7 alone; three of those are 50.1.
  const third = 50_000 / 3;
  const whole = stairOf(
    ['a', 'b', 'c'].map((id) => tread(id, third)),
    50_000,
  );
  const { treads, asNew, now } = stairChart(BOOK, IDLE, whole, whole);
  expect([asNew.text, now.text]).toEqual(['100.0 kPa', '50.0 kPa']);
  const printed = treads.map(({ text }) => Number(text.replace('−', '')));
  expect(printed.reduce((sum, one) => sum + one, 0)).toBeCloseTo(50, 9);
  expect([...printed].sort()).toEqual([16.6, 16.7, 16.7]);
});

it('keeps every tread in its place when one is lifted, and says so in its stead', () => {
  const whole = stairOf([tread('small', 10_000), tread('great', 40_000)], 50_000);
  const now = stairOf([tread('small', 15_000), tread('great', 0, true)], 85_000);
  const chart = stairChart(BOOK, IDLE, whole, now);
  expect(chart.treads.map(({ id, text, lifted }) => [id, text, lifted])).toEqual([
    ['great', 'lifted', true],
    ['small', '−15.0', false],
  ]);
  expect(chart.treads[0]).toMatchObject({ carried: 40 });
  expect(chart.now.name).toBe('1 lifted');
});

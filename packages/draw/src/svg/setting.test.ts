import fc from 'fast-check';
import { expect, it } from 'vitest';
import { escaped } from './escaped.ts';
import { niceTicks } from './nice-ticks.ts';
import { spread } from './spread.ts';
import { balanced, textWidth, wrapped } from './text-width.ts';

it('divides a scale into steps of 1, 2 or 5', () => {
  expect(niceTicks(0, 10, 5)).toEqual([0, 2, 4, 6, 8, 10]);
  expect(niceTicks(0, 3700, 8)).toEqual([0, 500, 1000, 1500, 2000, 2500, 3000, 3500]);
  expect(niceTicks(-0.1, 0.3, 4)).toEqual([-0.1, 0, 0.1, 0.2, 0.3]);
  expect(niceTicks(2, 2)).toEqual([2]);
  expect(niceTicks(Number.NaN, 1)).toEqual([]);
  expect(niceTicks(1, 0)).toEqual([]);
  expect(niceTicks(1e300, 1.0000000000000002e300)).toEqual([]);
});

it('keeps ticks within the scale, rising, and about as many as wanted', () => {
  const end = fc.double({ min: -1e9, max: 1e9, noNaN: true });
  fc.assert(
    fc.property(end, end, fc.integer({ min: 1, max: 12 }), (a, b, count) => {
      const [least, most] = [Math.min(a, b), Math.max(a, b)];
      fc.pre(most - least > 1e-80 && most - least > 1e-6 * Math.max(Math.abs(least), Math.abs(most)));
      const ticks = niceTicks(least, most, count);
      const slack = (most - least) * 1e-6;
      expect(ticks.length).toBeLessThanOrEqual(2 * count + 1);
      ticks.forEach((tick, i) => {
        expect(tick).toBeGreaterThanOrEqual(least - slack);
        expect(tick).toBeLessThanOrEqual(most + slack);
        if (i > 0) expect(tick).toBeGreaterThan(ticks[i - 1]!);
      });
    }),
  );
});

it('keeps labels off one another where there is room, and in their order', () => {
  const label = fc.record({
    x: fc.double({ min: 0, max: 1000, noNaN: true }),
    width: fc.double({ min: 1, max: 90, noNaN: true }),
  });
  fc.assert(
    fc.property(fc.array(label, { minLength: 1, maxLength: 8 }), (given) => {
      const labels = given.toSorted((one, other) => one.x - other.x);
      const places = spread(labels, 0, 1000, 5);
      places.forEach((place, i) => {
        const { width } = labels[i]!;
        expect(place - width / 2).toBeGreaterThanOrEqual(-1e-6);
        expect(place + width / 2).toBeLessThanOrEqual(1000 + 1e-6);
        if (i > 0)
          expect(place - width / 2).toBeGreaterThanOrEqual(
            places[i - 1]! + labels[i - 1]!.width / 2 + 5 - 1e-6,
          );
      });
    }),
  );
});

it('breaks lines between words and loses none', () => {
  fc.assert(
    fc.property(
      fc.array(fc.stringMatching(/^[a-z]{1,9}$/), { maxLength: 30 }),
      fc.integer({ min: 20, max: 400 }),
      (words, width) => {
        for (const set of [wrapped, balanced]) {
          const lines = set(words.join(' '), 10, width);
          expect(lines.join(' ')).toBe(words.join(' '));
          for (const line of lines)
            if (line.includes(' ')) expect(textWidth(line, 10)).toBeLessThanOrEqual(width);
        }
        expect(balanced(words.join(' '), 10, width)).toHaveLength(wrapped(words.join(' '), 10, width).length);
      },
    ),
  );
});

it('escapes the five characters of XML and drops what XML forbids', () => {
  expect(escaped(`<a b="c" d='e'>&`)).toBe('&lt;a b=&quot;c&quot; d=&#39;e&#39;&gt;&amp;');
  expect(escaped('a\u0000b\u001fc\ud800d\uffff')).toBe('abcd');
  expect(escaped('5 \u00b5m')).toBe('5 \u03bcm');
  expect(escaped('\u{1f527}')).toBe('\u{1f527}');
});

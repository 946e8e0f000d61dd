import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type OrbitChart, orbitSvg } from './orbit.ts';
import type { Picture } from './svg/picture.ts';

const DESK: Picture = { title: 'A path', desc: 'Where the journal goes.', width: 800, profile: 'desk' };
const turn = (size: number, count = 36) =>
  Array.from({ length: count }, (_, i) => {
    const angle = (2 * Math.PI * i) / count;
    return [size * Math.cos(angle), size * Math.sin(angle)] as const;
  });
const chart: OrbitChart = {
  path: {
    name: 'Path of the journal',
    points: turn(0.5),
    most: { index: 9, text: 'least film 5.0 µm at 90°' },
    marks: [{ index: 0, text: '0°' }],
  },
  load: {
    name: 'Load on the journal',
    points: turn(12_000),
    most: { index: 0, text: 'greatest 12.0 kN at 0°' },
  },
};
const numbers = (text: string, pattern: RegExp): number[] => (pattern.exec(text) ?? []).slice(1).map(Number);
const CIRCLE = /data-mark="clearance" cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)"/;

it('draws the path inside its circle to scale, x up and y to the right', () => {
  const drawn = orbitSvg(chart, DESK);
  const [cx, cy, r] = numbers(drawn, CIRCLE);
  const [x0, y0] = numbers(drawn, /data-mark="curve"><polygon points="([\d.]+),([\d.]+) /);
  expect(x0).toBeCloseTo(cx!, 1);
  expect(y0).toBeCloseTo(cy! - 0.5 * r!, 1);
  // A quarter later it lies to the right, which is where its least film is marked.
  const [mx, my] = numbers(drawn, /data-mark="most" cx="([\d.]+)" cy="([\d.]+)"/);
  expect(mx).toBeCloseTo(cx! + 0.5 * r!, 1);
  expect(my).toBeCloseTo(cy!, 1);
});

it('scales the load to its own greatest, whatever its unit', () => {
  const in12 = orbitSvg(chart, DESK);
  const small = { ...chart, load: { ...chart.load!, points: turn(12) } };
  expect(orbitSvg(small, DESK)).toBe(in12);
});

it('puts the load under the path where there is little room, and leaves out what is not there', () => {
  const height = (drawn: string): number => numbers(drawn, /viewBox="0 0 [\d.]+ ([\d.]+)"/)[0]!;
  const phone = { ...DESK, width: 358, profile: 'phone' } as const;
  expect(height(orbitSvg(chart, phone))).toBeGreaterThan(1.7 * height(orbitSvg({ path: chart.path }, phone)));
  expect(orbitSvg({ path: { name: '', points: [] } }, DESK)).not.toMatch(/polygon|most/);
});

it('never draws what is no number, keeps within its width, and says its words escaped', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.double({ min: -1, max: 1 }), fc.double({ min: -1, max: 1 })), { maxLength: 12 }),
      fc.string({ unit: 'binary' }),
      fc.integer({ min: 100, max: 1400 }),
      (points, word, width) => {
        const curve = {
          name: word,
          points,
          most: { index: 0, text: word },
          marks: [{ index: 1, text: word }],
        };
        const drawn = orbitSvg({ path: curve, load: curve }, { ...DESK, width, title: word });
        expect(drawn).not.toMatch(/NaN|Infinity|undefined|<script/);
        expect(drawn.match(/<svg/g)).toHaveLength(1);
        for (const [, x] of drawn.matchAll(/cx="(-?[\d.]+)"/g)) expect(Number(x)).toBeGreaterThanOrEqual(0);
      },
    ),
    // A load so small that one over it is beyond numbers.
    { examples: [[[[0, 5e-324]], '', 100]] },
  );
});

it('uses plain greys on paper and only the page’s inks on screen', () => {
  const colours = (drawn: string) =>
    [...drawn.matchAll(/ (?:fill|stroke)="([^"]*)"/g)].map(([, one]) => one!);
  for (const colour of colours(orbitSvg(chart, { ...DESK, paper: true })))
    expect(colour).toMatch(/^(none|#(\w\w)\2\2)$/);
  for (const colour of colours(orbitSvg(chart, DESK)))
    expect(colour).toMatch(/^(none|var\(--[a-z-]+, #\w+\))$/);
});

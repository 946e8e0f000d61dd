import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type FaceMapSpot, faceMapSvg, grooveRingSvg, type Picture, springLineSvg } from './index.ts';

const DESK: Picture = { title: 'A picture', desc: 'What it says.', width: 700, profile: 'desk' };
const words = { high: 'high', low: 'low', missing: 'not probed' };
const numbers = (text: string, name: string): number[] =>
  [...text.matchAll(new RegExp(` ${name}="([^"]*)"`, 'g'))].map(([, value]) => Number(value));

const grid = (height: (x: number, y: number) => number): FaceMapSpot[] =>
  [0, 1, 2].flatMap((y) =>
    [0, 1, 2, 3].map((x) => ({ name: `${x}/${y}`, x, y, above: height(x, y), text: `${height(x, y)}` })),
  );

it('a face of which every crossing is probed is tinted between its spots; a rim of spots is not', () => {
  const whole = faceMapSvg({ spots: grid((x) => x), zone: 3, steps: [], words }, DESK);
  expect(whole).toContain('data-mark="tints"');
  const rim = grid((x) => x).filter(({ x, y }) => x === 0 || x === 3 || y === 0 || y === 2);
  const around = faceMapSvg({ spots: rim, zone: 3, steps: [], words }, DESK);
  expect(around).not.toContain('data-mark="tints"');
  expect(around.match(/data-spot="probed"/g)).toHaveLength(rim.length);
});

it('contours of a face that rises evenly along stand upright, one at each fifth', () => {
  const drawn = faceMapSvg({ spots: grid((x) => x), zone: 3, steps: [], words }, DESK);
  const lines = [...drawn.matchAll(/<line x1="([\d.]+)" y1="[\d.]+" x2="([\d.]+)" y2="[\d.]+"/g)];
  const places = new Set(lines.map(([, from]) => from));
  for (const [, from, to] of lines) expect(Number(from)).toBeCloseTo(Number(to), 1);
  expect(places.size).toBe(4);
  const sorted = [...places].map(Number).sort((a, b) => a - b);
  const gaps = sorted.slice(1).map((x, i) => x - sorted[i]!);
  for (const gap of gaps) expect(gap).toBeCloseTo(gaps[0]!, 0);
});

it('a spot not probed is shown as such, and what the planes rest on is marked', () => {
  const spots: FaceMapSpot[] = [
    { name: '1', x: 0, y: 0, above: 0, text: '0', holds: 'low' },
    { name: '2', x: 1, y: 0, above: 2, text: '2', holds: 'high' },
    { name: '3', x: 0, y: 1 },
  ];
  const drawn = faceMapSvg({ spots, zone: 2, steps: [], words }, DESK);
  for (const mark of ['low', 'high', 'missing']) expect(drawn).toContain(`data-spot="${mark}"`);
  for (const word of Object.values(words)) expect(drawn).toContain(word);
});

it('figures over a row never run into each other while three tiers hold them', () => {
  const spots = Array.from({ length: 9 }, (_, i) => ({
    name: `${i}`,
    x: i,
    y: 0,
    above: 0.01,
    text: '0.0123',
  }));
  const drawn = faceMapSvg(
    { spots, zone: 0.02, steps: [], words },
    { ...DESK, width: 390, profile: 'phone' },
  );
  const figures = [...drawn.matchAll(/<text x="([\d.]+)" y="([\d.]+)"[^>]*>0\.0123</g)].map(([, x, y]) => ({
    x: Number(x),
    y: Number(y),
  }));
  expect(figures).toHaveLength(9);
  // Figures of 18 px type are some 54 px wide.
  for (const a of figures)
    for (const b of figures)
      if (a !== b) expect(Math.abs(a.x - b.x) > 54 || Math.abs(a.y - b.y) > 18).toBe(true);
});

it('a groove of one depth is as round as the limit it meets', () => {
  const drawn = grooveRingSvg(
    {
      points: Array.from({ length: 8 }, (_, i) => ({ name: `${i}`, value: 2, text: '2' })),
      rings: [{ value: 2, text: 'limit 2', dash: 'long' }],
    },
    DESK,
  );
  const [, corners = ''] = /<g data-mark="groove"><polygon points="([^"]*)"/.exec(drawn) ?? [];
  const ring = /data-mark="ring" cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)"/.exec(drawn)!;
  const [cx, cy, r] = ring.slice(1).map(Number) as [number, number, number];
  const points = corners.split(' ').map((pair) => pair.split(',').map(Number) as [number, number]);
  expect(points).toHaveLength(8);
  for (const [x, y] of points) expect(Math.hypot(x - cx, y - cy)).toBeCloseTo(r, 0);
});

it('a groove read in part has its points and no outline', () => {
  const drawn = grooveRingSvg(
    {
      points: [{ name: '1', value: 1, text: '1' }, { name: '2' }, { name: '3', value: 2, text: '2' }],
      rings: [],
    },
    DESK,
  );
  expect(drawn).not.toContain('data-mark="groove"');
  expect(drawn).toContain('not read');
});

it('a load under its bar stands below it, and a shorter spring to the left', () => {
  const drawn = springLineSvg(
    {
      lengthAxis: 'length, in',
      loadAxis: 'load, lbf',
      wanted: [{ at: 1.7, lower: 50, upper: 58, text: '50 to 58 lbf' }],
      read: [
        { at: 1.7, load: 48 },
        { at: 1.36, load: 118 },
      ],
      lengths: [],
      words: { wanted: 'wanted', read: 'read' },
    },
    DESK,
  );
  const bar = /data-mark="wanted"><rect x="[\d.]+" y="([\d.]+)" width="[\d.]+" height="([\d.]+)"/.exec(
    drawn,
  )!;
  const dots = [...drawn.matchAll(/data-mark="read" cx="([\d.]+)" cy="([\d.]+)"/g)].map(([, x, y]) => ({
    x: Number(x),
    y: Number(y),
  }));
  expect(dots[0]!.y).toBeGreaterThan(Number(bar[1]) + Number(bar[2]));
  expect(dots[1]!.x).toBeLessThan(dots[0]!.x);
  expect(dots[1]!.y).toBeLessThan(dots[0]!.y);
});

it('any numbers at all leave no attribute that is no number', () => {
  const any = fc.oneof(
    fc.double(),
    fc.constantFrom(0, -0, 1e-320, 1e300, -1, Number.NaN, Number.POSITIVE_INFINITY),
  );
  fc.assert(
    fc.property(fc.array(fc.tuple(any, any, any), { maxLength: 8 }), any, (all, one) => {
      const drawn = [
        faceMapSvg(
          {
            spots: all.map(([x, y, above]) => ({ name: '', x, y, above, text: '' })),
            zone: one,
            steps: [''],
            words,
          },
          DESK,
        ),
        grooveRingSvg(
          {
            points: all.map(([value]) => ({ name: '', value, text: '' })),
            rings: [{ value: one, text: '', dash: 'short' }],
          },
          DESK,
        ),
        springLineSvg(
          {
            lengthAxis: '',
            loadAxis: '',
            wanted: all.map(([at, lower, upper]) => ({ at, lower, upper, text: '' })),
            read: all.map(([at, load]) => ({ at, load })),
            free: one,
            lengths: [{ at: one, text: '', measured: false }],
            words: { wanted: '', read: '' },
          },
          DESK,
        ),
      ];
      for (const text of drawn)
        for (const name of ['x', 'y', 'cx', 'cy', 'r', 'x1', 'y1', 'x2', 'y2', 'width', 'height'])
          expect(numbers(text, name).filter((value) => !Number.isFinite(value))).toEqual([]);
    }),
    { numRuns: 300 },
  );
});

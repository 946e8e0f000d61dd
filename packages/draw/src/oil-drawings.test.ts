import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  circuitDrawingSvg,
  type Picture,
  type PressureStair,
  pressureMapSvg,
  pressureMapText,
  pressureStairSvg,
  pressureStairText,
} from './index.ts';
import { hatched } from './svg/hatched.ts';

const DESK: Picture = { title: 'A picture', desc: 'What it says.', width: 800, profile: 'desk' };
const PHONE: Picture = { ...DESK, width: 336, profile: 'phone' };
const groups = (drawn: string, mark: string): Record<string, string>[] =>
  [...drawn.matchAll(new RegExp(`<(?:g|path) [^>]*data-mark="${mark}"[^>]*>`, 'g'))].map(([tag]) =>
    Object.fromEntries([...tag.matchAll(/ ([a-z-]+)="([^"]*)"/g)].map(([, key, value]) => [key!, value!])),
  );
const numbers = (of: Record<string, string>[], key: string): number[] => of.map((one) => Number(one[key]));

const STAIR: PressureStair = {
  asNew: { name: 'As new', value: 30, text: '30 psi' },
  now: { name: 'As found', value: 8, text: '8 psi', low: 7, high: 9 },
  required: { name: 'at least', value: 15, text: '15 psi' },
  treads: [
    { id: 'ends', name: 'Ends', share: 12, text: '−12', alone: { value: 10, text: 'alone 10' } },
    { id: 'mains', name: 'Mains', share: 10, text: '−10', alone: { value: 9, text: 'alone 9' } },
  ],
};

describe('the pressure stair', () => {
  it.each([DESK, PHONE])(
    'steps down from as new to now, each block as wide as its share ($profile)',
    (of) => {
      const drawn = pressureStairSvg(STAIR, of);
      const treads = groups(drawn, 'tread');
      const [from, to] = [numbers(treads, 'data-from'), numbers(treads, 'data-to')];
      const perPsi = (to[0]! - from[0]!) / 12;
      expect((to[1]! - from[1]!) / perPsi).toBeCloseTo(10, 1);
      // Each begins where the one above ended; the first at as new, the last at now.
      expect(to[1]).toBeCloseTo(from[0]!, 2);
      expect(to[0]).toBeCloseTo(numbers(groups(drawn, 'as-new'), 'data-to')[0]!, 2);
      expect(from[1]).toBeCloseTo(numbers(groups(drawn, 'now'), 'data-to')[0]!, 2);
      // The required minimum and a repair alone lie on the same scale.
      const asked = numbers(groups(drawn, 'required'), 'data-x')[0]!;
      expect((asked - from[1]!) / perPsi).toBeCloseTo(15 - 8, 1);
      expect((numbers(groups(drawn, 'alone'), 'data-to')[0]! - from[1]!) / perPsi).toBeCloseTo(2, 1);
    },
  );

  it('hangs a lifted tread hatched over the step it left', () => {
    const lifted: PressureStair = {
      ...STAIR,
      now: { name: 'Lifted', value: 18, text: '18 psi' },
      treads: [
        { ...STAIR.treads[0]! },
        { id: 'mains', name: 'Mains', share: 0, text: 'lifted', lifted: true, carried: 10 },
      ],
    };
    const drawn = pressureStairSvg(lifted, DESK);
    const [, mains] = groups(drawn, 'tread');
    expect(mains).toMatchObject({ 'data-tread': 'mains', 'data-lifted': 'true' });
    const hatches = (of: string): number => of.split('<line').length;
    expect(hatches(drawn)).toBeGreaterThan(hatches(pressureStairSvg(STAIR, DESK)) + 10);
  });

  it('is switched by the finger only where asked to be: targets of 15 mm, named and pressed', () => {
    expect(pressureStairSvg(STAIR, PHONE)).not.toContain('role="button"');
    const drawn = pressureStairSvg({ ...STAIR, tappable: true }, PHONE);
    const heights = [...drawn.matchAll(/height="([\d.]+)" fill="transparent"/g)].map(([, h]) => Number(h));
    expect(heights).toHaveLength(2);
    for (const height of heights) expect(height).toBeGreaterThanOrEqual(90);
    expect(drawn).toContain('aria-pressed="false" aria-label="Ends, −12"');
  });

  it('keeps within its width, whatever the figures', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -20, max: 40 }), { maxLength: 6 }),
        fc.double(),
        fc.double(),
        (shares, asNew, now) => {
          const drawn = pressureStairSvg(
            {
              asNew: { name: 'new', value: asNew, text: 'n' },
              now: { name: 'now', value: now, text: 'n' },
              treads: shares.map((share, i) => ({ id: String(i), name: 'part', share, text: 's' })),
            },
            PHONE,
          );
          expect(drawn).not.toMatch(/NaN|Infinity|undefined/);
          const treads = groups(drawn, 'tread');
          for (const x of [...numbers(treads, 'data-from'), ...numbers(treads, 'data-to')]) {
            expect(x).toBeGreaterThanOrEqual(0);
            expect(x).toBeLessThanOrEqual(PHONE.width);
          }
        },
      ),
    );
  });

  it('is said in text on the same scale: blocks, hatching, the minimum', () => {
    expect(
      pressureStairText(
        { ...STAIR, treads: [STAIR.treads[0]!, { ...STAIR.treads[1]!, alone: undefined }] },
        30,
      ),
    ).toEqual([
      'As new    30 psi  ──────────────────────────────',
      'Ends         −12                 ┊  ████████████  alone 10',
      'Mains        −10          ██████████',
      'As found   8 psi  ────────       ┊',
      'at least  15 psi                 ┊',
    ]);
    const lifted = pressureStairText(
      { ...STAIR, treads: [{ ...STAIR.treads[0]!, share: 0, lifted: true, carried: 6, alone: undefined }] },
      30,
    );
    expect(lifted[1]).toContain('░░░░░░');
    expect(lifted[1]).not.toContain('█');
  });
});

describe('the map of pressures', () => {
  const chart = {
    speedAxis: 'rpm',
    temperatureAxis: '°C',
    pressureUnit: 'psi',
    speeds: [600, 1800, 3000],
    temperatures: [20, 60, 100],
    pressures: [30, 45, 50, 15, 30, 40, 5, 20, 30],
    limits: [{ speed: 600, temperature: 100, mark: 'out' as const, text: 'at least 15: 5' }],
  };

  it.each([DESK, PHONE])(
    'has a contour at every round pressure, each with its figure, and the verdicts ($profile)',
    (of) => {
      const drawn = pressureMapSvg(chart, of);
      const levels = numbers(groups(drawn, 'contour'), 'data-level');
      expect(levels).toEqual([10, 15, 20, 25, 30, 35, 40, 45, 50]);
      expect(groups(drawn, 'limit')).toMatchObject([{ 'data-verdict': 'out' }]);
      expect(drawn).toContain('at least 15: 5');
      expect(drawn).not.toMatch(/NaN|undefined/);
    },
  );

  it('fills the whole field with tints', () => {
    const drawn = pressureMapSvg(chart, DESK);
    const points = [...drawn.matchAll(/<polygon points="([^"]*)"/g)].map(([, text]) =>
      text!.split(' ').map((point) => point.split(',').map(Number) as [number, number]),
    );
    const area = (polygon: [number, number][]): number =>
      Math.abs(
        polygon.reduce((sum, [x, y], i) => {
          const [x2, y2] = polygon[(i + 1) % polygon.length]!;
          return sum + x * y2 - x2 * y;
        }, 0) / 2,
      );
    const rects = [
      ...drawn.matchAll(/<rect x="[\d.]+" y="[\d.]+" width="([\d.]+)" height="([\d.]+)" fill="var/g),
    ];
    const tinted =
      points.reduce((sum, polygon) => sum + area(polygon), 0) +
      rects.reduce((sum, [, w, h]) => sum + Number(w) * Number(h), 0);
    const [, w, h] = /<rect x="[\d.]+" y="[\d.]+" width="([\d.]+)" height="([\d.]+)" fill="none"/.exec(
      drawn,
    )!;
    expect(tinted / (Number(w) * Number(h))).toBeCloseTo(1, 1);
  });

  it('is said in text as a table, figures under their speeds, marks behind them', () => {
    expect(
      pressureMapText({
        corner: 'sump',
        columns: ['600 rpm', '3000 rpm'],
        rows: ['20 °C', '100 °C'],
        cells: [
          [{ text: '30.1' }, { text: '50.0' }],
          [{ text: '5.2', mark: '▾' }, { text: '30.0' }],
        ],
      }),
    ).toEqual([
      'sump   │ 600 rpm  3000 rpm',
      '───────┼───────────────────',
      '20 °C  │    30.1      50.0',
      '100 °C │     5.2▾     30.0',
    ]);
  });
});

describe('the circuit', () => {
  const circuit = {
    sump: 'sump',
    nodes: [
      { id: 'pump', name: 'pump', text: '9 psi' },
      { id: 'gallery', name: 'gallery', text: '8 psi', gauge: true },
      { id: 'rockers', name: 'rockers', text: '3 psi' },
    ],
    lines: [
      { name: 'sweeps', to: 'pump', flow: 4, text: '4' },
      { name: 'slip', from: 'pump', flow: 1, text: '1', back: true },
      { name: 'relief', from: 'pump', flow: 0, text: '0' },
      { name: 'delivery', from: 'pump', to: 'gallery', flow: 3, text: '3' },
      { name: 'jet', from: 'gallery', flow: 0.5, text: '0.5' },
      { name: 'mains', from: 'gallery', flow: 2, text: '2' },
      { name: 'feed', from: 'gallery', to: 'rockers', flow: 0.5, text: '0.5' },
      { name: 'second feed', from: 'gallery', to: 'rockers', flow: 0.2, text: '0.2' },
      { name: 'spill', from: 'rockers', flow: 0.7, text: '0.7' },
    ],
  };

  it.each([DESK, PHONE])('draws each way of the oil as wide as its flow ($profile)', (of) => {
    const widths = numbers(groups(circuitDrawingSvg(circuit, of), 'flow'), 'data-width');
    // In the order drawn: from the pump down, the greatest leak of a node first.
    const flows = [4, 1, 0, 3, 2, 0.5, 0.5, 0.7, 0.2];
    expect(widths).toHaveLength(flows.length);
    const most = widths[0]!;
    // Thin lines are kept as wide as a line; a way without flow has none.
    const least = of === PHONE ? 2 : 1.75;
    widths.forEach((width, i) => {
      const wanted = flows[i]! === 0 ? 0 : Math.max(least, (flows[i]! / 4) * most);
      expect(width).toBeCloseTo(wanted, 1);
    });
  });

  it('goes down the tree, and names the other end of a way that closes a loop', () => {
    const drawn = circuitDrawingSvg(circuit, DESK);
    const words = [...drawn.matchAll(/<text [^>]*>([^<]*)</g)].map(([, text]) => text);
    const order = [
      'sweeps',
      'pump  9 psi',
      'slip',
      'relief',
      'delivery',
      'gallery  8 psi',
      'mains',
      'jet',
      'feed',
      'rockers  3 psi',
      'spill',
      'second feed → rockers',
    ];
    expect(words.filter((text) => order.includes(text!))).toEqual(order);
    expect(groups(drawn, 'gauge')).toHaveLength(1);
  });
});

it('hatching stays within its rectangle', () => {
  const drawn = hatched(10, 20, 40, 15, 6, 'red', 1);
  const ends = [...drawn.matchAll(/ ([xy])[12]="([\d.]+)"/g)];
  expect(ends.length).toBeGreaterThan(20);
  for (const [, axis, value] of ends) {
    const [from, to] = axis === 'x' ? [10, 50] : [20, 35];
    expect(Number(value)).toBeGreaterThanOrEqual(from);
    expect(Number(value)).toBeLessThanOrEqual(to);
  }
  expect(hatched(0, 0, 0, 5, 1, 'red', 1)).toBe('');
});

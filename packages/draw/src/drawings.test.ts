import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  closingLineSvg,
  flowBarsSvg,
  leafLadderSvg,
  limitRailSvg,
  type Picture,
  pressureCurveSvg,
  type RailBlock,
  repairBarsSvg,
  unrolledBoresSvg,
  type VerdictMark,
  verdictMarkSvg,
} from './index.ts';

const DESK: Picture = { title: 'A picture', desc: 'What it says.', width: 800, profile: 'desk' };
const attribute = (text: string, name: string): string[] =>
  [...text.matchAll(new RegExp(` ${name}="([^"]*)"`, 'g'))].map(([, value]) => value!);
const numbers = (text: string, name: string): number[] => attribute(text, name).map(Number);
const texts = (text: string): string[] =>
  [...text.matchAll(/<text [^>]*>([^<]*)<\/text>/g)].map(([, t]) => t!);

it('keeps the posts in the order of their limits and the block within the picture, whatever the figures', () => {
  const figure = fc.double({ noNaN: true, noDefaultInfinity: true });
  const edge = fc.option(figure, { nil: undefined });
  fc.assert(
    fc.property(figure, figure, edge, edge, fc.integer({ min: 100, max: 2000 }), (a, b, from, to, width) => {
      const [lower, upper] = [Math.min(a, b), Math.max(a, b)];
      const block: RailBlock = { from, to, text: 'x' };
      const drawn = limitRailSvg(
        {
          sets: [{ set: 'new', name: 'n', lower: { at: lower, text: 'l' }, upper: { at: upper, text: 'u' } }],
          reading: block,
        },
        { ...DESK, width },
      );
      expect(drawn).not.toMatch(/NaN|Infinity|e[+-]\d/);
      const [left, right] = numbers(drawn, 'data-x');
      expect(left).toBeLessThanOrEqual(right!);
      const whole = Number(/viewBox="0 0 ([\d.]+)/.exec(drawn)![1]);
      for (const x of [...numbers(drawn, 'data-from'), ...numbers(drawn, 'data-to')]) {
        expect(x).toBeGreaterThanOrEqual(0);
        expect(x).toBeLessThanOrEqual(whole);
      }
    }),
  );
});

it('draws a block across a post when the reading cannot be told from the limit', () => {
  const drawn = limitRailSvg(
    {
      sets: [{ set: 'wear', name: 'wear', upper: { at: 6, text: '6' } }],
      reading: { from: 5.7, to: 6.2, text: 'r' },
    },
    DESK,
  );
  const [post] = numbers(drawn, 'data-x');
  expect(numbers(drawn, 'data-from')[0]).toBeLessThan(post!);
  expect(numbers(drawn, 'data-to')[0]).toBeGreaterThan(post!);
});

it('tells the two sets of limits apart by the line: full for new, broken for wear', () => {
  const drawn = limitRailSvg(
    { sets: (['new', 'wear'] as const).map((set) => ({ set, name: set, upper: { at: 1, text: '1' } })) },
    DESK,
  );
  const post = (set: string): string => new RegExp(`data-set="${set}".*?</g>`).exec(drawn)![0];
  expect(post('new')).not.toContain('stroke-dasharray');
  expect(post('wear')).toContain('stroke-dasharray');
});

it('lets an open end run to the end of the rail, and prints reading, limits, witnesses and next move', () => {
  const drawn = limitRailSvg(
    {
      sets: [{ set: 'wear', name: 'wear', upper: { at: 12, text: '.012' } }],
      reading: { from: 10, text: 'at least .010' },
      witnesses: [{ from: 9, to: 11, name: 'indicator', text: '.010' }],
      next: 'Try .012',
    },
    DESK,
  );
  const closed = limitRailSvg({ sets: [], reading: { from: 10, to: 11, text: 'r' } }, DESK);
  expect(drawn.match(/data-mark="reading"[^>]*><polygon points="([^"]*)"/)![1]!.split(' ')).toHaveLength(5);
  expect(closed.match(/data-mark="reading"[^>]*><polygon points="([^"]*)"/)![1]!.split(' ')).toHaveLength(4);
  for (const word of ['at least .010', '.012', 'indicator', '.010', 'Try .012'])
    expect(texts(drawn)).toContain(word);
});

it('puts the leaves in order of thickness with the thinnest at the foot, each to be found by its id', () => {
  const drawn = leafLadderSvg(
    {
      leaves: [
        { id: 'b', thickness: 4, text: '4', state: 'not' },
        { id: 'a', thickness: 2, text: '2', state: 'goes' },
        { id: 'c', thickness: 3, text: '3', state: 'untried', next: true },
        { id: 'n', thickness: Number.NaN, text: '?', state: 'goes' },
      ],
      words: { goes: 'goes', not: 'does not go', untried: 'untried', next: 'try next' },
    },
    DESK,
  );
  expect(attribute(drawn, 'data-leaf')).toEqual(['b', 'c', 'a']);
  expect(attribute(drawn, 'data-state')).toEqual(['not', 'untried', 'goes']);
  expect(drawn.match(/data-next="true"/g)).toHaveLength(1);
  expect(drawn).toContain('data-mark="gap"');
  expect(drawn).not.toContain('role="button"');
});

it('brackets nothing when a thicker leaf goes where a thinner does not', () => {
  const drawn = leafLadderSvg(
    {
      leaves: [
        { id: 'a', thickness: 2, text: '2', state: 'not' },
        { id: 'b', thickness: 4, text: '4', state: 'goes' },
      ],
      words: { goes: 'g', not: 'n', untried: 'u', next: 'x', gap: 'gap' },
    },
    DESK,
  );
  expect(drawn).not.toContain('data-mark="gap"');
});

it('makes each rung of a ladder to be tapped a button of at least the target’s height', () => {
  const drawn = leafLadderSvg(
    {
      leaves: [{ id: 'a', thickness: 2, text: '.002', state: 'untried' }],
      words: { goes: 'goes', not: 'does not go', untried: 'untried', next: 'next' },
      tappable: true,
    },
    { ...DESK, profile: 'phone' },
  );
  expect(drawn).toContain('role="button" tabindex="0" aria-label=".002, untried"');
  const [, height] = /<rect [^>]*height="([\d.]+)" fill="transparent"/.exec(drawn)!;
  expect(Number(height)).toBeGreaterThanOrEqual(90);
});

it('tints a cell by the size of its deviation, either way, and shows a missing cell empty', () => {
  const drawn = unrolledBoresSvg(
    {
      rows: ['top', 'foot'],
      columns: ['a', 'b'],
      strips: [
        {
          name: '1',
          cells: [
            [
              { text: '+3', deviation: 3 },
              { text: '-3', deviation: -3 },
            ],
            [{ text: '9', deviation: 9, worst: true }],
          ],
        },
      ],
      steps: [1, 2, 4, 6].map((upTo) => ({ upTo, text: `to ${upTo}` })),
    },
    DESK,
  );
  expect(attribute(drawn, 'data-cell')).toEqual(['2', '2', '3', 'missing']);
  expect(drawn.match(/data-mark="worst"/g)).toHaveLength(1);
});

it('tints nothing whose deviation is not known', () => {
  const cells = [[{ text: 'x', deviation: Number.NaN }, { text: 'y' }]];
  const drawn = unrolledBoresSvg(
    { rows: ['r'], columns: ['a', 'b'], strips: [{ name: '1', cells }], steps: [{ upTo: 1, text: '1' }] },
    DESK,
  );
  expect(attribute(drawn, 'data-cell')).toEqual(['plain', 'plain']);
});

it('draws a higher pressure higher and a faster speed further right', () => {
  const drawn = pressureCurveSvg(
    {
      speedAxis: 'rpm',
      pressureAxis: 'psi',
      curves: [
        {
          name: 'hot',
          style: 'solid',
          points: [
            { speed: 2000, value: 30 },
            { speed: 600, value: 8 },
          ],
        },
      ],
      limits: [{ speed: 600, lower: 15, text: 'at least 15' }],
      gauge: [
        { speed: 600, value: Number.NaN },
        { speed: 1000, value: 14, half: 3 },
      ],
    },
    DESK,
  );
  const [, points] = /data-mark="curve"><polyline points="([^"]*)"/.exec(drawn)!;
  const [slow, fast] = points!.split(' ').map((pair) => pair.split(',').map(Number));
  expect(slow![0]).toBeLessThan(fast![0]!);
  expect(slow![1]).toBeGreaterThan(fast![1]!);
  expect(drawn.match(/data-mark="gauge"/g)).toHaveLength(1);
  for (const word of ['rpm', 'psi', 'hot', 'at least 15']) expect(texts(drawn)).toContain(word);
});

it('begins every repair’s bar where the figure as measured ends, with the engine as new last', () => {
  const drawn = repairBarsSvg(
    {
      asMeasured: { name: 'as measured', value: 10, text: '10' },
      repairs: [
        { name: 'gears', value: 20, text: '20' },
        { name: 'shells', value: 15, text: '15' },
      ],
      asNew: { name: 'as new', value: 40, text: '40' },
      required: { name: 'at least', value: 15, text: '15' },
    },
    DESK,
  );
  const [measured, gears, shells, fresh] = numbers(drawn, 'data-to');
  expect(numbers(drawn, 'data-from').slice(1, 3)).toEqual([measured, measured]);
  expect(numbers(drawn, 'data-x')[0]).toBeCloseTo(shells!, 1);
  expect(gears).toBeLessThan(fresh!);
  expect(texts(drawn).indexOf('as new')).toBeGreaterThan(texts(drawn).indexOf('shells'));
});

it('lets the flows follow one another until they have used up the whole', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0.001, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 12 }),
      (values) => {
        const drawn = flowBarsSvg({ parts: values.map((value) => ({ name: 'n', value, text: 't' })) }, DESK);
        const [from, to] = [numbers(drawn, 'data-from'), numbers(drawn, 'data-to')];
        expect(from.slice(1)).toEqual(to.slice(0, -1));
        // By hand: the last bar ends where all flows are used, whatever the scale.
        const sum = values.reduce((a, b) => a + b, 0);
        const scale = (to.at(-1)! - from[0]!) / sum;
        for (const [i, value] of values.entries())
          expect(Math.abs(to[i]! - from[i]! - value * scale)).toBeLessThan(0.03);
      },
    ),
  );
});

it('weighs the lids by the hours to reopen and hangs one mark under them for each characteristic', () => {
  const cover = { hoursText: 'h', state: 'closed' as const, stateText: 'closed', open: 0, out: 0 };
  const covers = [
    { ...cover, id: 'pan', name: 'pan', hours: 5, proven: 3 },
    { ...cover, id: 'van', name: 'van', hours: 10, proven: 0, open: 2, out: 1 },
  ];
  for (const width of [300, 1200]) {
    const drawn = closingLineSvg(
      { covers, words: { proven: 'proven', open: 'open', out: 'out' } },
      { ...DESK, width },
    );
    const [pan, van] = numbers(drawn, 'data-width');
    expect(van! / pan!).toBeCloseTo(2, 1);
    expect(attribute(drawn, 'data-cover')).toEqual(['pan', 'van']);
    for (const word of ['3 proven', '2 open', '1 out', 'closed']) expect(texts(drawn)).toContain(word);
    // Three discs and one for the state, two rings and one disc for the other's state.
    expect(drawn.match(/<circle/g)).toHaveLength(3 + 1 + 2 + 1);
  }
});

it('gives each verdict a shape of its own', () => {
  const marks: VerdictMark[] = ['in', 'out', 'cannot-tell', 'not-read'];
  const outlines = marks.map((mark) =>
    verdictMarkSvg(mark, { ...DESK, width: 40 }).replace(/.*<\/desc>/, ''),
  );
  expect(new Set(outlines).size).toBe(4);
  expect(outlines[0]).toMatch(/^<circle [^>]*fill="var\(--ink/);
  expect(outlines[1]).toMatch(/^<rect/);
  expect(outlines[2]).toMatch(/^<polygon/);
  expect(outlines[3]).toContain('stroke-dasharray');
});

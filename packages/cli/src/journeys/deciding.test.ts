import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CommandDesk } from '../testing/desk.ts';

interface BasketJson {
  price: number;
  goods: number;
  spent: number;
  proven_cheapest: boolean;
  lines: { id: string; price: number; count: number }[];
  unmet: unknown[];
  left_over: { key: string; count: number }[];
}

describe('from verdicts to what is bought', () => {
  const desk = new CommandDesk();
  beforeAll(() => desk.good('new', '--demo', 'linnet'));
  afterAll(() => desk.clear());

  it('proposes for each part what its verdicts ask for, and agrees with what the demo decided', async () => {
    const { proposals } = await desk.json<{
      proposals: {
        part: string;
        proposed?: string;
        size?: string;
        because: string;
        decided?: { as_proposed: boolean };
        reuse?: { expected_cost: number; chance_out: number };
        price?: number;
      }[];
    }>('decide', 'linnet');
    const of = (part: string) => proposals.find((one) => one.part === part)!;
    expect(of('crank')).toMatchObject({ proposed: 'machine', size: '.010 under', because: 'out' });
    expect(of('rod-shells-old-3')).toMatchObject({ proposed: 'replace', because: 'partner' });
    expect(of('piston-old-2')).toMatchObject({ proposed: 'replace', size: '.030 over', because: 'partner' });
    expect(of('rocker-shaft')).toMatchObject({ proposed: 'reuse', because: 'in' });
    expect(of('head')).toMatchObject({ proposed: 'machine', because: 'expected-cost', price: 55 });
    // Reusing spring 5: p × (6 h × 18 + 9).
    const { reuse } = of('valve-spring-old-5');
    expect(reuse!.expected_cost).toBeCloseTo(reuse!.chance_out * (6 * 18 + 9), 9);
    for (const one of proposals.filter(({ decided, proposed }) => decided && proposed))
      expect(one).toMatchObject({ decided: { as_proposed: true } });
  });

  it('fills the cheapest basket: each kit alone is not worth its carriage, both together are', async () => {
    const basket = await desk.json<BasketJson>('basket', 'linnet');
    // Repairs 510 + 0 + 134 + 610 + 24 + 190 + 9 = 1477; kits 68 + 139 and carriage 14; oil 24 + 6.
    expect(basket).toMatchObject({
      price: 1477 + 68 + 139 + 14 + 24 + 6,
      spent: 14,
      proven_cheapest: true,
      unmet: [],
    });
    const ids = basket.lines.map(({ id }) => id);
    expect(ids).toContain('gasket-set');
    expect(ids).toContain('pump-set');
    expect(ids).not.toContain('gears-and-cover');
    // Head 31, rocker 9, timing 12, manifold 16, end seal 7 against 68 + 14; gears 118, spring 26, stud 6 against 139 + 14.
    expect(31 + 9 + 12 + 16 + 7).toBeLessThan(68 + 14);
    expect(118 + 26 + 6).toBeLessThan(139 + 14);
    expect(31 + 9 + 12 + 16 + 7 + 118 + 26 + 6).toBeGreaterThan(68 + 139 + 14);
    const text = (await desk.good('basket', 'linnet')).out;
    expect(text.replace(/\s+/g, ' ')).toContain('658 EUR under the cap of 2400 EUR');
    expect(text).toContain('No basket of what is on record costs less');
  });

  it('says the chance of the seven weeks, which the most likely times alone would hide', async () => {
    const line = await desk.json<{
      chance: number;
      likely_days: number;
      critical: string[];
      pert: { mean_days: number };
    }>('timeline', 'linnet');
    // Grind 14, shells 7, washing 2, assembly 8, sealant 1, engine in 2.
    expect(line.likely_days).toBe(34);
    expect(line.critical).toEqual([
      'crank-grind',
      'shells-undersize',
      'washing',
      'assembly',
      'sealant',
      'first-start',
    ]);
    expect(line.chance).toBeGreaterThan(0.5);
    expect(line.chance).toBeLessThan(0.8);
    expect((await desk.good('timeline', 'linnet', '--within', '4 weeks')).status).toBe(1);
  });

  it('writes the slip, each bore to suit its piston, and takes back only what was measured', async () => {
    const text = (await desk.good('slip', 'linnet', 'block')).out;
    // 3.5281 + .0017, .0020, .0024.
    expect(text).toContain('* Bore 1: 3.5298 to 3.5305 in, aim at 3.5301 in');
    expect(text).toContain('to suit Piston P1, .030 over, which measures 3.5281 in');
    const file = desk.file('slip.pdf');
    await desk.good('slip', 'linnet', '--to', file);
    expect(readFileSync(file).subarray(0, 5).toString()).toBe('%PDF-');
    await desk.good('rework', 'linnet', 'crank', 'ground', '--size', '.010 under');
    expect((await desk.good('slip', 'linnet', 'crank')).out).toContain('what the shop wrote is no reading');
  });

  it('finds two bores out for the pistons as boxed, which the sheet’s limits for the size would not tell', async () => {
    await desk.good('rework', 'linnet', 'block', 'bored', '--size', '.030 over');
    for (const [n, size] of ['3.5302in', '3.5298in', '3.5299in', '3.5305in'].entries())
      await desk.good(
        'read',
        'linnet',
        'bore.diameter',
        ...Array(6).fill(size),
        '--at',
        `${n + 1}`,
        '--with',
        'micrometer',
        '--confirm',
      );
    // Clearances .0021, .0021, .0015 and .0026 against .0017 to .0024.
    const { components } = await desk.json<{
      components: { lines: { characteristic: string; returned: string[] }[] }[];
    }>('slip', 'linnet', 'block');
    const bores = components[0]!.lines.filter(({ characteristic }) => characteristic === 'bore.diameter');
    expect(bores.map(({ returned }) => /in$|OUT$/.exec(returned[0]!)?.[0])).toEqual([
      'in',
      'in',
      'OUT',
      'OUT',
    ]);
  });

  it('takes a proposal with its evidence as the reason', async () => {
    await desk.good('decide', 'linnet', 'head', '--as-proposed');
    const { proposals } = await desk.json<{
      proposals: { decided: { why: string; as_proposed: boolean } }[];
    }>('decide', 'linnet', 'head');
    expect(proposals[0]!.decided.as_proposed).toBe(true);
    expect(proposals[0]!.decided.why).toMatch(
      /^As proposed: Head flatness cannot be told; .* Rests on entry \d+\.$/,
    );
  });

  it('lists what was ordered with what became of it', async () => {
    expect((await desk.good('orders', 'linnet')).out).toContain('measured on arrival (1 reading)');
    await desk.good(
      'order',
      'linnet',
      'Gaskets',
      '--supply',
      'gasket-set',
      '--price',
      '68',
      '--supplier',
      'post order',
    );
    await desk.good('receive', 'linnet', 'Gaskets');
    expect((await desk.good('orders', 'linnet')).out).toContain('here, not entered as a part: not measured');
  });

  it.each([
    [['decide', 'linnet', 'crank', 'machine'], 'decision/why-missing'],
    [['decide', 'linnet', 'wheel'], 'part/unknown'],
    [['decide', 'linnet', 'pan', '--as-proposed'], 'decision/nothing-proposed'],
    [['supply', 'linnet', 'x', 'X', '--covers', 'wheel', '--price', '1'], 'supply/unknown-need'],
    [['supply', 'linnet', 'x', 'X', '--covers', 'piston:0', '--price', '1'], 'supply/unreadable'],
    [['supply', 'linnet', 'x', 'X', '--covers', 'piston size huge', '--price', '1'], 'supply/unknown-size'],
    [['supply', 'linnet', 'rebore', 'X', '--covers', 'piston', '--price', '1'], 'supply/is-an-offer'],
    [['supply', 'linnet', 'x', 'X', '--covers', 'piston', '--price', '-1'], 'number/unreadable'],
    [
      [
        'supply',
        'linnet',
        'x',
        'X',
        '--covers',
        'piston',
        '--price',
        '1',
        '--lead',
        '2 weeks',
        '--latest',
        '3 days',
      ],
      'time/out-of-order',
    ],
    [['want', 'linnet', 'x', 'X', '--count', '1.5'], 'number/unreadable'],
    [['terms', 'linnet', 'owner', '--hour', 'much'], 'number/unreadable'],
    [['task', 'linnet', 'x', 'X', '--takes', 'long'], 'time/unreadable'],
    [['task', 'linnet', 'x', 'X', '--takes', '1 day', '--needs', 'y'], 'task/unknown-need'],
    [['order', 'linnet', 'X', '--supply', 'nothing'], 'order/unknown-supply'],
    [['offer', 'linnet', 'x', 'X', '--price', '1', '--way', 'paint'], 'offer/unknown-way'],
    [['basket', 'linnet', '--within', 'soon'], 'time/unreadable'],
    [['slip', 'linnet', 'pan'], 'slip/unknown-component'],
    [['slip', 'linnet', '--to', '/nowhere/x.pdf', '--paper', 'a5'], 'paper/unknown'],
  ])('refuses %j in words', async (words, code) => {
    expect(await desk.refused(...words)).toContain(code);
  });
});

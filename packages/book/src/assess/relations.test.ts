import { standardUncertainty } from '@fettle/core';
import { describe, expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import type { Operand } from './operand.ts';

const THOU = 25.4e-6;
const value = (operand: Operand): number => (operand.kind === 'value' ? operand.q.value : Number.NaN);
const edges = (operand: Operand): (number | undefined)[] =>
  operand.kind === 'interval'
    ? [operand.lower, operand.upper].map((edge) => edge && Math.round((edge.value / THOU) * 1e6) / 1e6)
    : [Number.NaN];

const ENDS = { end: ['front', 'mid', 'rear'] };
const wall = inches('wall', { places: ['end'] });

/** What `of` comes to when the wall is read as given, front to rear. */
function derived(relation: unknown, reads: readonly string[], more: Record<string, unknown> = {}) {
  const bench = new Bench({
    axes: ENDS,
    characteristics: [wall, inches('bar'), inches('it', { relation, ...more })],
  });
  for (const [i, text] of reads.entries())
    bench.read('wall', `${text} in`, { at: ENDS.end[i]!, instrument: 'mic' });
  bench.read('bar', '2 in', { instrument: 'mic' });
  return bench.judgement('it').operand;
}
const reduced = (by: string, of: unknown = 'wall') => ({ reduce: { by, over: ['end'], of } });

describe('a reduction', () => {
  it.each([
    ['mean', 200],
    ['range', 200],
    ['greatest', 300],
    ['worst', 300],
    ['least', 100],
    // (0.1³ + 0.2³ + 0.3³) / 3 = 0.012
    ['mean-cube', 1000 * Math.cbrt(0.012)],
  ])('by %s', (by, thou) => {
    expect(value(derived(reduced(by), ['0.1', '0.2', '0.3'])) / THOU).toBeCloseTo(thou, 6);
  });

  it('goes along an axis of what is derived inside it', () => {
    const inner = {
      linear: {
        terms: [
          { factor: -2, of: 'wall' },
          { factor: 1, of: 'bar' },
        ],
      },
    };
    expect(value(derived(reduced('range', inner), ['0.1', '0.2', '0.3'])) / THOU).toBeCloseTo(400, 6);
    expect(value(derived(reduced('least', inner), ['0.1', '0.2', '0.3'])) / THOU).toBeCloseTo(1400, 6);
  });

  it('goes along an axis under the name it was given', () => {
    const bench = new Bench({
      axes: { ...ENDS, spot: ['front', 'mid', 'rear'] },
      characteristics: [
        wall,
        inches('it', {
          relation: {
            reduce: { by: 'mean', over: ['spot'], of: { characteristic: 'wall', rename: { end: 'spot' } } },
          },
        }),
      ],
    });
    for (const [end, text] of Object.entries({ front: '0.1', mid: '0.2', rear: '0.6' }))
      bench.read('wall', `${text} in`, { at: end, instrument: 'mic' });
    expect(value(bench.judgement('it').operand) / THOU).toBeCloseTo(300, 6);
  });

  it('is unknown while one of its places is', () => {
    expect(derived(reduced('mean'), ['0.1', '0.2'])).toEqual({ kind: 'missing' });
  });
});

describe('places', () => {
  it('are matched by axis, fixed by "at", and renamed', () => {
    const bench = new Bench({
      axes: { rod: ['1', '2'], cylinder: ['1', '2'] },
      characteristics: [
        inches('rod', { places: ['rod'] }),
        inches('same', {
          places: ['cylinder'],
          relation: { characteristic: 'rod', rename: { rod: 'cylinder' } },
        }),
        inches('second', { relation: { characteristic: 'rod', at: { rod: '2' } } }),
        inches('spread', { places: ['rod', 'cylinder'], relation: 'rod' }),
      ],
    });
    bench.read('rod', '1 in', { at: '1', instrument: 'mic' });
    bench.read('rod', '2 in', { at: '2', instrument: 'mic' });
    const at = (id: string, place: string) => value(bench.judgement(id, place).operand) / THOU;
    expect([at('same', '1'), at('same', '2')].map(Math.round)).toEqual([1000, 2000]);
    expect(at('second', '')).toBeCloseTo(2000, 6);
    expect([at('spread', '1/1'), at('spread', '1/2'), at('spread', '2/1')].map(Math.round)).toEqual([
      1000, 1000, 2000,
    ]);
  });
});

describe('ratios and calculators', () => {
  it('give a spread as a share of the greatest', () => {
    const greatest = reduced('greatest');
    const relation = {
      ratio: {
        of: {
          terms: [
            { factor: 1, of: greatest },
            { factor: -1, of: reduced('least') },
          ],
        },
        by: { terms: [{ factor: 1, of: greatest }] },
      },
    };
    const operand = derived(relation, ['0.8', '0.9', '1.0'], { kind: 'ratio', unit: undefined });
    expect(value(operand)).toBeCloseTo(0.2, 12);
  });

  it('put measured and written inputs through a calculator, with their doubt', () => {
    const bench = new Bench({
      characteristics: [
        inches('bore'),
        {
          ...inches('displacement'),
          kind: 'volume',
          unit: 'in3',
          relation: {
            calculator: {
              name: 'cylinder',
              inputs: { bore: { of: 'bore' }, stroke: { is: '4 in' }, cylinders: { is: '4' } },
              output: 'displacement',
            },
          },
        },
      ],
    });
    bench.read('bore', '3 in', { instrument: 'mic' });
    const { operand } = bench.judgement('displacement');
    // 4 × π/4 × 3² × 4 = 36 π in³, and ∂V/∂b u = 2 V/b × 0.1 thou.
    const cubicInch = 0.0254 ** 3;
    expect(value(operand) / cubicInch).toBeCloseTo(36 * Math.PI, 6);
    expect(operand.kind === 'value' && standardUncertainty(operand.q) / cubicInch).toBeCloseTo(
      24 * Math.PI * 1e-4,
      8,
    );
  });

  it('give no value for what the calculator refuses, and say what can be read', () => {
    const bench = new Bench({
      characteristics: [
        inches('wire'),
        {
          ...inches('rate'),
          kind: 'stiffness',
          unit: 'lbf/in',
          relation: {
            calculator: {
              name: 'coil-spring',
              inputs: {
                wire_diameter: { of: 'wire' },
                mean_diameter: { is: '0.39 in' },
                active_coils: { is: '11' },
                shear_modulus: { is: '11.5 Mpsi' },
              },
              output: 'rate',
            },
          },
        },
      ],
    });
    bench.read('wire', '0 in', { instrument: 'mic' });
    expect(bench.judgement('rate')).toMatchObject({
      status: 'missing',
      // What the formula cannot use is what to read again; and the reason is said.
      missing: [{ characteristic: 'wire', place: {} }],
      cautions: [{ code: 'relation/no-answer' }],
    });
  });
});

/** A gap, a groove that cannot be less than nothing, and what they come to together. */
const gap = (limit: string, groove: Record<string, unknown> = { non_negative: true }) => ({
  characteristics: [
    inches('leaf-gap', { with: 'feeler leaves' }),
    inches('groove', groove),
    inches('whole', {
      relation: {
        linear: {
          terms: [
            { factor: 1, of: 'leaf-gap' },
            { factor: 1, of: 'groove' },
          ],
        },
      },
      limits: { wear: { upper: limit } },
    }),
  ],
});

describe('an input not read yet', () => {
  it('that cannot be below zero leaves a lower edge: out can be proven', () => {
    const bench = new Bench(gap('0.005 in'));
    bench.read('leaf-gap', { goes: '0.006 in', stops: '0.007 in' });
    const judged = bench.judgement('whole');
    expect(judged.status).toBe('out');
    expect(edges(judged.operand)).toEqual([6, undefined]);
  });

  it('but in cannot, and the next move is to read it', () => {
    const bench = new Bench(gap('0.010 in'));
    bench.read('leaf-gap', { goes: '0.002 in', stops: '0.003 in' });
    const judged = bench.judgement('whole');
    expect(judged.status).toBe('cannot-tell');
    expect(judged.next).toMatchObject({ move: 'measure', what: [{ characteristic: { id: 'groove' } }] });
  });

  it('that may be anything leaves nothing', () => {
    const bench = new Bench(gap('0.005 in', {}));
    bench.read('leaf-gap', { goes: '0.006 in', stops: '0.007 in' });
    expect(bench.judgement('whole').status).toBe('missing');
  });
});

describe('a bracket', () => {
  it('enters as its two edges, shifted by the other inputs', () => {
    const bench = new Bench(gap('0.005 in'));
    bench.read('leaf-gap', { goes: '0.002 in', stops: '0.003 in' });
    bench.read('groove', '0.0015 in', { instrument: 'depth' });
    const judged = bench.judgement('whole');
    expect(edges(judged.operand)).toEqual([3.5, 4.5]);
    expect(judged).toMatchObject({ status: 'in', cautions: [] });
  });

  it('is cautioned when the deciding edge lies within its doubt of the limit', () => {
    const bench = new Bench(gap('0.005 in'));
    bench.read('leaf-gap', { goes: '0.002 in', stops: '0.003 in' });
    // U .0004 of the depth micrometer and U .0005 of the leaf: u = .00032, and .0001 is left to the limit.
    bench.read('groove', '0.0019 in', { instrument: 'depth' });
    const judged = bench.judgement('whole');
    expect(judged.status).toBe('in');
    expect(judged.cautions.map(({ code }) => code)).toEqual(['verdict/edge-near-limit']);
  });

  it('turns round under a minus sign', () => {
    const bench = new Bench({
      characteristics: [
        inches('leaf-gap'),
        inches('rest', {
          relation: { linear: { terms: [{ factor: -1, of: 'leaf-gap' }], constant: '0.010 in' } },
        }),
      ],
    });
    bench.read('leaf-gap', { goes: '0.002 in', stops: '0.003 in' }, { instrument: 'leaves' });
    expect(edges(bench.judgement('rest').operand)).toEqual([7, 8]);
  });

  it('never hides less than no range', () => {
    const bench = new Bench({
      axes: ENDS,
      characteristics: [wall, inches('it', { relation: reduced('range') })],
    });
    for (const end of ENDS.end)
      bench.read('wall', { goes: '0.002 in', stops: '0.003 in' }, { at: end, instrument: 'leaves' });
    expect(edges(bench.judgement('it').operand)).toEqual([0, 1]);
  });

  it('goes through a ratio by its edges', () => {
    const bench = new Bench({
      characteristics: [
        inches('leaf-gap'),
        {
          ...inches('share'),
          kind: 'ratio',
          unit: undefined,
          relation: {
            ratio: {
              of: { terms: [], constant: '0.006 in' },
              by: { terms: [{ factor: 1, of: 'leaf-gap' }] },
            },
          },
        },
      ].map((c) => JSON.parse(JSON.stringify(c))),
    });
    bench.read('leaf-gap', { goes: '0.002 in', stops: '0.003 in' }, { instrument: 'leaves' });
    const { operand } = bench.judgement('share');
    expect(operand.kind === 'interval' && [operand.lower!.value, operand.upper!.value]).toEqual([
      expect.closeTo(2, 9),
      expect.closeTo(3, 9),
    ]);
  });
});

describe('witnesses', () => {
  const GAP = { characteristics: [inches('gap', { limits: { wear: { upper: '0.0050 in' } } })] };

  it('of one thing are pooled, leaves cut the pooled number and are not averaged in', () => {
    const bench = new Bench(GAP);
    bench.read('gap', '0.0048 in', { instrument: 'tele' });
    const before = bench.judgement('gap');
    expect(before).toMatchObject({ status: 'cannot-tell', verdicts: { wear: { by: 'value' } } });
    bench.read('gap', { goes: '0.003 in', stops: '0.004 in' }, { instrument: 'leaves' });
    const after = bench.judgement('gap');
    expect(after).toMatchObject({ status: 'in', verdicts: { wear: { by: 'cut-value' } } });
    // The number itself stays as read; only what is believed of it is narrowed.
    expect(value(after.operand)).toBe(value(before.operand));
  });

  it('weigh by their doubt: two numbers of u and 2 u meet at four to one', () => {
    const bench = new Bench({ characteristics: [inches('gap')] });
    bench.declare('fine', 'x', { expanded: '0.0002 in', coverage: 2, common_share: 0.5 });
    bench.declare('coarse', 'y', { expanded: '0.0004 in', coverage: 2, common_share: 0.5 });
    bench.read('gap', '0.0040 in', { instrument: 'fine' });
    bench.read('gap', '0.0042 in', { instrument: 'coarse' });
    expect(value(bench.judgement('gap').operand) / THOU).toBeCloseTo(4.04, 6);
  });

  it('that disagree are shown to, and decide only what each says alone', () => {
    const bench = new Bench(GAP);
    bench.read('gap', '0.0040 in', { instrument: 'mic' });
    bench.read('gap', '0.0060 in', { instrument: 'dbg' });
    const judged = bench.judgement('gap');
    expect(judged).toMatchObject({
      status: 'cannot-tell',
      consistent: false,
      next: { move: 'settle-disagreement' },
    });
    expect(judged.cautions.map(({ code }) => code)).toEqual(['verdict/witnesses-disagree']);
    // Weights 9 to 4: 4.615 thou, u .0832 thou, widened by √χ² = 2/√(.01 + .0225) = 11.1 to .923 thou on one degree of
    // freedom, for which 95 % lie under 6.31 u (GUM table G.2): 4.615 + 5.83 = 10.44 thou.
    const within = (upper: string) => {
      const agreed = new Bench({ characteristics: [inches('gap', { limits: { wear: { upper } } })] });
      agreed.read('gap', '0.0040 in', { instrument: 'mic' });
      agreed.read('gap', '0.0060 in', { instrument: 'dbg' });
      return agreed.judgement('gap');
    };
    expect(within('0.0106 in')).toMatchObject({ status: 'in', consistent: false });
    expect(within('0.0103 in')).toMatchObject({ status: 'cannot-tell', consistent: false });
  });

  it('include one instrument’s own readings: what scatters wider than its share is not averaged away', () => {
    const bench = new Bench(GAP);
    bench.read('gap', '0.0030 in', { instrument: 'mic' });
    bench.read('gap', '0.0067 in', { instrument: 'mic' });
    const judged = bench.judgement('gap');
    expect(value(judged.operand) / THOU).toBeCloseTo(4.85, 6);
    expect(judged).toMatchObject({
      status: 'cannot-tell',
      consistent: false,
      next: { move: 'settle-disagreement' },
    });
  });

  it('number and leaf that cannot both be right disagree', () => {
    const bench = new Bench(GAP);
    bench.read('gap', '0.0030 in', { instrument: 'mic' });
    bench.read('gap', { goes: '0.006 in' }, { instrument: 'leaves' });
    expect(bench.judgement('gap')).toMatchObject({ status: 'cannot-tell', consistent: false });
  });

  it('leaves that contradict each other leave all that any of them left', () => {
    const bench = new Bench(GAP);
    bench.read('gap', { goes: '0.003 in', stops: '0.004 in' }, { instrument: 'leaves' });
    bench.read('gap', { goes: '0.006 in', stops: '0.007 in' }, { instrument: 'leaves' });
    const judged = bench.judgement('gap');
    expect(judged).toMatchObject({ status: 'cannot-tell', consistent: false });
    expect(edges(judged.operand)).toEqual([3, 7]);
  });

  it('leaves tried one after the other narrow the gap', () => {
    const bench = new Bench(GAP);
    bench.read('gap', { goes: '0.002 in', stops: '0.007 in' }, { instrument: 'leaves' });
    bench.read('gap', { goes: '0.003 in' }, { instrument: 'leaves' });
    bench.read('gap', { stops: '0.005 in' }, { instrument: 'leaves' });
    const judged = bench.judgement('gap');
    expect(edges(judged.operand)).toEqual([3, 5]);
    expect(judged.status).toBe('in');
  });
});

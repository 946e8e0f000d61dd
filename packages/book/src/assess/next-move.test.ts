import { describe, expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches, lessOf } from '../testing/tiny-sheet.ts';

const gap = (upper: string, more: Record<string, unknown> = {}) => ({
  characteristics: [inches('gap', { limits: { wear: { upper } }, ...more })],
});
const THOU = 25.4e-6;

describe('the next move', () => {
  it('is to measure what is missing, and nothing once it is in or out', () => {
    const bench = new Bench(gap('0.005 in'));
    expect(bench.judgement('gap').next).toMatchObject({
      move: 'measure',
      what: [{ characteristic: { id: 'gap' }, place: {} }],
    });
    bench.read('gap', '0.0030 in', { instrument: 'mic' });
    expect(bench.judgement('gap')).toMatchObject({ status: 'in' });
    expect(bench.judgement('gap').next).toBeUndefined();
  });

  it('is the leaf as thick as the limit, if it is owned', () => {
    const bench = new Bench(gap('0.005 in'));
    bench.read('gap', { goes: '0.002 in', stops: '0.007 in' }, { instrument: 'leaves' });
    // Between lie .0025, .003, .004, .005 and .006: three tries always find the gap among them.
    expect(bench.judgement('gap').next).toMatchObject({ move: 'try-leaf', leaf: '0.005 in', triesLeft: 3 });
  });

  it('is never a leaf that was tried', () => {
    const bench = new Bench(gap('0.0055 in'));
    bench.read('gap', { goes: '0.002 in', stops: '0.007 in' }, { instrument: 'leaves' });
    bench.read('gap', { goes: '0.005 in' }, { instrument: 'leaves' });
    expect(bench.judgement('gap').next).toMatchObject({ move: 'try-leaf', leaf: '0.006 in', triesLeft: 1 });
  });

  it('turns the limit back into leaves when the leaf is one input of several', () => {
    const bench = new Bench({
      characteristics: [
        inches('leaf-gap'),
        inches('groove'),
        inches('whole', {
          relation: {
            linear: {
              terms: [
                { factor: 1, of: 'leaf-gap' },
                { factor: 1, of: 'groove' },
              ],
            },
          },
          limits: { wear: { upper: '0.006 in' } },
        }),
      ],
    });
    bench.read('groove', '0.0020 in', { instrument: 'depth' });
    bench.read('leaf-gap', { goes: '0.002 in', stops: '0.007 in' }, { instrument: 'leaves' });
    expect(bench.judgement('whole').next).toMatchObject({
      move: 'try-leaf',
      leaf: '0.004 in',
      characteristic: { id: 'leaf-gap' },
    });
  });

  it('is leaves laid together once no single one lies where it would decide', () => {
    const bench = new Bench(gap('0.0065 in'));
    bench.read('gap', { goes: '0.006 in', stops: '0.007 in' }, { instrument: 'leaves' });
    // .0015 + .005 = .0065 is the limit itself: one try decides.
    expect(bench.judgement('gap').next).toMatchObject({
      move: 'try-leaf',
      leaf: '0.0015 + 0.005 in',
      stack: ['0.0015 in', '0.005 in'],
      expectedTries: 1,
      decides: 1,
    });
    bench.read('gap', { stops: '0.0015 + 0.005 in' }, { instrument: 'leaves' });
    const judged = bench.judgement('gap');
    expect(judged.status).toBe('in');
    // On the limit itself: the deciding stack is within its own doubt of it, and what lies between is assumed.
    expect(judged.cautions.map(({ code }) => code)).toEqual(['verdict/edge-near-limit', 'feeler/stacked']);
  });

  it('is a stack of three where no two reach, and none where nothing lies between', () => {
    const three = new Bench(gap('0.0180 in'));
    three.read('gap', { goes: '0.007 in' }, { instrument: 'leaves' });
    three.read('gap', { goes: '0.006 in + 0.007 in' }, { instrument: 'leaves' });
    expect(three.judgement('gap').next).toMatchObject({
      move: 'try-leaf',
      stack: ['0.005 in', '0.006 in', '0.007 in'],
    });
    three.read('gap', { stops: '0.005 + 0.006 + 0.007 in' }, { instrument: 'leaves' });
    expect(three.judgement('gap').status).toBe('in');
  });

  it('is a number once no leaf and no stack lies between', () => {
    const bench = new Bench({
      characteristics: [inches('gap', { limits: { wear: { upper: '0.0017 in' } } })],
    });
    bench.read('gap', { goes: '0.0015 in', stops: '0.002 in' }, { instrument: 'leaves' });
    const { next } = bench.judgement('gap');
    expect(next).toMatchObject({ move: 'finer-than-owned', afterLeaves: true });
    expect(next?.move === 'finer-than-owned' && next.needed / THOU).toBeCloseTo(0.125, 6);
    const open = new Bench(gap('0.0400 in'));
    open.read('gap', { goes: '0.005 + 0.006 + 0.007 in' }, { instrument: 'leaves' });
    const { next: move } = open.judgement('gap');
    expect(move?.move === 'finer-than-owned' && move.needed / THOU).toBeCloseTo(22 / 1.6449, 3);
  });

  it('is the coarsest instrument owned that would decide and can take the same measure', () => {
    const bench = new Bench(gap('0.0050 in'));
    bench.read('gap', '0.0047 in', { instrument: 'tele' });
    bench.declare('fine', 'dial bore gauge', { expanded: '0.0001 in', coverage: 2, common_share: 0.5 });
    // .0003 from the limit wants u ≤ .00018: both bore gauges would do; the micrometer is fine enough, but no bore gauge.
    expect(bench.judgement('gap')).toMatchObject({
      status: 'cannot-tell',
      next: { move: 'use-instrument', instrument: 'dbg' },
    });
  });

  it('is not an instrument that cannot take the measure, however fine', () => {
    const bench = new Bench(gap('0.0050 in'));
    bench.declare('edge', 'straightedge and leaf', { expanded: '0.0007 in', coverage: 2, common_share: 0.5 });
    bench.read('gap', '0.0047 in', { instrument: 'edge' });
    expect(bench.judgement('gap').next?.move).toBe('finer-than-owned');
  });

  it('says how fine it would have to be when nothing owned is', () => {
    const bench = new Bench(gap('0.0050 in'));
    bench.read('gap', '0.00495 in', { instrument: 'mic' });
    const { next } = bench.judgement('gap');
    expect(next?.move === 'finer-than-owned' && next.needed / THOU).toBeCloseTo(0.05 / 1.6449, 4);
  });

  it('says when a reading lies on the limit, which nothing decides', () => {
    const bench = new Bench(gap('0.0050 in'));
    bench.read('gap', '0.0050 in', { instrument: 'mic' });
    expect(bench.judgement('gap').next).toEqual({ move: 'on-the-limit' });
  });

  it('does not matter when the same thing at another place of the same part is out', () => {
    const journal = inches('journal', {
      position: 'crank',
      places: ['main'],
      limits: { wear: { lower: '2.4980 in' } },
    });
    const bench = new Bench({
      axes: { main: ['1', '2'] },
      positions: [{ id: 'crank', name: 'Crank' }],
      characteristics: [journal],
    });
    bench.part('crank', 'crank');
    bench.read('journal', '2.4981 in', { at: '1', instrument: 'mic' });
    expect(bench.judgement('journal', '1').next?.move).not.toBe('does-not-matter');
    bench.read('journal', '2.4970 in', { at: '2', instrument: 'mic' });
    expect(bench.judgement('journal', '1')).toMatchObject({
      status: 'cannot-tell',
      next: { move: 'does-not-matter', because: { place: { main: '2' }, status: 'out' } },
    });
  });

  const difference = {
    characteristics: [
      inches('hole'),
      inches('pin'),
      inches('fit', {
        relation: lessOf('hole', 'pin'),
        limits: { wear: { upper: '0.0040 in' } },
      }),
    ],
  };

  it('names the instrument owned that would settle a figure worked out from readings, and what to read with it', () => {
    const bench = new Bench(difference);
    bench.read('hole', '1.0035 in', { instrument: 'tele' });
    bench.read('pin', '1.0000 in', { instrument: 'mic' });
    // With the gauge of .0007, U of the fit is √(.0007² + .0002²) = .00073; with that of .0003 it is .00036. The limit
    // is .0005 away, and 1.645 u are needed: .00060 and .00030.
    expect(bench.judgement('fit')).toMatchObject({
      status: 'cannot-tell',
      next: { move: 'use-instrument', instrument: 'dbg', characteristic: { id: 'hole' } },
    });
  });

  it('says where most of the doubt comes from when nothing owned is fine enough', () => {
    const bench = new Bench(difference);
    bench.read('hole', '1.0038 in', { instrument: 'dbg' });
    bench.read('pin', '1.0000 in', { instrument: 'mic' });
    const { next } = bench.judgement('fit');
    expect(next).toMatchObject({
      move: 'finer-than-owned',
      mostly: { instrument: 'dbg', of: [{ id: 'hole' }] },
    });
    // .0003² of .0003² + .0002².
    expect(next?.move === 'finer-than-owned' && next.mostly?.share).toBeCloseTo(9 / 13, 6);
  });
});

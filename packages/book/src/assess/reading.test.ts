import { CATALOGUE, standardUncertainty } from '@fettle/core';
import { describe, expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches, lessOf } from '../testing/tiny-sheet.ts';
import { temperatureNote } from '../words/temperature.ts';
import { asRead } from './as-read.ts';
import type { Operand } from './operand.ts';
import { asFittedNow } from './selection.ts';

const THOU = 25.4e-6;
const value = (operand: Operand): number => (operand.kind === 'value' ? operand.q.value / THOU : Number.NaN);
const doubt = (operand: Operand): number =>
  operand.kind === 'value' ? standardUncertainty(operand.q) / THOU : Number.NaN;

const BORE = {
  axes: { height: ['top', 'bottom'] },
  positions: [{ id: 'block', name: 'Block' }],
  characteristics: [
    inches('bore', { position: 'block', places: ['height'], expansion: '11.4e-6 1/K' }),
    inches('wear', {
      position: 'block',
      places: ['height'],
      reduce: { by: 'worst', over: ['height'] },
      relation: { linear: { terms: [{ factor: 1, of: 'bore' }], constant: '-3.5000 in' } },
      limits: { wear: { upper: '0.0080 in' } },
    }),
    inches('taper', {
      position: 'block',
      relation: { reduce: { by: 'range', over: ['height'], of: 'bore' } },
      limits: { wear: { upper: '0.0060 in' } },
    }),
  ],
};

function measured(temperature?: { part?: string; instrument?: string }) {
  const bench = new Bench(BORE);
  bench.part('block', 'block');
  for (const [at, size] of Object.entries({ top: '3.5071', bottom: '3.5013' }))
    bench.read('bore', `${size} in`, { at, instrument: 'tele', ...(temperature && { temperature }) });
  return { wear: bench.judgement('wear'), taper: bench.judgement('taper') };
}

describe('a length read away from 20 °C', () => {
  const asRead = measured();
  const cold = measured({ part: '6 degC', instrument: '20 degC' });

  it('is brought to 20 °C: 3.5071 in at 6 °C reads .00056 in low', () => {
    expect(value(cold.wear.operand) - value(asRead.wear.operand)).toBeCloseTo(3507.1 * 11.4e-6 * 14, 3);
  });

  it('may turn a verdict: in as read, cannot be told at 20 °C', () => {
    expect(asRead.wear.status).toBe('in');
    expect(cold.wear.status).toBe('cannot-tell');
  });

  it('changes no taper, nor its doubt', () => {
    expect(value(cold.taper.operand)).toBeCloseTo(value(asRead.taper.operand), 2);
    expect(doubt(cold.taper.operand)).toBeCloseTo(doubt(asRead.taper.operand), 3);
    expect(cold.taper.status).toBe(asRead.taper.status);
  });

  it('carries the doubt of the thermometer and of the expansion', () => {
    // U of the thermometer 1 K, so u ½ K, half of its variance common to part and instrument: of that α − α_s is left.
    // The other half is each reading's own and adds: √2 × 4e-5 in/K × .354 K = 2e-5 in. And 5 % of α over 14 K.
    const common = 3507.1 * (11.5e-6 - 11.4e-6) * 0.5 * Math.SQRT1_2;
    const own = 3507.1 * Math.hypot(11.5e-6, 11.4e-6) * 0.5 * Math.SQRT1_2;
    expect(own).toBeCloseTo(0.02, 3);
    const thermometer = Math.hypot(common, own);
    const expansion = 3507.1 * 0.05 * 11.4e-6 * 14;
    expect(doubt(cold.wear.operand)).toBeCloseTo(
      Math.hypot(0.35 * (1 + 14 * 11.4e-6), thermometer, expansion),
      5,
    );
  });

  it('is the same as read when part and a steel instrument are alike cold and alike in expansion', () => {
    const both = measured({ part: '6 degC', instrument: '6 degC' });
    expect(value(both.wear.operand) - value(asRead.wear.operand)).toBeCloseTo(-3507.1 * 0.1e-6 * 14, 3);
  });

  it('is taken as read where the sheet gives no expansion', () => {
    const bench = new Bench({ characteristics: [inches('pin')] });
    bench.read('pin', '1.0000 in', { instrument: 'mic', temperature: { part: '6 degC' } });
    expect(value(bench.judgement('pin').operand)).toBeCloseTo(1000, 9);
  });
});

describe('a measurand', () => {
  const RADIAL = (limit: string, measurand: 'per-side' | 'total') => ({
    characteristics: [
      inches('radial', {
        measurand,
        ask_measurand: true,
        limits: { wear: { upper: limit } },
        read_as:
          measurand === 'per-side'
            ? { total: { how: 'gear held over to one side', factor: 0.5 } }
            : { 'per-side': { how: 'gear in the middle', factor: 2 } },
      }),
    ],
  });
  it('other than the sheet’s is brought to it, doubt and all', () => {
    const bench = new Bench(RADIAL('0.005 in', 'per-side'));
    bench.read('radial', '0.0080 in', { measurand: 'total', instrument: 'mic' });
    const { operand, status, members } = bench.judgement('radial');
    expect(value(operand)).toBeCloseTo(4, 9);
    expect(doubt(operand)).toBeCloseTo(0.05, 9);
    expect(status).toBe('in');
    expect(members[0]!.known.witnesses[0]).toMatchObject({ measurand: 'total', by: 'readings' });
  });

  it('of leaves too, and readings of two measurands are two witnesses', () => {
    const bench = new Bench(RADIAL('0.010 in', 'total'));
    bench.read(
      'radial',
      { goes: '0.002 in', stops: '0.003 in' },
      { measurand: 'per-side', instrument: 'leaves' },
    );
    bench.read(
      'radial',
      { goes: '0.004 in', stops: '0.007 in' },
      { measurand: 'total', instrument: 'leaves' },
    );
    const { operand, members, status } = bench.judgement('radial');
    expect(members[0]!.known.witnesses).toHaveLength(2);
    expect(operand.kind === 'interval' && operand.upper!.value / THOU).toBeCloseTo(6, 9);
    expect(status).toBe('in');
  });
});

describe('a leaf that drags', () => {
  const GAP = {
    characteristics: [inches('gap', { limits: { wear: { lower: '0.0010 in', upper: '0.0046 in' } } })],
  };
  const edges = (operand: Operand): [number, number] =>
    operand.kind === 'interval'
      ? [operand.lower!.value / THOU, operand.upper!.value / THOU]
      : [Number.NaN, Number.NaN];

  it('fills the gap but for its own feel, twice its standard uncertainty, and may so decide', () => {
    const bench = new Bench(GAP);
    bench.read('gap', { goes: '0.004 in' }, { instrument: 'leaves', drags: true });
    // U of the leaves is .0005 in: from .0040 to .0045, under .0046.
    const judged = bench.judgement('gap');
    expect(edges(judged.operand)[0]).toBeCloseTo(4, 9);
    expect(edges(judged.operand)[1]).toBeCloseTo(4.5, 9);
    expect(judged.status).toBe('in');
    const free = new Bench(GAP);
    free.read('gap', { goes: '0.004 in' }, { instrument: 'leaves' });
    expect(free.judgement('gap').status).toBe('cannot-tell');
  });

  it('says no more than a leaf that stops sooner, and must be one that goes', () => {
    const bench = new Bench(GAP);
    bench.read('gap', { goes: '0.004 in', stops: '0.0042 in' }, { instrument: 'leaves', drags: true });
    expect(edges(bench.judgement('gap').operand)[1]).toBeCloseTo(4.2, 9);
    const said = bench.said('gap', { stops: '0.005 in' }, { instrument: 'leaves', drags: true });
    expect(said.ok ? [] : said.issues.map(({ code }) => code)).toEqual(['feeler/nothing-drags']);
  });
});

describe('leaves laid together', () => {
  const gap = () => new Bench({ characteristics: [inches('gap')] });
  const edge = (bench: Bench, which: 'lower' | 'upper'): number => {
    const { operand } = bench.judgement('gap');
    return operand.kind === 'interval' ? standardUncertainty(operand[which]!) / THOU : Number.NaN;
  };

  it('carry what the set has in common straight, each leaf’s own by squares, and a film between', () => {
    const bench = gap();
    bench.read('gap', { goes: '3 + 4 thou', stops: '8 thou' }, { instrument: 'leaves' });
    // u .25 of each, half of the variance common: (2 × .1768)² + 2 × .1768² + (1.25 μm = .0492 thou)².
    const [half, film] = [0.25 / Math.SQRT2, 1.25 / 25.4];
    expect(edge(bench, 'lower')).toBeCloseTo(Math.sqrt((2 * half) ** 2 + 2 * half ** 2 + film ** 2), 9);
    expect(edge(bench, 'upper')).toBeCloseTo(0.25, 9);
  });

  it('are the same bracket as one leaf of that thickness, only softer', () => {
    const [single, laid] = [gap(), gap()];
    single.read('gap', { goes: '7 thou' }, { instrument: 'leaves' });
    laid.read('gap', { goes: '3 + 4 thou' }, { instrument: 'leaves' });
    const lower = (bench: Bench) => {
      const { operand } = bench.judgement('gap');
      return operand.kind === 'interval' ? operand.lower!.value : Number.NaN;
    };
    expect(lower(laid)).toBeCloseTo(lower(single), 12);
    expect(edge(laid, 'lower')).toBeGreaterThan(edge(single, 'lower'));
  });
});

describe('a temperature that was said', () => {
  const MATERIALS = {
    materials: {
      iron: { name: 'Iron', expansion: '11.4e-6 1/K' },
      alloy: { name: 'Alloy', expansion: '22e-6 1/K', doubt: '7 %' },
    },
  };
  const codes = ({ cautions }: { cautions: readonly { code: string }[] }) => cautions.map(({ code }) => code);
  const note = (bench: Bench, id: string): string => {
    const book = bench.book();
    const judged = bench.judgement(id);
    return temperatureNote(judged, asRead(book, asFittedNow(book), CATALOGUE, judged)!);
  };

  it('where the sheet gives no expansion is said to be not corrected for, with what steel would do', () => {
    const bench = new Bench({
      characteristics: [inches('width', { limits: { wear: { lower: '0.7490 in' } } })],
    });
    const warm = { part: '70 degC', instrument: '20 degC' };
    bench.read('width', '0.7510 in', { instrument: 'mic', temperature: warm });
    const judged = bench.judgement('width');
    expect(value(judged.operand)).toBeCloseTo(751, 9);
    expect(codes(judged)).toEqual(['temperature/not-corrected']);
    // .751 in × 11.5e-6 × 50 K = .00043 in.
    expect(judged.cautions[0]!.message).toContain('0.0004 in less');
    expect(note(bench, 'width')).toContain('NOT');
  });

  it('of a single size is never said not to matter', () => {
    const bench = new Bench({ ...MATERIALS, characteristics: [inches('width', { material: 'iron' })] });
    bench.read('width', '0.7510 in', {
      instrument: 'mic',
      temperature: { part: '20.3 degC', instrument: '20.3 degC' },
    });
    expect(note(bench, 'width')).not.toContain('does not depend');
  });

  it('does not matter where all that is compared shares it and the material, and only there', () => {
    const of = (inner: string) => {
      const bench = new Bench({
        ...MATERIALS,
        characteristics: [
          inches('housing', { material: 'iron' }),
          inches('journal', { material: inner }),
          inches('gap', { relation: lessOf('housing', 'journal') }),
        ],
      });
      const temperature = { part: '8 degC', instrument: '8 degC' };
      bench.read('housing', '2.0000 in', { instrument: 'mic', temperature });
      bench.read('journal', '1.9980 in', { instrument: 'mic', temperature });
      return note(bench, 'gap');
    };
    expect(of('iron')).toContain('does not depend');
    // The alloy grows more: 2 in × (22 − 11.4)e-6 × 12 K = .00025 in off the gap.
    expect(of('alloy')).toContain('0.00025 in less');
  });

  it('of the part alone leaves that of the instrument open between it and 20 °C', () => {
    const at = (temperature: { part: string; instrument?: string }) => {
      const bench = new Bench({ ...MATERIALS, characteristics: [inches('bore', { material: 'iron' })] });
      bench.read('bore', '3.5000 in', { instrument: 'mic', temperature });
      return bench.judgement('bore');
    };
    const open = at({ part: '6 degC' });
    const [warmScale, coldScale] = ['20 degC', '6 degC'].map((instrument) =>
      at({ part: '6 degC', instrument }),
    );
    expect(codes(open)).toEqual(['temperature/half-said']);
    expect(codes(warmScale!)).toEqual([]);
    // Half of the correction, and a rectangular doubt over all of it: 3.5 in × 11.5e-6 × 14 K / (2 √3) = .163 thou.
    expect(value(open.operand)).toBeCloseTo((value(warmScale!.operand) + value(coldScale!.operand)) / 2, 3);
    const term =
      open.operand.kind === 'value' && open.operand.q.terms.find(({ shape }) => shape === 'rectangular');
    expect(Math.abs(term ? term.u : 0) / THOU).toBeCloseTo((3500 * 11.5e-6 * 14) / (2 * Math.sqrt(3)), 4);
  });

  it('two lengths of one material have one doubt about its expansion between them', () => {
    const bench = new Bench({
      ...MATERIALS,
      characteristics: [inches('a', { material: 'alloy' }), inches('b', { material: 'alloy' })],
    });
    const temperature = { part: '6 degC', instrument: '20 degC' };
    for (const id of ['a', 'b']) bench.read(id, '3.0000 in', { instrument: 'mic', temperature });
    const sources = ['a', 'b'].map((id) => {
      const { operand } = bench.judgement(id);
      return operand.kind === 'value'
        ? operand.q.terms.find(({ source }) => source.startsWith('expansion'))
        : undefined;
    });
    expect(sources[0]?.source).toBe('expansion:alloy');
    expect(sources[1]?.source).toBe('expansion:alloy');
    // 3 in × 22e-6 × 7 % × 14 K.
    expect(Math.abs(sources[0]!.u) / THOU).toBeCloseTo(3000 * 22e-6 * 0.07 * 14, 4);
  });

  it('is compared at the same place, also where the worst place is another as read', () => {
    const bench = new Bench({
      ...MATERIALS,
      axes: { end: ['top', 'bottom'] },
      characteristics: [
        inches('bore', {
          material: 'iron',
          places: ['end'],
          reduce: { by: 'worst', over: ['end'] },
          limits: { wear: { lower: '3.5000 in', upper: '3.5080 in' } },
        }),
      ],
    });
    const temperature = { part: '6 degC', instrument: '20 degC' };
    // As read the bottom is the nearer to a limit, brought to 20 °C the top is: .56 thou more.
    bench.read('bore', '3.5075 in', { at: 'top', instrument: 'dbg', temperature });
    bench.read('bore', '3.5004 in', { at: 'bottom', instrument: 'dbg', temperature });
    const book = bench.book();
    const judged = bench.judgement('bore');
    const before = asRead(book, asFittedNow(book), CATALOGUE, judged)!;
    expect(judged.worstAt).toEqual({ end: 'top' });
    expect(before.judgement.worstAt).toEqual({ end: 'bottom' });
    expect(value(judged.operand) - value(before.operand)).toBeCloseTo(0.56, 2);
  });
});

import { describe, expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';

// Facts of the trade about oil pumps, seals and springs. Common practice, no source.

/** End clearance is what a leaf finds under a straightedge and what the cover is hollowed by; at most so many thou. */
const endClearance = (upper: string) => ({
  axes: { point: ['1', '2', '3'] },
  positions: [
    { id: 'gears', name: 'Gears' },
    { id: 'body', name: 'Body' },
    { id: 'cover', name: 'Cover' },
  ],
  characteristics: [
    inches('body-depth', { position: 'body' }),
    inches('gear-width', { position: 'gears' }),
    inches('cover-groove', { position: 'cover', places: ['point'], non_negative: true }),
    inches('end-clearance', {
      measurand: 'total',
      position: 'gears',
      mates: ['body'],
      places: ['point'],
      reduce: { by: 'worst', over: ['point'] },
      relation: {
        linear: {
          terms: [
            { factor: 1, of: 'body-depth' },
            { factor: -1, of: 'gear-width' },
            { factor: 1, of: 'cover-groove' },
          ],
        },
      },
      read_as: {
        'to-straightedge': {
          how: 'leaf under a straightedge across the body, cover off',
          factor: 1,
          plus: [{ factor: 1, of: 'cover-groove' }],
        },
      },
      limits: { wear: { upper } },
    }),
  ],
});

function pump(upper: string): Bench {
  const bench = new Bench(endClearance(upper));
  for (const part of ['gears', 'body', 'cover']) bench.part(part, part);
  bench.read(
    'end-clearance',
    { goes: '2 thou', stops: '7 thou' },
    { measurand: 'to-straightedge', instrument: 'leaves' },
  );
  return bench;
}

describe('end clearance, where 2 thou goes and 7 does not, against at most 7', () => {
  it('cannot be told while the cover is unmeasured, and the cover is what to measure next', () => {
    const judged = pump('7 thou').judgement('end-clearance');
    expect(judged.status).toBe('cannot-tell');
    expect(judged.next).toMatchObject({
      move: 'measure',
      what: ['1', '2', '3'].map((point) => ({ characteristic: { id: 'cover-groove' }, place: { point } })),
    });
  });

  it('is in with the cover measured flat', () => {
    const bench = pump('7 thou');
    bench.read('cover-groove', '0 in', { instrument: 'depth' });
    expect(bench.judgement('end-clearance').status).toBe('in');
  });

  it('cannot be told when the cover is hollow', () => {
    const bench = pump('7 thou');
    bench.read('cover-groove', '0.0030 in', { instrument: 'depth' });
    expect(bench.judgement('end-clearance').status).toBe('cannot-tell');
  });

  it('is out, the cover unmeasured, when a leaf as thick as the limit goes', () => {
    const bench = pump('2 thou');
    expect(bench.judgement('end-clearance').status).toBe('out');
  });
});

/** Radial clearance, limited a side or altogether; a leaf may be tried either way, and it must be said which. */
const radialClearance = (measurand: 'per-side' | 'total', upper: string) => ({
  characteristics: [
    inches('radial', {
      measurand,
      ask_measurand: true,
      read_as:
        measurand === 'per-side'
          ? { total: { how: 'gear held over to one side, leaf at the other', factor: 0.5 } }
          : { 'per-side': { how: 'gear in the middle, leaf at one side', factor: 2 } },
      limits: { wear: { upper } },
    }),
  ],
});

function radial(limited: 'per-side' | 'total', upper: string, read: 'per-side' | 'total') {
  const bench = new Bench(radialClearance(limited, upper));
  bench.read('radial', { goes: '2 thou', stops: '6 thou' }, { measurand: read, instrument: 'leaves' });
  return bench.judgement('radial').status;
}

describe('radial clearance, where 2 thou goes and 6 does not', () => {
  it('recorded per side cannot be told, against 5 a side or 10 altogether', () => {
    expect(radial('per-side', '5 thou', 'per-side')).toBe('cannot-tell');
    expect(radial('total', '10 thou', 'per-side')).toBe('cannot-tell');
  });

  it('recorded as total, the gear held over, is in against 10, and against 5 a side', () => {
    expect(radial('total', '10 thou', 'total')).toBe('in');
    expect(radial('per-side', '5 thou', 'total')).toBe('in');
  });

  it('unrecorded is not judged: the tool asks which it is', () => {
    for (const limited of ['per-side', 'total'] as const) {
      const bench = new Bench(radialClearance(limited, '10 thou'));
      const said = bench.said('radial', { goes: '2 thou', stops: '6 thou' }, { instrument: 'leaves' });
      expect(!said.ok && said.issues).toMatchObject([{ code: 'reading/measurand-missing' }]);
      expect(!said.ok && said.issues[0]!.message).toMatch(/per-side/);
      expect(!said.ok && said.issues[0]!.message).toMatch(/total/);
    }
  });
});

describe('two shims together, one each side', () => {
  it('each as thick as the limit per side, prove the total too large', () => {
    for (const [limited, upper] of [
      ['per-side', '5 thou'],
      ['total', '10 thou'],
    ] as const) {
      const bench = new Bench(radialClearance(limited, upper));
      bench.read('radial', { goes: '10 thou' }, { measurand: 'total', instrument: 'leaves' });
      expect(bench.judgement('radial').status).toBe('out');
    }
  });

  it('prove nothing when only one of them goes', () => {
    const bench = new Bench(radialClearance('total', '10 thou'));
    bench.read('radial', { goes: '5 thou' }, { measurand: 'total', instrument: 'leaves' });
    expect(bench.judgement('radial').status).toBe('cannot-tell');
  });
});

describe('gears and cover wear each other', () => {
  it('so a groove adds to the end clearance, as deep as it is', () => {
    const clearance = (groove: string) => {
      const bench = new Bench(endClearance('9 thou'));
      for (const part of ['gears', 'body', 'cover']) bench.part(part, part);
      bench.read('body-depth', '0.7545 in', { instrument: 'depth' });
      bench.read('gear-width', '0.7510 in', { instrument: 'mic' });
      bench.read('cover-groove', groove, { instrument: 'depth' });
      const { operand } = bench.judgement('end-clearance');
      return operand.kind === 'value' ? operand.q.value / 25.4e-6 : Number.NaN;
    };
    // .7545 − .7510 = .0035 by straightedge; with the groove .0070.
    expect(clearance('0 in')).toBeCloseTo(3.5, 6);
    expect(clearance('0.0035 in')).toBeCloseTo(7, 6);
  });
});

describe('new gears', () => {
  it('cannot be told from worn ones by eye: until they are measured nothing is said of them', () => {
    const bench = pump('7 thou');
    bench.read('cover-groove', '0 in', { instrument: 'depth' });
    expect(bench.judgement('end-clearance').status).toBe('in');
    bench.part('gears-new', 'gears', 'new');
    const judged = bench.judgement('end-clearance');
    expect(judged.status).toBe('missing');
    expect(judged.next).toMatchObject({ move: 'measure' });
    expect(bench.judgement('gear-width').next).toMatchObject({
      move: 'measure',
      what: [{ characteristic: { id: 'gear-width' } }],
    });
  });
});

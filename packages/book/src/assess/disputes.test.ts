import { describe, expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import type { Judgement } from './judgement.ts';

const codes = ({ cautions }: Judgement): string[] => cautions.map(({ code }) => code);

/** A bore, what it is worn by, and how far it goes from one end to the other. */
const sheet = (wear: string) => ({
  axes: { end: ['top', 'bottom'] },
  positions: [{ id: 'block', name: 'Block' }],
  characteristics: [
    inches('bore', {
      position: 'block',
      places: ['end'],
      reduce: { by: 'worst', over: ['end'] },
      limits: { wear: { upper: '3.5080 in' } },
    }),
    inches('wear', {
      position: 'block',
      places: ['end'],
      reduce: { by: 'worst', over: ['end'] },
      relation: { linear: { terms: [{ factor: 1, of: 'bore' }], constant: '-3.5 in' } },
      limits: { wear: { upper: wear } },
    }),
    inches('wear-beyond', {
      position: 'block',
      places: ['end'],
      reduce: { by: 'worst', over: ['end'] },
      relation: { linear: { terms: [{ factor: 1, of: 'wear' }], constant: '-0.001 in' } },
      limits: { wear: { upper: wear } },
    }),
    inches('spread', {
      position: 'block',
      places: ['end'],
      reduce: { by: 'range', over: ['end'] },
      relation: 'bore',
      limits: { wear: { upper: '0.0100 in' } },
    }),
  ],
});

/** Two instruments that disagree about the top: .0011 in apart where √(.35² + .15²) thou is what they allow. */
function disputed(wear: string, second = '3.5060'): Bench {
  const bench = new Bench(sheet(wear));
  bench.part('block', 'block');
  bench.read('bore', '3.5071 in', { at: 'top', instrument: 'tele' });
  bench.read('bore', `${second} in`, { at: 'top', instrument: 'dbg' });
  bench.read('bore', '3.5010 in', { at: 'bottom', instrument: 'tele' });
  return bench;
}

describe('a disagreement of witnesses', () => {
  it('is carried into what is worked out from it, and withheld there as for itself', () => {
    const bench = disputed('0.0080 in');
    const [bore, wear, beyond] = ['bore', 'wear', 'wear-beyond'].map((id) => bench.judgement(id));
    for (const judged of [bore!, wear!, beyond!]) {
      expect(judged.consistent).toBe(false);
      expect(codes(judged)).toContain('verdict/witnesses-disagree');
      expect(judged.disputes).toEqual([{ characteristic: 'bore', place: { end: 'top' } }]);
    }
  });

  it('leaves a verdict only where it would be the same whichever of them is right', () => {
    // Wear .0071 by the one and .0060 by the other: a limit of .0066 lies between them.
    expect(disputed('0.0066 in').judgement('wear').status).toBe('cannot-tell');
    // Both are far under .02, and so is everything between them.
    expect(disputed('0.0200 in').judgement('wear')).toMatchObject({ status: 'in', consistent: false });
    // Both are far over .001.
    expect(disputed('0.0010 in').judgement('wear')).toMatchObject({ status: 'out', consistent: false });
  });

  it('is not said of what does not rest on it, nor where the witnesses agree', () => {
    const agreed = disputed('0.0080 in', '3.5070').judgement('wear');
    expect(agreed).toMatchObject({ consistent: true, disputes: [] });
    expect(codes(agreed)).not.toContain('verdict/witnesses-disagree');
  });

  it('counts in greatest less least of the places too', () => {
    // .0061 by the one, .0050 by the other: both under .0100.
    const spread = disputed('0.0080 in').judgement('spread');
    expect(spread).toMatchObject({ consistent: false });
    expect(codes(spread)).toContain('verdict/witnesses-disagree');
  });

  it('is settled by reading again what disagrees', () => {
    expect(disputed('0.0066 in').judgement('wear').next).toEqual({ move: 'settle-disagreement' });
  });
});

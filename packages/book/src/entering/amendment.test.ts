import { describe, expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { admittedAmendment } from './amendment.ts';

const bench = () =>
  new Bench({
    characteristics: [inches('shaft.size', { limits: { wear: { lower: '0.9 in' } } }), inches('pin.size')],
  });
const amendment = (characteristic: string, change: Record<string, unknown>) => ({
  characteristic,
  change,
  why: 'a better source',
});

describe('an amendment', () => {
  it('that fits is admitted, and the fold takes what the door admitted', () => {
    const made = bench();
    // Each names a document the sheet does not have; the second comes after the first.
    for (const id of ['shaft.size', 'pin.size']) {
      const change = { source: { document: `letter about ${id}`, trust: 'remembered' } };
      const admitted = admittedAmendment(made.book(), amendment(id, change));
      if (!admitted.ok) throw new Error(JSON.stringify(admitted.issues));
      made.desk.write('characteristic-amended', admitted.value);
      expect(made.book().problems).toEqual([]);
      expect(made.book().characteristics.get(id)).toMatchObject(change);
    }
    // The limits the first amendment left alone are still the sheet's.
    expect(made.book().characteristics.get('shaft.size')?.limits?.wear?.lower).toBe('0.9 in');
  });

  it.each([
    ['limits that cross', 'shaft.size', { limits: { wear: { lower: '0.9 in', upper: '0.8 in' } } }],
    ['a unit of another kind', 'shaft.size', { limits: { wear: { lower: '9 psi' } } }],
    ['an unknown characteristic', 'bore.size', { name: 'Bore' }],
    ['a relation that rests on nothing', 'pin.size', { relation: 'no.such' }],
  ])('with %s is not', (_, characteristic, change) => {
    expect(admittedAmendment(bench().book(), amendment(characteristic, change)).ok).toBe(false);
  });
});

import { expect, it } from 'vitest';
import { sourcesOf } from '../assess/limits.ts';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { amendedLimits } from './amended-limits.ts';

const PRINTED = { document: 'made', page: '41', trust: 'printed' };
const NOTE = { document: 'own note', trust: 'remembered' } as const;
const FLOAT = inches('float', {
  source: PRINTED,
  limits: { wear: { lower: '0.0040 in', upper: '0.0120 in' } },
});

/** The characteristic after each of some changes, made one after the other. */
function amended(...changes: readonly { lower?: string | null; upper?: string }[]) {
  const bench = new Bench({ characteristics: [FLOAT] });
  for (const change of changes) {
    const now = bench.book().characteristics.get('float')!;
    bench.desk.write('characteristic-amended', {
      characteristic: 'float',
      change: { limits: { wear: amendedLimits(now, 'wear', change, NOTE) } },
      why: 'a later edition',
    });
  }
  return bench.book().characteristics.get('float')!;
}

it('a bound that was not touched keeps its printed source', () => {
  const after = amended({ upper: '0.0100 in' });
  expect(after.limits?.wear).toMatchObject({ lower: '0.0040 in', upper: '0.0100 in' });
  expect(sourcesOf(after, 'wear')).toEqual([
    { bounds: ['lower'], source: PRINTED },
    { bounds: ['upper'], source: NOTE },
  ]);
});

it('one amended after the other, both are the note’s', () => {
  const after = amended({ upper: '0.0100 in' }, { lower: '0.0045 in' });
  expect(sourcesOf(after, 'wear')).toEqual([{ bounds: ['lower', 'upper'], source: NOTE }]);
});

it('a bound taken out is gone, and its source with it', () => {
  const after = amended({ upper: '0.0100 in' }, { lower: null });
  expect(after.limits?.wear?.lower).toBeUndefined();
  expect(sourcesOf(after, 'wear')).toEqual([{ bounds: ['upper'], source: NOTE }]);
});

it('both at once have one source, as before', () => {
  const after = amended({ lower: '0.0030 in', upper: '0.0100 in' });
  expect(sourcesOf(after, 'wear')).toEqual([{ bounds: ['lower', 'upper'], source: NOTE }]);
});

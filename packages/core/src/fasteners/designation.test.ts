import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { threadFrom } from './designation.ts';
import { UNIFIED_SIZES } from './unified-series.ts';

const named = (text: string) => {
  const read = threadFrom(text);
  return read.ok ? read.value.designation : read.issues[0]!.code;
};

it.each([
  ['5/16-18 UNC', '5/16-18 UNC'],
  ['5/16-18', '5/16-18 UNC'],
  ['5/16"-18 UNC-2A', '5/16-18 UNC'],
  ['5/16-18UNC', '5/16-18 UNC'],
  ['5/16 x 18', '5/16-18 UNC'],
  ['.3125-18', '5/16-18 UNC'],
  ['1/4-28 UNF', '1/4-28 UNF'],
  ['1/4 UNF', '1/4-28 UNF'],
  ['1/4–28 unf', '1/4-28 UNF'],
  ['3/8-24 NF', '3/8-24 UNF'],
  ['7/8-9', '7/8-9 UNC'],
  ['#10-32', '#10-32 UNF'],
  ['No. 10-24', '#10-24 UNC'],
  ['8-32', '#8-32 UNC'],
  ['1-8', '1-8 UNC'],
  ['1-1/8-7', '1-1/8-7 UNC'],
  ['1 1/8-12 UNF', '1-1/8-12 UNF'],
  ['1-14 UNS', '1-14 UNS'],
  ['5/16-32 UN', '5/16-32 UN'],
  ['M8x1.25', 'M8x1.25'],
  ['M8', 'M8x1.25'],
  ['m8 × 1', 'M8x1'],
  ['M10x1.25-6g', 'M10x1.25'],
  ['M12*1.5', 'M12x1.5'],
])('"%s" reads as %s', (text, wanted) => expect(named(text)).toBe(wanted));

it.each([
  '5/16-22 BSF',
  '5/16-26 BSCY',
  '5/16-26 BSC',
  '5/16-26 cycle',
  '5/16-26',
  '5/16-22',
  '3/8-20',
  '1/2-16',
  '1/4-20 BSW',
  '1/4 Whitworth',
  '0 BA',
  '2BA',
  '5/16-26BSF',
  'G1/4',
  '1/8-27 NPT',
  'R 1/2',
])('"%s" is not known and never taken as Unified', (text) => expect(named(text)).toBe('thread/unknown-form'));

it.each([
  ['5/16-18 UNF', 'thread/series-pitch'],
  ['1/4-20 UNF', 'thread/series-pitch'],
  ['5/16-22 UN', 'thread/series-pitch'],
  ['17/64-20', 'thread/unknown-size'],
  ['M8x1.5', 'thread/pitch-not-listed'],
  ['M8x1,25', 'thread/unreadable'],
  ['M13', 'thread/unknown-size'],
  ['5/16', 'thread/unreadable'],
  ['', 'thread/unreadable'],
  ['5/0-18', 'thread/unknown-size'],
  ['eight', 'thread/unreadable'],
])('"%s" is an issue: %s', (text, code) => expect(named(text)).toBe(code));

it('every size of the table reads back from its own designation', () => {
  for (const size of UNIFIED_SIZES) {
    for (const series of ['UNC', 'UNF', 'UNEF'] as const) {
      const count = size[series];
      if (count !== undefined)
        expect(named(`${size.name}-${count} ${series}`)).toBe(`${size.name}-${count} ${series}`);
    }
  }
});

it('no writing throws, and a read thread always has a real size', () => {
  fc.assert(
    fc.property(
      fc.oneof(fc.string(), fc.stringMatching(/^[0-9#M][0-9/ .x-]{0,8}(UNC|UNF|BSF)?$/)),
      (text) => {
        const read = threadFrom(text);
        if (read.ok) expect(read.value.major).toBeGreaterThan(read.value.pitch);
        else expect(read.issues[0]!.message.length).toBeGreaterThan(10);
      },
    ),
  );
});

import { createHash } from 'node:crypto';
import { contentHash } from '@fettle/book';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { canonicalText } from './canonical-text.ts';

it('writes keys in the order of RFC 8785, section 3.2.3', () => {
  const sorting = { '\u20ac': 1, '\r': 2, '\ufb33': 3, '1': 4, '\ud83d\ude00': 5, '\u0080': 6, '\u00f6': 7 };
  expect(Object.values(JSON.parse(`[${canonicalText(sorting).match(/:\d/g)}]`.replaceAll(':', '')))).toEqual([
    2, 4, 6, 7, 1, 5, 3,
  ]);
});

it('is the text whose hash book gives the value', () => {
  fc.assert(
    fc.property(fc.jsonValue(), (value) => {
      expect(createHash('sha256').update(canonicalText(value)).digest('hex')).toBe(contentHash(value));
    }),
  );
});

import { expect, it } from 'vitest';
import { isWorthPacking, takesGzip } from './packing.ts';

it.each([
  ['gzip, deflate, br', true],
  ['GZIP;q=0.5', true],
  ['*', true],
  ['br;q=1, *;q=0.1', true],
  ['gzip;q=0, *', false],
  ['gzip;q=0.0', false],
  ['br', false],
  ['identity', false],
  ['gzip;q=much', false],
  ['', false],
  [undefined, false],
])('reads Accept-Encoding %s (RFC 9110, 12.5.3)', (header, taken) => {
  expect(takesGzip(header)).toBe(taken);
});

it('packs text, not what is packed already', () => {
  const all = ['text/javascript; charset=utf-8', 'image/svg+xml', 'font/woff2', 'image/png'];
  expect(all.map(isWorthPacking)).toEqual([true, true, false, false]);
});

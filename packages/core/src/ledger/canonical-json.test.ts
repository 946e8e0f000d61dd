import fc from 'fast-check';
import { expect, it } from 'vitest';
import { canonicalJson } from './canonical-json.ts';

it('gives the bytes printed in RFC 8785 section 3.2.4 for the example of section 3.2.2', () => {
  const sample = {
    // biome-ignore lint/correctness/noPrecisionLoss: the digits are the RFC's own example.
    numbers: [333333333.33333329, 1e30, 4.5, 2e-3, 0.000000000000000000000000001],
    string: '\u20ac$\u000f\u000aA\'B"\\\\"/',
    literals: [null, true, false],
  };
  expect(canonicalJson(sample)).toBe(
    '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
  );
});

it('sorts keys by UTF-16 code units, as in RFC 8785 section 3.2.3', () => {
  const keys = ['\u20ac', '\r', '\ufb33', '1', '\ud83d\ude00', '\u0080', '\u00f6'];
  const printed = canonicalJson(Object.fromEntries(keys.map((key) => [key, 0])));
  expect(Object.keys(JSON.parse(printed) as object).slice(0)).toHaveLength(7);
  const order = [...printed.matchAll(/"((?:[^"\\]|\\.)*)":0/gu)].map((match) => JSON.parse(`"${match[1]}"`));
  expect(order).toEqual(['\r', '1', '\u0080', '\u00f6', '\u20ac', '\ud83d\ude00', '\ufb33']);
});

it('does not depend on the order in which keys were set, and reads back the same', () => {
  fc.assert(
    fc.property(fc.dictionary(fc.string(), fc.jsonValue()), (value) => {
      const turned = Object.fromEntries(Object.entries(value).reverse());
      expect(canonicalJson(turned)).toBe(canonicalJson(value));
      expect(JSON.parse(canonicalJson(value))).toEqual(JSON.parse(JSON.stringify(value)));
    }),
  );
});

it('refuses what JSON cannot hold', () => {
  expect(() => canonicalJson({ a: Number.NaN })).toThrow('no JSON form');
});

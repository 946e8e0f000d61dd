import { expect, it } from 'vitest';
import { sha256OfBytes, sha256OfJson } from './sha256.ts';

it('gives the digest that FIPS 180-4 publishes for "abc"', () => {
  expect(sha256OfBytes(new Uint8Array([0x61, 0x62, 0x63]))).toBe(
    'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
  );
});

it('names a value by its content, whatever the order of its keys', () => {
  expect(sha256OfJson({ a: 1, b: 2 })).toBe(sha256OfJson({ b: 2, a: 1 }));
  expect(sha256OfJson({ a: 1 })).not.toBe(sha256OfJson({ a: 2 }));
});

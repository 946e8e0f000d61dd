import { expect, it } from 'vitest';
import { uuidV7 } from './uuid-v7.ts';

it('gives the example of RFC 9562 appendix A.6', () => {
  const random = new Uint8Array([0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f]);
  expect(uuidV7(0x017f22e279b0, random)).toBe('017f22e2-79b0-7cc3-98c4-dc0c0c07398f');
});

it('sorts by time', () => {
  const random = new Uint8Array(10).fill(255);
  expect(uuidV7(1000, random) < uuidV7(1001, new Uint8Array(10))).toBe(true);
});

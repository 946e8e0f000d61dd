import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { fittedSize } from './picture.ts';

it('makes a large picture as large as is kept and leaves a small one as it is', () => {
  // 4032 × 3024 by 2400 ⁄ 4032: 2400 × 1800.
  expect(fittedSize(4032, 3024)).toEqual({ width: 2400, height: 1800 });
  expect(fittedSize(3024, 4032)).toEqual({ width: 1800, height: 2400 });
  expect(fittedSize(640, 480)).toEqual({ width: 640, height: 480 });
});

it('never makes a picture larger, nor one of no width', () => {
  const side = fc.integer({ min: 1, max: 20_000 });
  fc.assert(
    fc.property(side, side, (width, height) => {
      const fitted = fittedSize(width, height);
      expect(Math.max(fitted.width, fitted.height)).toBeLessThanOrEqual(
        Math.min(2400, Math.max(width, height)),
      );
      expect(Math.min(fitted.width, fitted.height)).toBeGreaterThanOrEqual(1);
    }),
  );
});

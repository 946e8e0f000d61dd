import { expect, it } from 'vitest';
import { CATALOGUE } from '../catalogue/catalogue.ts';
import { compressionSpread } from './compression-spread.ts';

it('names the cylinder that reads lowest, and how far it is below the best', () => {
  expect(compressionSpread([92, 95, 78, 90])).toEqual({
    highest: 95,
    lowest: 78,
    lowestAt: 2,
    spread: 17,
    fraction: 17 / 95,
  });
});

it('asks for more than one cylinder, and cautions where manuals differ', () => {
  const { compute } = CATALOGUE.get('compression-spread')!;
  expect(compute({ readings: [100] } as never)).toMatchObject({ issues: [{ code: 'compression/too-few' }] });
  expect(compute({ readings: [100, 88] } as never)).toMatchObject({
    cautions: [{ code: 'compression/between-limits' }],
  });
  expect(compute({ readings: [100, 95] } as never)).toMatchObject({ cautions: [] });
});

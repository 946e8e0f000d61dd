import { calculator } from '../catalogue/calculator.ts';
import { quantity } from '../catalogue/field.ts';
import { VI_LEAST_KV100, viscosityIndex } from '../oil/viscosity-index.ts';
import { squareMetrePerSecond } from '../units/si.ts';
import { viscosityOrder } from './oil-viscosity.ts';

const MOST = 2000e-6;

export const VISCOSITY_INDEX = calculator({
  name: 'viscosity-index',
  sentence: 'How little an oil thins as it warms.',
  formula: [
    'U ≥ H: VI = 100 (L − U)/(L − H), U = kv40, L and H by the table at kv100',
    'U < H: VI = (10^N − 1)/0.00715 + 100, N = log(H/U)/log(kv100)',
  ],
  sources: ['astm-d2270'],
  input: {
    kv40: quantity('kinematic-viscosity', 'kinematic viscosity at 40 °C'),
    kv100: quantity('kinematic-viscosity', 'kinematic viscosity at 100 °C, from 2 mm²/s', {
      // A limit printed as 2 must not be missed by the rounding of a unit.
      min: VI_LEAST_KV100 * 1e-6 * (1 - 1e-12),
      max: MOST,
    }),
  },
  output: { viscosity_index: { kind: 'ratio', doc: 'not rounded; the standard reports a whole number' } },
  range: 'kv100 from 2 mm²/s, under which the index is not defined',
  example: { kv40: '93 mm2/s', kv100: '10.8 mm2/s' },
  compute: (input) => {
    const order = viscosityOrder(input.kv40, input.kv100);
    if (order.length > 0) return { issues: order };
    return {
      results: {
        viscosity_index: viscosityIndex(squareMetrePerSecond(input.kv40), squareMetrePerSecond(input.kv100)),
      },
    };
  },
});

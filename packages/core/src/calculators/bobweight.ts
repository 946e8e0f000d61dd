import { calculator } from '../catalogue/calculator.ts';
import { defaultedQuantity, quantity } from '../catalogue/field.ts';
import { bobweight, pinLoad } from '../crank/balance.ts';

export const BOBWEIGHT = calculator({
  name: 'bobweight',
  sentence: 'The weight to hang on each pin while a crankshaft is balanced.',
  formula: [
    'm_rot = rods (m_big + m_shells) + m_oil',
    'm_rec = rods (m_small + m_piston + m_pin + m_rings)',
    'm = m_rot + f m_rec',
  ],
  sources: ['crank-balance'],
  input: {
    big_end: quantity('mass', 'Big end of one rod, weighed with the other end held level'),
    shells: quantity('mass', 'Both shells of one rod', { min: 0 }),
    small_end: quantity('mass', 'Small end of one rod'),
    piston: quantity('mass', 'One piston'),
    pin: quantity('mass', 'Its pin, with clips', { min: 0 }),
    rings: quantity('mass', 'Its rings', { min: 0 }),
    oil: defaultedQuantity('mass', 'Oil in and on one crank pin; assumed', 0.004, { min: 0 }),
    rods_per_pin: quantity('ratio', 'Rods on one pin', { min: 1 }),
    factor: quantity('ratio', 'f, the share of what goes up and down', { min: 0, max: 1 }),
  },
  output: {
    bobweight: { kind: 'mass', doc: 'm, for each pin' },
    rotating: { kind: 'mass', doc: 'm_rot' },
    reciprocating: { kind: 'mass', doc: 'm_rec, of one pin' },
  },
  range:
    'f = 1/2 is exact for the first order of a two-plane 90° V8; other engines have their own, and an in-line four needs no bobweight',
  example: {
    big_end: '450 g',
    shells: '45 g',
    small_end: '180 g',
    piston: '520 g',
    pin: '120 g',
    rings: '45 g',
    oil: '4 g',
    rods_per_pin: '2',
    factor: '0.5',
  },
  compute: ({ big_end, shells, small_end, piston, pin, rings, oil, rods_per_pin, factor }) => {
    const load = pinLoad({
      rods: rods_per_pin,
      bigEnd: big_end,
      shells,
      smallEnd: small_end,
      piston,
      pin,
      rings,
      oil,
    });
    return { results: { bobweight: bobweight(load, factor), ...load } };
  },
});

import { calculator } from '../catalogue/calculator.ts';
import { optionalQuantity, quantity } from '../catalogue/field.ts';
import { permissibleUnbalance } from '../crank/balance.ts';

export const PERMISSIBLE_UNBALANCE = calculator({
  name: 'permissible-unbalance',
  sentence: 'How far off its axis the centre of mass of a rotor may be, by its balance grade.',
  formula: ['e = G/Ω', 'U = m e', 'mass at radius r = U/r'],
  sources: ['iso-21940-11'],
  input: {
    grade: quantity('velocity', 'G, a speed: "2.5 mm/s" is G 2.5'),
    mass: quantity('mass', 'm, of the rotor'),
    speed: quantity('speed', 'Ω, the highest it runs at'),
    radius: optionalQuantity('length', 'r, at which metal is taken off or added'),
  },
  output: {
    eccentricity: { kind: 'length', doc: 'e' },
    mass_at_radius: { kind: 'mass', doc: 'What may be left at r, both planes together', optional: true },
  },
  range: 'rigid rotors; a bent crank or one balanced without its bobweights is not helped by it',
  example: { grade: '2.5 mm/s', mass: '25 kg', speed: '3600 rpm', radius: '2.2 in' },
  compute: ({ grade, mass, speed, radius }) => {
    const { eccentricity, unbalance } = permissibleUnbalance(grade, mass, speed);
    return {
      results: {
        eccentricity,
        mass_at_radius: radius === undefined ? undefined : unbalance / radius,
      },
    };
  },
});

import { calculator } from '../catalogue/calculator.ts';
import { optionalQuantity, quantity } from '../catalogue/field.ts';
import { crackingPressure, preloadFromLengths } from '../oil/relief-valve.ts';
import { metre, newton, newtonPerMetre, squareMetre } from '../units/si.ts';

export const RELIEF_VALVE = calculator({
  name: 'relief-valve',
  sentence: 'The pressure at which a relief valve opens.',
  formula: ['F0 = k (L0 − L1)', 'p_c = F0/(π d²/4)'],
  sources: ['relief-valve-balance'],
  input: {
    plunger_diameter: quantity('length', 'd, that the pressure pushes on while the valve is shut'),
    spring_rate: quantity('stiffness', 'k'),
    preload: optionalQuantity('force', 'F0, of the spring with the valve shut', { min: 0 }),
    free_length: optionalQuantity('length', 'L0, of the spring'),
    installed_length: optionalQuantity('length', 'L1, of the spring with the valve shut'),
  },
  exactlyOne: [[['preload'], ['free_length', 'installed_length']]],
  output: {
    preload: { kind: 'force', doc: 'F0' },
    cracking_pressure: { kind: 'pressure', doc: 'p_c, over what is behind the plunger' },
  },
  range: 'a plunger of one diameter, free in its bore; past opening the pressure still rises with lift',
  example: { plunger_diameter: '.5 in', spring_rate: '10.75 lbf/in', preload: '8.84 lbf' },
  compute: (i) => {
    if (i.free_length !== undefined && i.installed_length !== undefined && i.free_length < i.installed_length)
      return {
        issues: [
          {
            code: 'relief-valve/slack-spring',
            at: 'installed_length',
            got: `${i.installed_length} m, and ${i.free_length} m free`,
            wanted: 'an installed length not over the free length',
            message: 'The spring would hang loose in the valve. Check which length is which.',
          },
        ],
      };
    const preload =
      i.preload === undefined
        ? preloadFromLengths(newtonPerMetre(i.spring_rate), metre(i.free_length!), metre(i.installed_length!))
        : newton(i.preload);
    const area = squareMetre((Math.PI / 4) * i.plunger_diameter ** 2);
    return { results: { preload, cracking_pressure: crackingPressure(preload, area) } };
  },
});

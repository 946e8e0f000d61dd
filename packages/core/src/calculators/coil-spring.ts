import { calculator } from '../catalogue/calculator.ts';
import { optionalChoice, optionalQuantity, quantity } from '../catalogue/field.ts';
import type { Caution } from '../issue.ts';
import {
  bucklingFreeLength,
  coilShearStress,
  coilSpringRate,
  SPRING_ENDS,
  SPRING_INDEX_RANGE,
  type SpringEnds,
  solidLength,
  springIndex,
  totalCoils,
  wahlFactor,
} from '../springs/coil-spring.ts';
import { metre, newton, pascal } from '../units/si.ts';

/** Between flat parallel plates, the kindest support: what buckles there buckles anywhere. */
const FLAT_PLATES = 0.5;

export const COIL_SPRING = calculator({
  name: 'coil-spring',
  sentence: 'How stiff a coil spring is, how hard its wire works and how short it can get.',
  formula: [
    'k = G d⁴/(8 D³ N)',
    'C = D/d,  Kw = (4C − 1)/(4C − 4) + 0.615/C',
    'τ = Kw 8 F D/(π d³)',
    'solid: (N_t + 1) d, ground ends N_t d',
  ],
  sources: ['shigley-springs'],
  input: {
    wire_diameter: quantity('length', 'd'),
    mean_diameter: quantity('length', 'D, of the coil: outside less one wire'),
    active_coils: quantity('ratio', 'N, coils that work'),
    shear_modulus: quantity('pressure', 'G; 79 to 82 GPa for carbon and music wire'),
    load: optionalQuantity('force', 'F', { min: 0 }),
    free_length: optionalQuantity('length', 'L0'),
    ends: optionalChoice('how the ends are made', SPRING_ENDS),
  },
  output: {
    rate: { kind: 'stiffness', doc: 'k' },
    spring_index: { kind: 'ratio', doc: 'C' },
    wahl_factor: { kind: 'ratio', doc: 'Kw' },
    shear_stress: { kind: 'pressure', doc: 'τ under the load', optional: true },
    solid_length: { kind: 'length', doc: 'every coil touching', optional: true },
    deflection: { kind: 'length', doc: 'F/k', optional: true },
    loaded_length: { kind: 'length', doc: 'L0 − F/k', optional: true },
  },
  range: 'round wire, close coils, index 3 to 16; 1 % of the wire diameter is 4 % of the rate',
  example: {
    wire_diameter: '.047 in',
    mean_diameter: '.390 in',
    active_coils: 11,
    shear_modulus: '11500 ksi',
    load: '8.84 lbf',
    free_length: '2.382 in',
    ends: 'squared and ground',
  },
  compute: (i) => {
    if (i.mean_diameter <= i.wire_diameter)
      return {
        issues: [
          {
            code: 'coil-spring/no-coil',
            at: 'mean_diameter',
            got: `${i.mean_diameter} m of wire ${i.wire_diameter} m`,
            wanted: 'a mean diameter over the wire diameter',
            message: 'Such a coil has no hole. The mean diameter is the outside diameter less one wire.',
          },
        ],
      };
    const wire = metre(i.wire_diameter);
    const mean = metre(i.mean_diameter);
    const index = springIndex(wire, mean);
    const rate = coilSpringRate(wire, mean, i.active_coils, pascal(i.shear_modulus));
    const wahl = wahlFactor(index);
    const ends = i.ends as SpringEnds | undefined;
    const solid = ends === undefined ? undefined : solidLength(wire, totalCoils(i.active_coils, ends), ends);
    const deflection = i.load === undefined ? undefined : i.load / rate;
    const loaded =
      i.free_length === undefined || deflection === undefined ? undefined : i.free_length - deflection;
    const cautions: Caution[] = [];
    if (index < SPRING_INDEX_RANGE.min || index > SPRING_INDEX_RANGE.max)
      cautions.push({
        code: 'coil-spring/index',
        message: `An index of ${index.toFixed(1)} is outside ${SPRING_INDEX_RANGE.min} to ${SPRING_INDEX_RANGE.max}, where the formulas are proven. Check wire and coil diameter.`,
      });
    if (loaded !== undefined && loaded < (solid ?? 0))
      cautions.push({
        code: 'coil-spring/solid',
        message: 'The load would press the spring past solid: its coils touch first.',
      });
    if (solid !== undefined && i.free_length !== undefined && i.free_length < solid)
      cautions.push({
        code: 'coil-spring/free-under-solid',
        message: 'The free length is less than the solid length. Check the coils and lengths.',
      });
    if (i.free_length !== undefined && i.free_length > bucklingFreeLength(mean, FLAT_PLATES))
      cautions.push({
        code: 'coil-spring/buckles',
        message:
          'A steel spring this long and thin bows out even between flat plates unless something guides it.',
      });
    return {
      results: {
        rate,
        spring_index: index,
        wahl_factor: wahl,
        shear_stress: i.load === undefined ? undefined : coilShearStress(wire, mean, newton(i.load), wahl),
        solid_length: solid,
        deflection,
        loaded_length: loaded,
      },
      cautions,
    };
  },
});

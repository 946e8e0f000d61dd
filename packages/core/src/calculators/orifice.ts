import { calculator } from '../catalogue/calculator.ts';
import { quantity } from '../catalogue/field.ts';
import { orificeFlow, SHARP_EDGE } from '../oil/orifice.ts';
import { kilogramPerCubicMetre, metre, pascal } from '../units/si.ts';

export const ORIFICE = calculator({
  name: 'orifice',
  sentence: 'Flow through a sharp-edged hole: a jet, a spill, a restrictor.',
  formula: ['Q = Cd (π d²/4) √(2 Δp/ρ)'],
  sources: ['orifice-equation'],
  input: {
    diameter: quantity('length', 'd, of the hole'),
    discharge_coefficient: quantity('ratio', `Cd, ${SHARP_EDGE.min} to ${SHARP_EDGE.max} for a sharp edge`, {
      above: 0,
      max: 1,
    }),
    pressure_difference: quantity('pressure', 'Δp across it', { min: 0 }),
    density: quantity('density', 'ρ of the oil'),
  },
  output: { flow: { kind: 'flow', doc: 'through the hole' } },
  range: 'high Reynolds numbers; cold oil flows less, for its coefficient falls',
  example: {
    diameter: '.045 in',
    discharge_coefficient: 0.62,
    pressure_difference: '30 psi',
    density: '834 kg/m3',
  },
  compute: (i) => ({
    results: {
      flow: orificeFlow(
        metre(i.diameter),
        i.discharge_coefficient,
        pascal(i.pressure_difference),
        kilogramPerCubicMetre(i.density),
      ),
    },
  }),
});

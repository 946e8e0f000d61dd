import { calculator } from '../catalogue/calculator.ts';
import { defaultedQuantity, quantity } from '../catalogue/field.ts';
import { frictionFactor, pressureLoss, REYNOLDS_TRANSITION, reynoldsNumber } from '../oil/passage.ts';
import { cubicMetrePerSecond, kilogramPerCubicMetre, metre, pascalSecond } from '../units/si.ts';

export const PIPE_LOSS = calculator({
  name: 'pipe-loss',
  sentence: 'Pressure lost along a drilling or pipe.',
  formula: [
    'Δp = f (L/d) ρ v²/2,  Re = ρ v d/μ',
    'f = 64/Re below Re 2300; from there 1/√f = −2 log10((ε/d)/3.7 + 2.51/(Re √f))',
  ],
  sources: ['colebrook-white', 'hagen-poiseuille-blasius'],
  input: {
    diameter: quantity('length', 'd'),
    length: quantity('length', 'L'),
    flow: quantity('flow', 'Q'),
    density: quantity('density', 'ρ'),
    dynamic_viscosity: quantity('dynamic-viscosity', 'μ'),
    roughness: defaultedQuantity('length', 'ε, of the wall; smooth when not given', 0, { min: 0 }),
  },
  output: {
    reynolds_number: { kind: 'ratio', doc: 'Re' },
    friction_factor: { kind: 'ratio', doc: 'f, Darcy' },
    pressure_loss: { kind: 'pressure', doc: 'Δp, friction along the length, no ends or bends' },
    regime: { kind: 'value', doc: 'laminar or turbulent' },
  },
  range: 'full pipe, developed flow; between Re 2300 and 4000 either may hold',
  example: {
    diameter: '8 mm',
    length: '120 mm',
    flow: '2 L/min',
    density: '850 kg/m3',
    dynamic_viscosity: '10 mPa.s',
  },
  compute: (i) => {
    const d = metre(i.diameter);
    const flow = cubicMetrePerSecond(i.flow);
    const density = kilogramPerCubicMetre(i.density);
    if (i.roughness >= i.diameter / 2)
      return {
        issues: [
          {
            code: 'pipe-loss/too-rough',
            at: 'roughness',
            got: `${i.roughness} m in a bore of ${i.diameter} m`,
            wanted: 'a roughness well under the bore',
            message: 'The wall would be rougher than the pipe is wide. Check the roughness and its unit.',
          },
        ],
      };
    const re = reynoldsNumber(d, flow, density, pascalSecond(i.dynamic_viscosity));
    const factor = frictionFactor(re, i.roughness / i.diameter);
    const doubtful = re >= REYNOLDS_TRANSITION.laminar && re < REYNOLDS_TRANSITION.turbulent;
    return {
      results: {
        reynolds_number: re,
        friction_factor: factor,
        pressure_loss: pressureLoss(d, metre(i.length), flow, density, factor),
        regime: re < REYNOLDS_TRANSITION.laminar ? 'laminar' : 'turbulent',
        roughness: i.roughness,
      },
      cautions: doubtful
        ? [
            {
              code: 'pipe-loss/doubtful-regime',
              message: `Between Re ${REYNOLDS_TRANSITION.laminar} and ${REYNOLDS_TRANSITION.turbulent} the flow may be laminar or turbulent; laminar would lose only ${((64 / re / factor) * 100).toFixed(0)} % of this.`,
            },
          ]
        : [],
    };
  },
});

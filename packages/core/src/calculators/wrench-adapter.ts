import { calculator } from '../catalogue/calculator.ts';
import { quantity } from '../catalogue/field.ts';
import { wrenchSetting } from '../fasteners/adapter.ts';
import { metre, newtonMetre, radian } from '../units/si.ts';

export const WRENCH_ADAPTER = calculator({
  name: 'wrench-adapter',
  sentence: 'What to set a torque wrench to when an adapter is fitted to it.',
  formula: ['setting = T L/(L + E cos θ)'],
  sources: ['torque-adapter'],
  input: {
    torque: quantity('torque', 'T, wanted at the fastener'),
    wrench_length: quantity('length', 'L, from the middle of the grip to the square'),
    adapter_length: quantity('length', 'E, from the square to the fastener', { min: 0 }),
    angle: quantity('angle', 'θ: 0 straight ahead, 90 deg square to the handle, 180 deg back', {
      min: -Math.PI,
      max: Math.PI,
    }),
  },
  output: { setting: { kind: 'torque', doc: 'To set on the wrench' } },
  range:
    'angle from −180 to 180 deg, the fastener ahead of the grip; the hand must stay at the middle of the grip',
  example: { torque: '30 lbf.ft', wrench_length: '12 in', adapter_length: '6 in', angle: '0 deg' },
  compute: (input) => {
    const lever = input.wrench_length + input.adapter_length * Math.cos(input.angle);
    if (lever <= 1e-9 * input.wrench_length) {
      return {
        issues: [
          {
            code: 'wrench-adapter/no-lever',
            at: 'adapter_length',
            got: `${input.adapter_length} m back along a handle of ${input.wrench_length} m`,
            wanted: 'an adapter that leaves the fastener ahead of the grip',
            message: 'Turned back this far the adapter leaves no lever. Shorten it or turn it forward.',
          },
        ],
      };
    }
    return {
      results: {
        setting: wrenchSetting(
          newtonMetre(input.torque),
          metre(input.wrench_length),
          metre(input.adapter_length),
          radian(input.angle),
        ),
      },
    };
  },
});

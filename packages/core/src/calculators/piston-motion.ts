import { calculator } from '../catalogue/calculator.ts';
import { defaultedQuantity, optionalQuantity, quantity } from '../catalogue/field.ts';
import {
  distanceFromTop,
  pistonAcceleration,
  pistonTravel,
  pistonVelocity,
} from '../geometry/piston-motion.ts';
import { metre, radian, radianPerSecond } from '../units/si.ts';

export const PISTON_MOTION = calculator({
  name: 'piston-motion',
  sentence: 'Where the piston is at a crank angle, and how fast it moves and gathers speed.',
  formula: [
    'x = √((l + r)² − d²) − r cos θ − √(l² − (r sin θ − d)²), r = stroke/2',
    'v = dx/dt, a = d²x/dt² at steady speed',
  ],
  sources: ['heywood-1988'],
  input: {
    stroke: quantity('length', '2r, twice the throw of the crank'),
    rod_length: quantity('length', 'l, between centres'),
    crank_angle: quantity('angle', 'θ, from top dead centre of the centred mechanism', {}),
    pin_offset: defaultedQuantity(
      'length',
      'd, positive towards the side the crankpin moves to after top dead centre',
      0,
      {},
    ),
    speed: optionalQuantity('speed', 'Of the crank, steady', { min: 0 }),
  },
  output: {
    distance_from_top: { kind: 'length', doc: 'From the highest place of the piston' },
    travel: { kind: 'length', doc: 'Stroke the piston really makes; over 2r with an offset' },
    velocity: { kind: 'velocity', doc: 'Positive away from the top', optional: true },
    acceleration: { kind: 'acceleration', doc: 'Positive away from the top', optional: true },
    pin_offset: { kind: 'length', doc: 'd, used' },
  },
  range: 'rod longer than half the stroke and the offset together; rigid parts, no clearance',
  example: { stroke: '86.36 mm', rod_length: '144.78 mm', crank_angle: '90 deg', speed: '3000 rpm' },
  compute: (input) => {
    const shortest = input.stroke / 2 + Math.abs(input.pin_offset);
    if (input.rod_length <= shortest) {
      return {
        issues: [
          {
            code: 'piston-motion/rod-too-short',
            at: 'rod_length',
            got: `${input.rod_length} m`,
            wanted: `over ${shortest} m, half the stroke and the offset`,
            message: 'With this rod the crank cannot turn round. Check the rod length and its unit.',
          },
        ],
      };
    }
    const crank = {
      crankRadius: metre(input.stroke / 2),
      rod: metre(input.rod_length),
      offset: metre(input.pin_offset),
    };
    const angle = radian(input.crank_angle);
    const speed = input.speed === undefined ? undefined : radianPerSecond(input.speed);
    return {
      results: {
        distance_from_top: distanceFromTop(crank, angle),
        travel: pistonTravel(crank),
        velocity: speed === undefined ? undefined : pistonVelocity(crank, angle, speed),
        acceleration: speed === undefined ? undefined : pistonAcceleration(crank, angle, speed),
        pin_offset: input.pin_offset,
      },
    };
  },
});

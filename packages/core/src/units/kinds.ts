/**
 * The kinds of quantity the program knows, each with the SI unit it is computed in (as UCUM writes it).
 * `ratio` has the unit 1: a count, a coefficient, a probability.
 */
export const QUANTITY_KINDS = {
  length: 'm',
  area: 'm2',
  volume: 'm3',
  angle: 'rad',
  time: 's',
  velocity: 'm/s',
  acceleration: 'm/s2',
  speed: 'rad/s',
  mass: 'kg',
  force: 'N',
  torque: 'N.m',
  stiffness: 'N/m',
  pressure: 'Pa',
  'dynamic-viscosity': 'Pa.s',
  'kinematic-viscosity': 'm2/s',
  density: 'kg/m3',
  flow: 'm3/s',
  temperature: 'K',
  expansion: '1/K',
  power: 'W',
  ratio: '1',
} as const;

export type QuantityKind = keyof typeof QUANTITY_KINDS;

import { calculator } from '../catalogue/calculator.ts';
import {
  optionalQuantity,
  optionalText,
  quantity,
  type StructureField,
  structure,
} from '../catalogue/field.ts';
import { fluidSchema } from '../network/fluid.ts';
import { compiledNetwork, solvedNetwork } from '../network/network.ts';
import { DEFAULT_SMOOTHING, elementsSchema, nodesSchema } from '../network/schema.ts';

export const OIL_NETWORK = calculator({
  name: 'oil-network',
  sentence: 'Pressures and flows of a whole lubrication circuit at a speed and a temperature.',
  formula: [
    'at every node, outflows = inflows; every element follows the law it names',
    'solved by Newton steps, each damped along its ray until r·d is at most half of what it was',
  ],
  sources: [
    'reference-network',
    'shigley-12-22',
    'iso-7902-2',
    'slot-flow',
    'orifice-equation',
    'relief-valve-balance',
  ],
  input: {
    title: optionalText('what engine it is', 'Oil network of an invented engine'),
    nodes: {
      type: 'structure',
      schema: nodesSchema,
      doc: 'names of the nodes; "sump" is always there, at 0',
      required: false,
    } as const satisfies StructureField<readonly string[] | undefined>,
    gauge: optionalText('the node that the oil gauge reads', 'gallery'),
    fluid: structure(fluidSchema, 'the oil: two viscosities, a Vogel curve, or one viscosity'),
    smoothing_pressure: optionalQuantity(
      'pressure',
      `pressure difference under which an orifice turns linear; ${DEFAULT_SMOOTHING} Pa when not given`,
    ),
    speed: quantity('speed', 'of the crank'),
    temperature: quantity('temperature', 'of the oil in the sump', { above: 200, max: 600 }),
    elements: structure(elementsSchema, 'pump, valves, passages and leaks between nodes'),
  },
  output: {
    pressures: { kind: 'pressure', each: 'node', doc: 'over the air, the sump at zero' },
    flows: { kind: 'flow', each: 'element', doc: 'from its first node to its second, equal ones together' },
    gauge_pressure: { kind: 'pressure', doc: 'what the gauge reads', optional: true },
    smoothing_pressure: { kind: 'pressure', doc: 'as used' },
  },
  range:
    'steady flow, oil without air, one temperature and the film rises given; no wall drag; a pump delivers its full volume however hard it has to suck, which is cautioned',
  example: {
    gauge: 'gallery',
    speed: '600 rpm',
    temperature: '93 degC',
    fluid: { kv40: '93 mm2/s', kv100: '10.8 mm2/s', density15: '885 kg/m3' },
    elements: [
      {
        id: 'pump',
        law: 'gear-pump',
        to: 'gallery',
        displacement: '.615 in3',
        speed_ratio: 0.5,
        end_clearance: '2.5 thou',
        face_ratio: 2,
      },
      {
        id: 'mains',
        law: 'groove-bearing',
        from: 'gallery',
        count: 3,
        diameter: '2.5 in',
        land_length: '.6 in',
        radial_clearance: '1 thou',
        eccentricity_ratio: 0.6,
      },
      { id: 'jet', law: 'orifice', from: 'gallery', diameter: '.045 in', discharge_coefficient: 0.62 },
    ],
  },
  compute: ({ speed, temperature, ...rest }) => {
    const given = Object.fromEntries(Object.entries(rest).filter(([, value]) => value !== undefined));
    const network = compiledNetwork(given);
    if (!network.ok) return { issues: network.issues };
    const solved = solvedNetwork(network.value, { speed, temperature });
    if (!solved.ok) return { issues: solved.issues };
    const { pressures, flows, cautions } = solved.value;
    return {
      results: {
        pressures,
        flows,
        gauge_pressure: rest.gauge === undefined ? undefined : pressures[rest.gauge],
        smoothing_pressure: rest.smoothing_pressure ?? DEFAULT_SMOOTHING,
      },
      cautions,
    };
  },
});

import { calculator } from '../catalogue/calculator.ts';
import { optionalQuantity, quantity } from '../catalogue/field.ts';
import type { Caution } from '../issue.ts';
import {
  endSlip,
  gearPumpDisplacement,
  idealFlow,
  leavesInvolute,
  type PumpGears,
  tipSlip,
} from '../oil/gear-pump.ts';
import { metre, pascal, pascalSecond, radian, radianPerSecond } from '../units/si.ts';

const INCH = 0.0254;
const FROM_ZERO = { min: 0 } as const;

export const GEAR_PUMP = calculator({
  name: 'gear-pump',
  sentence: 'What a gear pump delivers in a turn, and what slips back past its faces and tips.',
  formula: [
    'V = 2 π b (r_a² − r_w² − p_b²/12),  p_b = π m cos α, r_w = a/2, a = m z unless given',
    'end slip = 2 k h³ (s³ + (1−s)³) p/(12 μ)',
    'tip slip = 2 b t³ p/(12 μ l n)',
    'delivery = V n − end slip − tip slip',
  ],
  sources: ['involute-displacement', 'slot-flow'],
  input: {
    teeth: quantity('ratio', 'z, of each of the two equal gears', { min: 4, max: 200 }),
    outside_diameter: quantity('length', 'over the tips, 2 r_a'),
    face_width: quantity('length', 'b'),
    pressure_angle: quantity('angle', 'α of the basic rack', { above: 0, below: Math.PI / 4 }),
    module: optionalQuantity('length', 'm, pitch diameter over teeth'),
    diametral_pitch: optionalQuantity('ratio', 'teeth for each inch of pitch diameter, a plain number'),
    centre_distance: optionalQuantity('length', 'a; the gears are then taken as standard, m = a/z'),
    end_clearance: optionalQuantity('length', 'h, total of both faces', FROM_ZERO),
    face_split: optionalQuantity('ratio', 's, share of h on the lesser face: 0, the default, all on one', {
      min: 0,
      max: 0.5,
    }),
    face_ratio: optionalQuantity('ratio', 'k, width over length of the leak path across one gear'),
    tip_clearance: optionalQuantity('length', 't, tooth tip to body', FROM_ZERO),
    tip_land: optionalQuantity('length', 'l, width of one tip'),
    tips_in_series: optionalQuantity('ratio', 'n, tips that seal one behind the other'),
    pressure: optionalQuantity('pressure', 'p, outlet over inlet', FROM_ZERO),
    speed: optionalQuantity('speed', 'of the pump'),
    dynamic_viscosity: optionalQuantity('dynamic-viscosity', 'μ, in the gaps'),
  },
  exactlyOne: [[['module'], ['diametral_pitch'], ['centre_distance']]],
  together: [
    ['end_clearance', 'face_ratio'],
    ['tip_clearance', 'tip_land', 'tips_in_series'],
  ],
  output: {
    displacement: { kind: 'volume', doc: 'V, of one turn, mean over a tooth' },
    ideal_flow: { kind: 'flow', doc: 'V n', optional: true },
    end_slip: { kind: 'flow', doc: 'past the end faces of both gears', optional: true },
    tip_slip: { kind: 'flow', doc: 'past the tips of both gears', optional: true },
    delivery: { kind: 'flow', doc: 'ideal flow less both slips', optional: true },
    volumetric_efficiency: { kind: 'ratio', doc: 'delivery over ideal flow', optional: true },
    face_split: { kind: 'ratio', doc: 's, as used', optional: true },
  },
  range:
    'two equal involute gears, sealed on one flank, trapped volume relieved; pressure flow only, no drag of the walls',
  example: {
    teeth: 8,
    outside_diameter: '1.25 in',
    face_width: '.752 in',
    pressure_angle: '25 deg',
    diametral_pitch: 8,
  },
  compute: (i) => {
    const module =
      i.module ?? (i.diametral_pitch === undefined ? i.centre_distance! / i.teeth : INCH / i.diametral_pitch);
    if (!Number.isInteger(i.teeth)) return { issues: [wrong('teeth', i.teeth, 'a whole number of teeth')] };
    const gears: PumpGears = {
      teeth: i.teeth,
      tipDiameter: metre(i.outside_diameter),
      faceWidth: metre(i.face_width),
      pressureAngle: radian(i.pressure_angle),
      module: metre(module),
      centreDistance: metre(i.centre_distance ?? module * i.teeth),
    };
    const displacement = gearPumpDisplacement(gears);
    if (!(displacement > 0) || i.outside_diameter >= 2 * gears.centreDistance)
      return {
        issues: [
          wrong(
            'outside_diameter',
            i.outside_diameter,
            'tips that reach past the pitch circle, short of the other axis',
          ),
        ],
      };
    const viscosity = i.dynamic_viscosity === undefined ? undefined : pascalSecond(i.dynamic_viscosity);
    const known = i.pressure !== undefined && viscosity !== undefined;
    const split = i.face_split ?? 0;
    const ends =
      known && i.end_clearance !== undefined
        ? endSlip(metre(i.end_clearance), i.face_ratio!, split, pascal(i.pressure!), viscosity!)
        : undefined;
    const tips =
      known && i.tip_clearance !== undefined
        ? tipSlip(
            metre(i.tip_clearance),
            metre(i.tip_land!),
            i.tips_in_series!,
            gears.faceWidth,
            pascal(i.pressure!),
            viscosity!,
          )
        : undefined;
    const ideal = i.speed === undefined ? undefined : idealFlow(displacement, radianPerSecond(i.speed));
    const delivery =
      ideal === undefined || ends === undefined || tips === undefined ? undefined : ideal - ends - tips;
    const cautions: Caution[] = [];
    if (leavesInvolute(gears))
      cautions.push({
        code: 'gear-pump/off-the-involute',
        message:
          'The tips reach past the point where the line of action touches the base circle: the teeth cannot mesh as true involutes there, and the displacement is only near.',
      });
    if (delivery !== undefined && delivery < 0)
      cautions.push({
        code: 'gear-pump/all-slips',
        message: 'More slips back than the gears carry: the pump cannot hold this pressure at this speed.',
      });
    return {
      results: {
        displacement,
        ideal_flow: ideal,
        end_slip: ends,
        tip_slip: tips,
        delivery,
        volumetric_efficiency: delivery === undefined ? undefined : delivery / ideal!,
        face_split: ends === undefined ? undefined : split,
      },
      cautions,
    };
  },
});

const wrong = (at: string, got: number, wanted: string) => ({
  code: `gear-pump/${at.replaceAll('_', '-')}`,
  at,
  got: String(got),
  wanted,
  message: `These gears cannot pump: wanted ${wanted}. Check teeth, pitch and outside diameter, and their units.`,
});

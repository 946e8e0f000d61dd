import { calculator } from '../catalogue/calculator.ts';
import { optionalQuantity, quantity } from '../catalogue/field.ts';
import { endSlip, tipSlip } from '../oil/gear-pump.ts';
import { AIR_VISCOSITY_RANGE, ATMOSPHERE, airViscosity } from '../priming/air.ts';
import {
  dryInletPressure,
  INLET_DEPRESSION_PRACTICE,
  liftOf,
  pressureOfLift,
  speedToLift,
} from '../priming/dry-lift.ts';
import { kelvin, kilogramPerCubicMetre, metre, pascal, pascalSecond, radianPerSecond } from '../units/si.ts';

const FROM_ZERO = { min: 0 } as const;
const ONE = pascal(1);

export const DRY_LIFT = calculator({
  name: 'dry-lift',
  sentence:
    'How high a gear pump lifts oil while it is dry and pumps air, and how fast it would have to turn.',
  formula: [
    'C = [2 k h³ (s³ + (1−s)³) + 2 b t³/(l n)]/(12 μ),  μ of the air in the gaps, or of what wets them',
    'p1 = p2 (√(S² + 1) − S),  S = V N/(C p2)',
    'lift = (p2 − p1)/(ρ g)',
    'N needed = C (p2² − p3²)/(2 V p3),  p3 = p2 − ρ g H',
  ],
  sources: ['dry-pump-balance', 'slot-flow', 'sutherland', 'inlet-depression-practice'],
  input: {
    displacement: quantity('volume', 'V, of one turn of the pump'),
    speed: quantity('speed', 'N, of the pump, not of the crank'),
    end_clearance: quantity('length', 'h, total of both faces', FROM_ZERO),
    face_ratio: quantity('ratio', 'k, width over length of the leak path across one gear'),
    face_split: optionalQuantity('ratio', 's, share of h on the lesser face: 0, the default, all on one', {
      min: 0,
      max: 0.5,
    }),
    tip_clearance: quantity('length', 't, tooth tip to body', FROM_ZERO),
    tip_land: quantity('length', 'l, width of one tip'),
    tips_in_series: quantity('ratio', 'n, tips that seal one behind the other'),
    face_width: quantity('length', 'b, of the gears'),
    density: quantity('density', 'ρ, of the oil to be lifted'),
    temperature: quantity('temperature', 'of air and pump', {
      min: AIR_VISCOSITY_RANGE.from,
      max: AIR_VISCOSITY_RANGE.to,
    }),
    lift: optionalQuantity('length', 'H, from the oil’s surface to the pump'),
    sealing_viscosity: optionalQuantity(
      'dynamic-viscosity',
      'of what wets the gaps instead of air: oil, or a packing at least as thick',
    ),
    outside_pressure: optionalQuantity('pressure', 'p2, absolute; one standard atmosphere when not given'),
  },
  output: {
    sealing_viscosity: { kind: 'dynamic-viscosity', doc: 'μ in the gaps, as used' },
    outside_pressure: { kind: 'pressure', doc: 'p2, as used' },
    face_split: { kind: 'ratio', doc: 's, as used' },
    inlet_pressure: { kind: 'pressure', doc: 'p1, absolute: the lowest the pump can draw' },
    possible_lift: { kind: 'length', doc: 'of oil, at that pressure' },
    needed_speed: {
      kind: 'speed',
      doc: 'of the pump, from which it lifts that high; absent when none would do',
      optional: true,
    },
  },
  range:
    'isothermal air in laminar slots, no drag, nothing carried over through the mesh: the true lift is smaller',
  example: {
    displacement: '.615 in3',
    speed: '75 rpm',
    end_clearance: '.007 in',
    face_ratio: 2,
    tip_clearance: '.005 in',
    tip_land: '.045 in',
    tips_in_series: 3,
    face_width: '.752 in',
    density: '882 kg/m3',
    temperature: '20 degC',
    lift: '7 in',
  },
  compute: (i) => {
    const viscosity = pascalSecond(i.sealing_viscosity ?? airViscosity(kelvin(i.temperature)));
    const outside = pascal(i.outside_pressure ?? ATMOSPHERE);
    const split = i.face_split ?? 0;
    const density = kilogramPerCubicMetre(i.density);
    const pump = {
      displacement: i.displacement,
      conductance:
        endSlip(metre(i.end_clearance), i.face_ratio, split, ONE, viscosity) +
        tipSlip(
          metre(i.tip_clearance),
          metre(i.tip_land),
          i.tips_in_series,
          metre(i.face_width),
          ONE,
          viscosity,
        ),
    };
    const inlet = dryInletPressure(pump, radianPerSecond(i.speed), outside);
    const needed = i.lift === undefined ? undefined : speedToLift(pump, metre(i.lift), density, outside);
    const drawn = i.lift === undefined ? outside - inlet : pressureOfLift(metre(i.lift), density);
    return {
      results: {
        sealing_viscosity: viscosity,
        outside_pressure: outside,
        face_split: split,
        inlet_pressure: inlet,
        possible_lift: liftOf(pascal(outside - inlet), density),
        needed_speed: needed !== undefined && Number.isFinite(needed) ? needed : undefined,
      },
      cautions:
        drawn > INLET_DEPRESSION_PRACTICE
          ? [
              {
                code: 'dry-lift/air-comes-out',
                message:
                  'Below about 17 kPa (5 inHg) under the air outside, air dissolved in oil comes out and fills the suction: do not count on more lift than that (common practice, no source).',
              },
            ]
          : [],
    };
  },
});

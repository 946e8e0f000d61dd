import { annulusLeak } from '../oil/bearing-feed.ts';
import { endSlip, idealFlow, slotFlow, tipSlip } from '../oil/gear-pump.ts';
import { rotorPumpDisplacement, rotorTipSlip } from '../oil/rotor-pump.ts';
import { cubicMetre, metre, pascal, pascalSecond, radianPerSecond, squareMetre } from '../units/si.ts';
import { fallback, given, type Law, needed, optional, type Parameters } from './element.ts';
import { GROWTH, type Piece } from './pieces.ts';

const ONE = pascal(1);
/** At unit viscosity and gap a film's flow is its strength. */
const UNIT_VISCOSITY = pascalSecond(1);
const UNIT_GAP = metre(1);

const SPEED_RATIO = needed('ratio', 'i, speed of the pump over speed of the crank');

const FACE_SPLIT = fallback(
  'ratio',
  's, share of the end clearance on the lesser face, 0 when all is on one',
  0,
  { min: 0, max: 0.5 },
);

const SHAFT = {
  shaft_diameter: optional('length', 'of the drive shaft, where outlet pressure leaks along it'),
  shaft_clearance: optional('length', 'radial, of the drive shaft in its bore', { min: 0 }),
  shaft_length: optional('length', 'of that bore, along the leak'),
  shaft_eccentricity: optional('ratio', 'of the shaft in its bore, 0 concentric, 1 touching', {
    min: 0,
    max: 1,
  }),
} as const;

const SHAFT_TOGETHER = ['shaft_diameter', 'shaft_clearance', 'shaft_length', 'shaft_eccentricity'] as const;

/** A gap through which pressure alone pushes oil back. */
const slip = (strength: number, gap: number, gapKey?: string): Piece => ({
  shape: 'film',
  strength,
  gap,
  ...(gapKey !== undefined && { gapKey }),
  growth: GROWTH.none,
});

const delivery = (displacement: number, p: Parameters): Piece => ({
  shape: 'delivery',
  perRadian: idealFlow(cubicMetre(displacement), radianPerSecond(p.speed_ratio!)),
});

const shaftSlip = (p: Parameters): Piece[] =>
  given(p.shaft_clearance)
    ? [
        slip(
          annulusLeak(
            metre(p.shaft_diameter!),
            metre(p.shaft_length!),
            UNIT_GAP,
            p.shaft_eccentricity!,
            ONE,
            UNIT_VISCOSITY,
          ),
          p.shaft_clearance,
          'shaft_clearance',
        ),
      ]
    : [];

/**
 * Both faces, split s and 1 − s. A groove worn into the greater one is no share of the clearance, and its gap is then
 * no gap of the clearance alone.
 *
 * @param one  strength of one face at unit gap
 */
const faceSlip = (
  h: number,
  split: number,
  groove: number | undefined,
  one: number,
  key: string,
): Piece[] => [
  slip(one * split ** 3, h, given(groove) ? undefined : key),
  given(groove) ? slip(one, (1 - split) * h + groove) : slip(one * (1 - split) ** 3, h, key),
];

export const gearPump: Law = {
  doc: 'Gear pump: ideal delivery less slip past end faces and tips and along the drive shaft, by the pressure it lifts. Pressure flow only, no drag of the walls.',
  formula: 'Q = V i n − [2 k h³ (s³ + (1−s)³) + 2 b t³/(l N)] p/(12 μ)',
  source: 'involute-displacement',
  pump: true,
  parameters: {
    displacement: needed('volume', 'V, delivered in one turn of the pump'),
    speed_ratio: SPEED_RATIO,
    end_clearance: optional('length', 'h, total of both end faces', { min: 0 }),
    face_ratio: optional('ratio', 'k, width over length of the leak path across one gear'),
    face_split: FACE_SPLIT,
    cover_groove: optional(
      'length',
      'depth worn into the cover over the whole path, added to the gap of the face with the greater share',
      { min: 0 },
    ),
    tip_clearance: optional('length', 't, between tooth tip and body', { min: 0 }),
    tip_land: optional('length', 'l, width of one tooth tip'),
    tips_in_series: optional('ratio', 'N, tips that seal one behind the other'),
    face_width: optional('length', 'b, of the gears'),
    ...SHAFT,
  },
  together: [
    ['end_clearance', 'face_ratio'],
    ['tip_clearance', 'tip_land', 'tips_in_series', 'face_width'],
    SHAFT_TOGETHER,
  ],
  fault: (p) =>
    given(p.cover_groove) && !given(p.end_clearance)
      ? { key: 'cover_groove', wanted: 'the end_clearance that the groove adds to' }
      : undefined,
  pieces: (p) => [
    delivery(p.displacement!, p),
    ...(given(p.end_clearance)
      ? faceSlip(
          p.end_clearance,
          p.face_split!,
          p.cover_groove,
          // All of it on one face: what one face of both gears passes.
          endSlip(UNIT_GAP, p.face_ratio!, 0, ONE, UNIT_VISCOSITY),
          'end_clearance',
        )
      : []),
    ...(given(p.tip_clearance)
      ? [
          slip(
            tipSlip(
              UNIT_GAP,
              metre(p.tip_land!),
              p.tips_in_series!,
              metre(p.face_width!),
              ONE,
              UNIT_VISCOSITY,
            ),
            p.tip_clearance,
            'tip_clearance',
          ),
        ]
      : []),
    ...shaftSlip(p),
  ],
};

export const rotorPump: Law = {
  doc: 'Pump of one rotor inside another: ideal delivery less slip past the sides, between the tips, round the outer rotor and along the drive shaft, by the pressure it lifts. Pressure flow only, no drag of the walls.',
  formula:
    'Q = V i n − [k h³ (s³ + (1−s)³) + b t³/(N (3π/8) √(2 R t)) + 2 b c³/l] p/(12 μ);  V = z (A_max − A_min) b unless given',
  source: 'slot-flow',
  pump: true,
  parameters: {
    displacement: optional('volume', 'V, delivered in one turn of the pump; or measured from the rotors'),
    inner_teeth: optional('ratio', 'z, of the inner rotor'),
    greatest_chamber: optional('area', 'A_max, of a chamber where it is widest, seen from the end'),
    least_chamber: optional('area', 'A_min, of a chamber in full mesh', { min: 0 }),
    thickness: needed('length', 'b, of the rotors'),
    speed_ratio: SPEED_RATIO,
    side_clearance: optional('length', 'h, total between rotors and both faces', { min: 0 }),
    face_ratio: optional('ratio', 'k, width over length of the leak path across one side'),
    face_split: FACE_SPLIT,
    tip_clearance: optional('length', 't, between the tips of inner and outer rotor', { min: 0 }),
    tip_radius: optional('length', 'R, of both tips together: 1/R = 1/R1 + 1/R2'),
    tips_in_series: optional('ratio', 'N, pairs of tips that seal one behind the other'),
    body_clearance: optional('length', 'c, radial, between outer rotor and body', { min: 0 }),
    body_arc: optional('length', 'l, round the outer rotor from outlet to inlet, one way'),
    ...SHAFT,
  },
  exactlyOne: [[['displacement'], ['inner_teeth', 'greatest_chamber', 'least_chamber']]],
  together: [
    ['side_clearance', 'face_ratio'],
    ['tip_clearance', 'tip_radius', 'tips_in_series'],
    ['body_clearance', 'body_arc'],
    SHAFT_TOGETHER,
  ],
  fault: (p) =>
    given(p.greatest_chamber) && !(p.greatest_chamber > p.least_chamber!)
      ? { key: 'least_chamber', wanted: 'a chamber smaller in full mesh than where it is widest' }
      : undefined,
  pieces: (p) => {
    const b = metre(p.thickness!);
    const displacement = given(p.displacement)
      ? p.displacement
      : rotorPumpDisplacement(
          p.inner_teeth!,
          squareMetre(p.greatest_chamber!),
          squareMetre(p.least_chamber!),
          b,
        );
    const pieces = [delivery(displacement, p)];
    if (given(p.side_clearance))
      pieces.push(
        ...faceSlip(
          p.side_clearance,
          p.face_split!,
          undefined,
          slotFlow(p.face_ratio!, UNIT_GAP, 1, ONE, UNIT_VISCOSITY),
          'side_clearance',
        ),
      );
    // The tips' own roundness makes it no plain cube of the gap.
    if (given(p.tip_clearance))
      pieces.push(
        slip(
          rotorTipSlip(
            b,
            metre(p.tip_clearance),
            metre(p.tip_radius!),
            p.tips_in_series!,
            ONE,
            UNIT_VISCOSITY,
          ),
          1,
        ),
      );
    if (given(p.body_clearance))
      pieces.push(
        slip(2 * slotFlow(b, UNIT_GAP, p.body_arc!, ONE, UNIT_VISCOSITY), p.body_clearance, 'body_clearance'),
      );
    return [...pieces, ...shaftSlip(p)];
  },
};

export const scavengePump: Law = {
  doc: 'Pump of a dry sump that brings the oil back to the tank. It stands beside the pressure circuit: only what it can carry is weighed against what the pressure pumps send out.',
  formula: 'Q = η V i n',
  source: 'definition',
  aside: true,
  parameters: {
    displacement: needed('volume', 'V, swept in one turn of the pump'),
    speed_ratio: SPEED_RATIO,
    efficiency: fallback('ratio', 'η, share of the swept volume that a worn pump still carries', 1, {
      above: 0,
      max: 1,
    }),
    wanted_ratio: needed(
      'ratio',
      'least capacity wanted over that of the pressure pumps; it carries froth, so well over 1',
    ),
  },
  pieces: (p) => [delivery(p.efficiency! * p.displacement!, p)],
};

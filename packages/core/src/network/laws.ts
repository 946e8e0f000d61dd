import { drilledJet } from './drilled-jet.ts';
import type { Law } from './element.ts';
import { fallback, type LawParameter, optional } from './element.ts';
import { filmBearing } from './film-bearing.ts';
import {
  annulus,
  filter,
  grooveBearing,
  holeBearing,
  holeBearingWithSideFlow,
  laminarLeak,
  slot,
} from './leaks.ts';
import { orifice, passage, reliefValve, springValve } from './openings.ts';
import { gearPump, rotorPump, scavengePump } from './pumps.ts';

/** Every law by the name the file uses. The schema, the checks and the help all read this one table. */
export const LAWS = {
  'gear-pump': gearPump,
  'rotor-pump': rotorPump,
  'scavenge-pump': scavengePump,
  'relief-valve': reliefValve,
  passage,
  orifice,
  'drilled-jet': drilledJet,
  'spring-valve': springValve,
  filter,
  'groove-bearing': grooveBearing,
  'hole-bearing': holeBearing,
  'hole-bearing-with-side-flow': holeBearingWithSideFlow,
  'film-bearing': filmBearing,
  annulus,
  slot,
  'laminar-leak': laminarLeak,
} as const satisfies Readonly<Record<string, Law>>;

export type LawName = keyof typeof LAWS;

/** Parameters that every element has, whatever its law. */
export const COMMON_PARAMETERS: Readonly<Record<string, LawParameter>> = {
  count: fallback('ratio', 'equal elements side by side that this one stands for', 1),
  film_rise: fallback(
    'temperature',
    'how much hotter the film is than the oil in the sump: a difference in kelvin',
    0,
    { min: 0, max: 150 },
  ),
  inner_radius: optional(
    'length',
    'radius of the upstream end about the crank axis: the turning drilling adds ½ ρ ω² (r2² − r1²)',
    { min: 0 },
  ),
  outer_radius: optional('length', 'radius of the downstream end about the crank axis', { min: 0 }),
  climb: optional(
    'length',
    'height of the downstream end over the upstream one: takes ρ g times as much',
    {},
  ),
};

export const COMMON_TOGETHER = [['inner_radius', 'outer_radius']] as const;

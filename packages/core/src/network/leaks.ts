import { annulusLeak, grooveFeed, type HolePlace, holeFeed } from '../oil/bearing-feed.ts';
import { slotFlow } from '../oil/gear-pump.ts';
import { metre, pascal, pascalSecond } from '../units/si.ts';
import { fallback, given, type Law, needed, optional, type Parameters } from './element.ts';
import { GROWTH, type Journal } from './pieces.ts';

const ONE = pascal(1);
/** At unit viscosity and gap a film's flow is its strength. */
const UNIT_VISCOSITY = pascalSecond(1);
const UNIT_GAP = metre(1);

const SHARE = { min: 0, below: 1 } as const;

/** How a bearing says where its journal runs: by the eccentricity ratio, or by the load it carries. */
const RUNNING = {
  eccentricity_ratio: optional(
    'ratio',
    'eccentricity over radial clearance, 0 concentric; given, or found from a load',
    SHARE,
  ),
  load: optional(
    'force',
    'steady part of the load of the whole bearing; the eccentricity is then found by the short-bearing formula',
    { min: 0 },
  ),
  load_per_krpm2: fallback(
    'force',
    'part of the load that grows with the square of the speed: its value at 1000 rev/min of the crank',
    0,
    { min: 0 },
  ),
  speed_ratio: fallback('ratio', 'speed of the journal over speed of the crank', 1),
} as const;

const ONE_OF_RUNNING = [[['eccentricity_ratio'], ['load']]] as const;

/** ε, given or to be found from the load; `lands` share the load and are short bearings each. */
function journal(p: Parameters, length: number, lands: number): Journal {
  if (given(p.eccentricity_ratio)) return { eccentricity: p.eccentricity_ratio };
  return {
    load: p.load! / lands,
    loadPerKrpm2: p.load_per_krpm2! / lands,
    stiffness: ((p.speed_ratio! * p.diameter!) / 2) * length ** 3,
  };
}

const holeFits = (p: Parameters) =>
  p.hole_diameter! < p.length!
    ? undefined
    : { key: 'hole_diameter', wanted: 'a hole smaller than the bearing is long' };

export const grooveBearing: Law = {
  doc: 'Plain bearing with a full circumferential oil groove between two lands.',
  formula: 'Q = π D c³ (1 + 1.5 ε²) Δp / (6 μ l)',
  source: 'shigley-12-22',
  parameters: {
    diameter: needed('length', 'of the journal'),
    land_length: needed('length', 'of one of the two lands'),
    radial_clearance: needed('length', 'half of the diametral clearance'),
    ...RUNNING,
  },
  exactlyOne: ONE_OF_RUNNING,
  pieces: (p) => {
    const land = metre(p.land_length!);
    return [
      {
        shape: 'film',
        strength: grooveFeed(metre(p.diameter!), land, UNIT_GAP, 0, ONE, UNIT_VISCOSITY),
        gap: p.radial_clearance!,
        gapKey: 'radial_clearance',
        growth: GROWTH.annular,
        journal: journal(p, land, 2),
      },
    ];
  },
};

export const holeBearing: Law = {
  doc: 'Plain bearing fed through one oil hole.',
  formula: 'Q = (π/6) c³ f(ε) Δp / (μ ln(B/d) q(d/B)); f = (1+ε)³ at the widest gap, 1 + 1.5 ε² rotating',
  source: 'iso-7902-2',
  parameters: {
    diameter: needed('length', 'of the journal'),
    length: needed('length', 'of the whole bearing'),
    hole_diameter: needed('length', 'of the oil hole'),
    radial_clearance: needed('length', 'half of the diametral clearance'),
    ...RUNNING,
  },
  choices: {
    hole: {
      choices: ['widest', 'rotating'],
      fallback: 'widest',
      doc: 'widest: the hole lies at the widest gap; rotating: it passes every gap in a turn, as in a crankpin',
    },
  },
  exactlyOne: ONE_OF_RUNNING,
  fault: holeFits,
  pieces: (p, choices) => {
    const length = metre(p.length!);
    const place = choices.hole as HolePlace;
    return [
      {
        shape: 'film',
        strength: holeFeed(length, metre(p.hole_diameter!), UNIT_GAP, 0, ONE, UNIT_VISCOSITY, place),
        gap: p.radial_clearance!,
        gapKey: 'radial_clearance',
        growth: place === 'widest' ? GROWTH.widest : GROWTH.annular,
        journal: journal(p, length, 1),
      },
    ];
  },
};

export const holeBearingWithSideFlow: Law = {
  doc: 'Bearing fed through one hole, with the side flow that the turning journal drives once the film is fed. The side flow is a fit to a mass-conserving solution, good to about 20 %, and the hole coefficient is from memory: for trying out a solver, not for judging an engine.',
  formula: 'Q = 0.675 (d/L + 0.4)^1.75 c³ (1 + 1.5 ε²) Δp/μ + k ε c U L Δp/(|Δp| + p_s)',
  source: 'reference-network',
  parameters: {
    diameter: needed('length', 'of the journal'),
    length: needed('length', 'of the whole bearing'),
    hole_diameter: needed('length', 'of the oil hole'),
    radial_clearance: needed('length', 'half of the diametral clearance'),
    side_flow_factor: needed('ratio', 'k, share of the ideal side flow', { min: 0 }),
    side_flow_pressure: needed('pressure', 'p_s, supply pressure at which half of it is reached'),
    ...RUNNING,
  },
  exactlyOne: ONE_OF_RUNNING,
  fault: holeFits,
  pieces: (p) => {
    const length = p.length!;
    return [
      {
        shape: 'film',
        strength: 0.675 * (p.hole_diameter! / length + 0.4) ** 1.75,
        gap: p.radial_clearance!,
        gapKey: 'radial_clearance',
        growth: GROWTH.annular,
        journal: journal(p, length, 1),
        drawn: {
          amount: (p.side_flow_factor! * p.speed_ratio! * p.diameter! * length) / 2,
          half: p.side_flow_pressure!,
        },
      },
    ];
  },
};

export const annulus: Law = {
  doc: 'Leak along an annular gap: a lifter, a plunger, a valve guide.',
  formula: 'Q = π D c³ (1 + 1.5 ε²) Δp / (12 μ l)',
  source: 'annular-gap',
  parameters: {
    diameter: needed('length', 'mean of the gap'),
    length: needed('length', 'along the flow'),
    radial_clearance: needed('length', 'half of the diametral clearance'),
    eccentricity_ratio: needed('ratio', '0 concentric, 1 touching', { min: 0, max: 1 }),
  },
  pieces: (p) => [
    {
      shape: 'film',
      strength: annulusLeak(
        metre(p.diameter!),
        metre(p.length!),
        UNIT_GAP,
        p.eccentricity_ratio!,
        ONE,
        UNIT_VISCOSITY,
      ),
      gap: p.radial_clearance!,
      gapKey: 'radial_clearance',
      growth: GROWTH.none,
    },
  ],
};

export const slot: Law = {
  doc: 'Flow through a flat gap, such as the slip of a pump past its faces.',
  formula: 'Q = w h³ Δp / (12 μ l)',
  source: 'slot-flow',
  parameters: {
    width: needed('length', 'across the flow'),
    length: needed('length', 'along the flow'),
    gap: needed('length', 'height of the gap', { min: 0 }),
  },
  pieces: (p) => [
    {
      shape: 'film',
      strength: slotFlow(p.width!, UNIT_GAP, p.length!, ONE, UNIT_VISCOSITY),
      gap: p.gap!,
      gapKey: 'gap',
      growth: GROWTH.none,
    },
  ],
};

export const laminarLeak: Law = {
  doc: 'Any leak known only by its strength: flow times viscosity over pressure.',
  formula: 'Q = k Δp / μ',
  source: 'definition',
  parameters: { strength: needed('volume', 'k, flow times viscosity over pressure', { min: 0 }) },
  pieces: (p) => [{ shape: 'film', strength: p.strength!, gap: 1, growth: GROWTH.none }],
};

export const filter: Law = {
  doc: 'Filter element, known by the pressure it drops at one flow and viscosity. Its bypass is a spring-valve beside it.',
  formula: 'Q = Q0 (Δp/Δp0) (μ0/μ)',
  source: 'definition',
  parameters: {
    flow: needed('flow', 'Q0, of the test'),
    pressure_drop: needed('pressure', 'Δp0, of the test'),
    dynamic_viscosity: needed('dynamic-viscosity', 'μ0, of the oil in the test'),
  },
  pieces: (p) => [
    {
      shape: 'film',
      strength: (p.flow! * p.dynamic_viscosity!) / p.pressure_drop!,
      gap: 1,
      growth: GROWTH.none,
    },
  ],
};

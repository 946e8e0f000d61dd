import { creepOfHole, SHARP_EDGE } from '../oil/orifice.ts';
import { centrifugalHead } from '../oil/passage.ts';
import { crackingPressure, preloadFromLengths } from '../oil/relief-valve.ts';
import {
  kilogramPerCubicMetre,
  metre,
  newton,
  newtonPerMetre,
  radianPerSecond,
  squareMetre,
} from '../units/si.ts';
import { type Choices, fallback, given, type Law, needed, optional, type Parameters } from './element.ts';
import type { HoleEdge } from './pieces.ts';

const CIRCLE = Math.PI / 4;

const COEFFICIENT = needed(
  'ratio',
  `discharge coefficient, about ${SHARP_EDGE.min} to ${SHARP_EDGE.max} for a sharp edge`,
  {
    above: 0,
    max: 1,
  },
);

const area = (p: Parameters, diameter: string, areaKey: string): number =>
  given(p[diameter]) ? CIRCLE * p[diameter] ** 2 : p[areaKey]!;

const THICK_OIL = {
  thick_oil: {
    choices: ['constant', 'creeping'],
    fallback: 'constant',
    doc: 'whether the coefficient is held constant however thick the oil, or the creeping limit of a sharp edge takes over at low Reynolds numbers',
  },
} as const;

function edgeOf(p: Parameters, { thick_oil }: Choices): HoleEdge {
  const diameter = Math.sqrt(area(p, 'diameter', 'area') / CIRCLE);
  return {
    diameter,
    creep: creepOfHole(metre(diameter), p.discharge_coefficient!),
    creeping: thick_oil === 'creeping',
  };
}

export const orifice: Law = {
  doc: 'Sharp-edged hole: a jet, a spill, a restrictor.',
  formula: 'Q = Cd A √(2/ρ) Δp/√(|Δp| + p0); with thick_oil “creeping” p0 is more by 2 (12.6 Cd μ/d)²/ρ',
  source: 'orifice-equation',
  parameters: {
    diameter: optional('length', 'of the hole'),
    area: optional('area', 'of the hole, instead of its diameter'),
    discharge_coefficient: COEFFICIENT,
  },
  exactlyOne: [[['diameter'], ['area']]],
  choices: THICK_OIL,
  pieces: (p, choices) => [
    {
      shape: 'hole',
      area: p.discharge_coefficient! * area(p, 'diameter', 'area'),
      ...edgeOf(p, choices),
    },
  ],
};

export const springValve: Law = {
  doc: 'Check valve before a hole, opening over a range of pressure: a piston jet, a filter bypass.',
  formula: 'Q = s((Δp − p1)/p2) Cd A √(2/ρ) Δp/√(Δp + p0), s(u) = u² (3 − 2u) from 0 to 1',
  source: 'reference-network',
  parameters: {
    diameter: optional('length', 'of the hole'),
    area: optional('area', 'of the hole, instead of its diameter'),
    discharge_coefficient: COEFFICIENT,
    opening_pressure: needed('pressure', 'p1, at which it starts to open', { min: 0 }),
    opening_range: needed('pressure', 'p2, further rise until it is fully open'),
  },
  exactlyOne: [[['diameter'], ['area']]],
  choices: THICK_OIL,
  pieces: (p, choices) => [
    {
      shape: 'valve',
      area: p.discharge_coefficient! * area(p, 'diameter', 'area'),
      opening: p.opening_pressure!,
      range: p.opening_range!,
      ...edgeOf(p, choices),
    },
  ],
};

export const reliefValve: Law = {
  doc: 'Relief valve: a plunger on a spring that uncovers a port. It opens where pressure times area equals the preload.',
  formula: 'x = (A p − F0)/k from 0 to the stop; Q = Cd min(w x, A_max) √(2/ρ) p/√(p + p0)',
  source: 'relief-valve-balance',
  parameters: {
    plunger_diameter: optional('length', 'of the plunger that the pressure pushes'),
    plunger_area: optional('area', 'of the plunger, instead of its diameter'),
    spring_rate: needed('stiffness', 'k, of the spring'),
    preload: optional('force', 'F0, of the spring with the valve shut', { min: 0 }),
    cracking_pressure: optional('pressure', 'at which it opens, instead of the preload', { min: 0 }),
    free_length: optional('length', 'of the spring, with installed_length instead of the preload'),
    installed_length: optional('length', 'of the spring with the valve shut'),
    port_width: needed('length', 'w, area uncovered for each unit of lift'),
    hole_diameter: optional('length', 'the port uncovers at most this hole'),
    maximum_lift: optional('length', 'the plunger meets its stop here'),
    discharge_coefficient: COEFFICIENT,
  },
  exactlyOne: [
    [['plunger_diameter'], ['plunger_area']],
    [['preload'], ['cracking_pressure'], ['free_length', 'installed_length']],
  ],
  fault: (p) =>
    given(p.free_length) && given(p.installed_length) && p.free_length < p.installed_length
      ? { key: 'installed_length', wanted: 'an installed length not over the free length' }
      : undefined,
  pieces: (p) => {
    const plunger = area(p, 'plunger_diameter', 'plunger_area');
    const rate = p.spring_rate!;
    const cracking = given(p.cracking_pressure)
      ? p.cracking_pressure
      : crackingPressure(
          given(p.preload)
            ? newton(p.preload)
            : preloadFromLengths(newtonPerMetre(rate), metre(p.free_length!), metre(p.installed_length!)),
          squareMetre(plunger),
        );
    const fullest = Math.min(
      given(p.maximum_lift) ? p.port_width! * p.maximum_lift : Infinity,
      given(p.hole_diameter) ? CIRCLE * p.hole_diameter ** 2 : Infinity,
    );
    return [
      {
        shape: 'relief',
        coefficient: p.discharge_coefficient!,
        cracking,
        perPascal: (p.port_width! * plunger) / rate,
        fullest,
      },
    ];
  },
};

export const passage: Law = {
  doc: 'Drilling or pipe: the larger of laminar and smooth turbulent friction, and the minor losses of its ends.',
  formula: 'Δp = max(128 μ L Q/(π d⁴), 0.3164 Re^−¼ (L/d) ρ V²/2) + K ρ V²/2',
  source: 'hagen-poiseuille-blasius',
  parameters: {
    bore: needed('length', 'diameter of the passage'),
    length: needed('length', 'of the passage'),
    minor_loss: fallback('ratio', 'K, sum of the loss coefficients of ends and bends', 0, { min: 0 }),
  },
  pieces: (p) => [{ shape: 'passage', bore: p.bore!, length: p.length!, minor: p.minor_loss! }],
};

/** Head of an element whose two ends lie on different radii of the crank, at unit density and speed [m²]. */
export const turningHead = (p: Parameters): number =>
  given(p.inner_radius)
    ? centrifugalHead(
        kilogramPerCubicMetre(1),
        radianPerSecond(1),
        metre(p.inner_radius),
        metre(p.outer_radius!),
      )
    : 0;

const GRAVITY = 9.80665;

/** Head of an element whose ends lie at different heights, at unit density [m²/s²]. */
export const fallingHead = (p: Parameters): number => (given(p.climb) ? -GRAVITY * p.climb : 0);

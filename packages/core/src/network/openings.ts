import { SHARP_EDGE } from '../oil/orifice.ts';
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
import {
  type ElementConditions,
  type FlowLaw,
  fallback,
  given,
  type Law,
  needed,
  optional,
  type Parameters,
} from './element.ts';

const CIRCLE = Math.PI / 4;

/** Cd √(2/ρ) */
const jet = (p: Parameters, c: ElementConditions): number =>
  p.discharge_coefficient! * Math.sqrt(2 / c.density);

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

/** k Δp/√(|Δp| + p0): the square-root law, straightened where its slope would be infinite. */
const smoothRoot =
  (k: number, smoothing: number): FlowLaw =>
  (difference, out) => {
    const sum = Math.abs(difference) + smoothing;
    const root = Math.sqrt(sum);
    out.flow = (k * difference) / root;
    out.slope = (k * (sum - Math.abs(difference) / 2)) / (sum * root);
  };

export const orifice: Law = {
  doc: 'Sharp-edged hole: a jet, a spill, a restrictor.',
  formula: 'Q = Cd A √(2/ρ) Δp/√(|Δp| + p0)',
  source: 'orifice-equation',
  parameters: {
    diameter: optional('length', 'of the hole'),
    area: optional('area', 'of the hole, instead of its diameter'),
    discharge_coefficient: COEFFICIENT,
  },
  exactlyOne: [[['diameter'], ['area']]],
  flow: (p, c) => smoothRoot(jet(p, c) * area(p, 'diameter', 'area'), c.smoothing),
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
  flow: (p, c) => {
    const root = smoothRoot(jet(p, c) * area(p, 'diameter', 'area'), c.smoothing);
    const from = p.opening_pressure!;
    const range = p.opening_range!;
    return (difference, out) => {
      const u = (difference - from) / range;
      if (u <= 0) {
        out.flow = 0;
        out.slope = 0;
        return;
      }
      root(difference, out);
      if (u >= 1) return;
      const s = u * u * (3 - 2 * u);
      out.slope = s * out.slope + ((6 * u * (1 - u)) / range) * out.flow;
      out.flow = s * out.flow;
    };
  },
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
  flow: (p, c) => {
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
    const perPascal = (p.port_width! * plunger) / rate;
    const fullest = Math.min(
      given(p.maximum_lift) ? p.port_width! * p.maximum_lift : Infinity,
      given(p.hole_diameter) ? CIRCLE * p.hole_diameter ** 2 : Infinity,
    );
    const root = smoothRoot(jet(p, c), c.smoothing);
    return (difference, out) => {
      if (difference <= cracking) {
        out.flow = 0;
        out.slope = 0;
        return;
      }
      root(difference, out);
      const opened = perPascal * (difference - cracking);
      if (opened < fullest) {
        out.slope = opened * out.slope + perPascal * out.flow;
        out.flow = opened * out.flow;
      } else {
        out.slope *= fullest;
        out.flow *= fullest;
      }
    };
  },
};

/** Where 64/Re and 0.3164 Re^−¼ cross. */
const CROSSING = (64 / 0.3164) ** (4 / 3);

export const passage: Law = {
  doc: 'Drilling or pipe: the larger of laminar and smooth turbulent friction, and the minor losses of its ends.',
  formula: 'Δp = max(128 μ L Q/(π d⁴), 0.3164 Re^−¼ (L/d) ρ V²/2) + K ρ V²/2',
  source: 'hagen-poiseuille-blasius',
  parameters: {
    bore: needed('length', 'diameter of the passage'),
    length: needed('length', 'of the passage'),
    minor_loss: fallback('ratio', 'K, sum of the loss coefficients of ends and bends', 0, { min: 0 }),
  },
  flow: (p, c) => {
    const d = p.bore!;
    const length = p.length!;
    const section = CIRCLE * d * d;
    const linearLoss = (128 * c.viscosity * length) / (Math.PI * d ** 4);
    const minor = (p.minor_loss! * c.density) / (2 * section * section);
    const reynoldsPerFlow = (c.density * d) / (c.viscosity * section);
    const blasius = (0.3164 * reynoldsPerFlow ** -0.25 * length * c.density) / (2 * d * section * section);
    const crossing = CROSSING / reynoldsPerFlow;
    return (difference, out) => {
      const size = Math.abs(difference);
      // Laminar with minor losses: the positive root of minor·Q² + linear·Q = Δp, written without cancellation.
      let q = (2 * size) / (linearLoss + Math.sqrt(linearLoss * linearLoss + 4 * minor * size));
      let slope = linearLoss + 2 * minor * q;
      if (q > crossing) {
        // The turbulent curve lies above the laminar one here and is convex: Newton from the right never overshoots.
        for (let i = 0; i < 60; i++) {
          const part = blasius * q ** 0.75;
          slope = 1.75 * part + 2 * minor * q;
          const step = (part * q + minor * q * q - size) / slope;
          q -= step;
          if (step <= 1e-14 * q) break;
        }
        slope = 1.75 * blasius * q ** 0.75 + 2 * minor * q;
      }
      out.flow = difference < 0 ? -q : q;
      out.slope = 1 / slope;
    };
  },
};

/** Head of an element whose two ends lie on different radii of the crank. */
export const turningHead = (p: Parameters, c: ElementConditions): number =>
  given(p.inner_radius)
    ? centrifugalHead(
        kilogramPerCubicMetre(c.density),
        radianPerSecond(c.speed),
        metre(p.inner_radius),
        metre(p.outer_radius!),
      )
    : 0;

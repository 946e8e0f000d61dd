import fc from 'fast-check';
import { expect, it } from 'vitest';
import { workroomOf } from './balance.ts';
import { underConditions } from './conditions.ts';
import type { Law } from './element.ts';
import { flatOf } from './flat.ts';
import { imbalance } from './imbalance.ts';
import { tabledEccentricity } from './journal-eccentricity.ts';
import { LAWS } from './laws.ts';

const SMOOTHING = 500;

// A parameter set for each law with which it can be tried.
const TRIED: Readonly<Record<keyof typeof LAWS, Record<string, number | string>>> = {
  'gear-pump': { displacement: 1e-5, speed_ratio: 0.5, end_clearance: 1e-4, face_ratio: 2, face_split: 0.2 },
  'rotor-pump': {
    inner_teeth: 4,
    greatest_chamber: 180e-6,
    least_chamber: 12e-6,
    thickness: 0.025,
    speed_ratio: 1,
    side_clearance: 8e-5,
    face_ratio: 3,
    tip_clearance: 1e-4,
    tip_radius: 0.003,
    tips_in_series: 2,
    body_clearance: 1e-4,
    body_arc: 0.02,
    shaft_diameter: 0.012,
    shaft_clearance: 4e-5,
    shaft_length: 0.02,
    shaft_eccentricity: 0.5,
  },
  'scavenge-pump': { displacement: 2e-5, speed_ratio: 0.5, wanted_ratio: 1.2 },
  'relief-valve': {
    plunger_diameter: 0.0127,
    spring_rate: 1900,
    preload: 39,
    port_width: 0.015,
    maximum_lift: 0.004,
    discharge_coefficient: 0.62,
  },
  passage: { bore: 0.006, length: 0.3, minor_loss: 2 },
  orifice: { diameter: 0.001, discharge_coefficient: 0.62, thick_oil: 'creeping' },
  'drilled-jet': { diameter: 0.001, length: 0.003 },
  'spring-valve': {
    area: 1e-6,
    discharge_coefficient: 0.65,
    opening_pressure: 1.5e5,
    opening_range: 6e4,
    thick_oil: 'creeping',
  },
  filter: { flow: 1e-4, pressure_drop: 5000, dynamic_viscosity: 0.02 },
  'groove-bearing': { diameter: 0.06, land_length: 0.015, radial_clearance: 3e-5, load: 2000 },
  'hole-bearing': {
    diameter: 0.05,
    length: 0.03,
    hole_diameter: 0.006,
    radial_clearance: 2.5e-5,
    eccentricity_ratio: 0.7,
  },
  'film-bearing': {
    diameter: 0.05,
    length: 0.025,
    radial_clearance: 2.5e-5,
    load: 2000,
    hole_diameter: 0.00625,
  },
  'hole-bearing-with-side-flow': {
    diameter: 0.05,
    length: 0.03,
    hole_diameter: 0.006,
    radial_clearance: 2.5e-5,
    eccentricity_ratio: 0.7,
    side_flow_factor: 0.33,
    side_flow_pressure: 2e4,
  },
  annulus: { diameter: 0.02, length: 0.03, radial_clearance: 2e-5, eccentricity_ratio: 1 },
  slot: { width: 0.1, length: 0.008, gap: 7e-5 },
  'laminar-leak': { strength: 1e-13 },
};

for (const [name, parameters] of Object.entries(TRIED)) {
  it(`the flow of a ${name} never falls with pressure, and its slope is its derivative`, () => {
    const law: Law = LAWS[name as keyof typeof LAWS];
    const fallbacks = Object.fromEntries(
      Object.entries(law.parameters).map(([key, p]) => [key, p.fallback ?? Number.NaN]),
    );
    const placed = {
      id: name,
      from: 0,
      to: -1,
      law,
      parameters: { ...fallbacks, count: 1, film_rise: 0, ...(parameters as Record<string, number>) },
      choices: { hole: 'widest', supply: 'hole' },
    };
    const flat = flatOf(1, [placed], () => 1);
    const oil = {
      speed: 200,
      viscosity: Float64Array.of(0.012),
      density: Float64Array.of(850),
    };
    underConditions(flat, oil, { viscosity: 1, reliefPreload: 1 }, SMOOTHING, tabledEccentricity());
    const room = workroomOf(1, 1).at;
    const at = (dp: number) => {
      imbalance(flat, Float64Array.of(dp, 0), SMOOTHING, room);
      return { flow: room.residual[0]!, slope: room.diagonal[0]! };
    };
    fc.assert(
      fc.property(fc.double({ min: -8e5, max: 8e5, noNaN: true }), (dp) => {
        const h = 0.5;
        const { slope } = at(dp);
        const numeric = (at(dp + h).flow - at(dp - h).flow) / (2 * h);
        expect(numeric).toBeGreaterThanOrEqual(-1e-25);
        // At a kink (a valve that just opens, a stop just met) the slope may be that of either side.
        const sides = [at(dp - h).slope, at(dp + h).slope];
        const near = Math.min(...sides.map((s) => Math.abs(s - numeric)), Math.abs(slope - numeric));
        expect(near).toBeLessThanOrEqual(2e-3 * Math.abs(numeric) + 1e-17 + Math.abs(sides[0]! - sides[1]!));
      }),
    );
  });
}

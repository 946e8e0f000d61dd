import {
  airViscosity,
  columnRiseTime,
  dryInletPressure,
  evacuationTime,
  kelvin,
  kilogramPerCubicMetre,
  liftOf,
  metre,
  netSuctionHead,
  pascal,
  pascalSecond,
  radianPerSecond,
  slotFlow,
} from '@fettle/core';
import type { Answers, Given, Runners } from './case.ts';

const GRAVITY = 9.80665;
/** Air outside where a case leaves it unsaid. */
const OUTSIDE = 101_325;

function dryPump(given: Given): Answers {
  const conductance = slotFlow(
    given.si('leak_width'),
    metre(given.si('leak_gap')),
    given.si('leak_length'),
    pascal(1),
    pascalSecond(given.si('mu_air')),
  );
  const outside = pascal(given.si('p_atm'));
  const inlet = dryInletPressure(
    { displacement: given.si('displacement'), conductance },
    radianPerSecond(given.si('N')),
    outside,
  );
  return {
    leak_conductance: conductance,
    p_inlet_min: inlet,
    max_lift: liftOf(pascal(outside - inlet), kilogramPerCubicMetre(given.si('rho_oil'))),
  };
}

export const PRIMING_RUNNERS: Runners = {
  'prime.barometer': (given) => ({
    H: liftOf(pascal(given.si('p_atm')), kilogramPerCubicMetre(given.si('specific_weight') / GRAVITY)),
  }),
  'prime.lift-max': (given) => ({
    H: liftOf(pascal(given.si('p_atm') - given.si('p_vapour')), kilogramPerCubicMetre(given.si('rho'))),
  }),
  'prime.npsh': (given) => ({
    NPSHa: netSuctionHead(
      pascal(OUTSIDE + given.si('p_surface_gauge')),
      pascal(given.si('p_vapour')),
      kilogramPerCubicMetre(given.si('rho')),
      metre(given.si('static_lift')),
      metre(given.si('head_loss')),
    ),
  }),
  'prime.evac': (given) => ({
    t: evacuationTime(given.si('V'), given.si('S'), pascal(given.si('p0')), pascal(given.si('p1'))),
  }),
  'air.mu': (given) => {
    const mu = airViscosity(kelvin(given.si('T')));
    return { mu_sutherland: mu, mu_table: mu };
  },
  'prime.dry': dryPump,
  'prime.mu-ratio': (given) => ({ slip_ratio_air_to_oil: given.si('mu_oil') / given.si('mu_air') }),
  'prime.rise': (given) => ({
    t: columnRiseTime(
      metre(given.si('tube_radius')),
      pascal(given.si('suction')),
      metre(given.si('height')),
      kilogramPerCubicMetre(given.si('rho')),
      pascalSecond(given.si('mu')),
    ),
  }),
};

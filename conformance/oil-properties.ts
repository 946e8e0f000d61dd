import {
  celsius,
  densityAt,
  densityFrom60F,
  HTHS_OF_HEAVY_40,
  indexBetween,
  kilogramPerCubicMetre,
  OLD_20_KV100,
  pascalSecond,
  referenceOils,
  roundedIndex,
  squareMetrePerSecond,
  typicalGradeViscosity,
  viscosityIndex,
  viscosityLine,
  viscosityOfZ,
  viscosityOnLine,
  WARM_GRADES,
  WINTER_GRADES,
  zOfViscosity,
} from '@fettle/core';
import type { Answers, Given, Runners } from './case.ts';

const MM2 = 1e-6;

const nu = (given: Given, key: string) => squareMetrePerSecond(given.si(key));

function walther(given: Given): Answers {
  const offset = given.si('kelvin_offset');
  const [t1, t2] = [celsius(given.si('t_1')), celsius(given.si('t_2'))];
  const line = viscosityLine(nu(given, 'nu_1'), t1, nu(given, 'nu_2'), t2, offset);
  const at = (t: number) => viscosityOnLine(line, celsius(t), offset);
  const degrees = [0, 20, 60, 80, 90, 120, 140];
  return {
    A: line.a,
    B: line.b,
    ...(given.has('t_query') ? { nu_query: at(given.si('t_query')) } : {}),
    ...Object.fromEntries(degrees.map((t) => [`nu_${t}`, at(t)])),
  };
}

function lowViscosity(given: Given): Answers {
  const z = zOfViscosity(nu(given, 'nu'));
  return { Z: z * MM2, nu_back: viscosityOfZ(z) };
}

function index(given: Given): Answers {
  const { l, h } = referenceOils(nu(given, 'KV100'));
  if (!given.has('KV40')) return { L: l * MM2, H: h * MM2 };
  const vi = viscosityIndex(nu(given, 'KV40'), nu(given, 'KV100'));
  return { L: l * MM2, H: h * MM2, VI_unrounded: vi, VI: roundedIndex(vi) };
}

function grade(given: Given): Answers {
  const name = given.text('grade');
  if (given.has('issue_year')) return { KV100_min: OLD_20_KV100 * MM2 };
  const winter = WINTER_GRADES.find((g) => g.name === name);
  if (winter)
    return {
      cranking_max: winter.crankingMax * 1e-3,
      cranking_temp: winter.crankingAt,
      pumping_max: winter.pumpingMax * 1e-3,
      pumping_temp: winter.pumpingAt,
      KV100_min: winter.kv100Min * MM2,
    };
  const warm = WARM_GRADES.find((g) => g.name === name)!;
  // The case prints what a straight 40 wants; the table holds the lighter limit of 0W-40 to 10W-40.
  const hths = name === '40' ? HTHS_OF_HEAVY_40 : warm.hthsMin;
  return {
    KV100_min: warm.kv100Min * MM2,
    KV100_max_exclusive: warm.kv100Below * MM2,
    HTHS150_min: hths * 1e-3,
  };
}

function typicalGrade(given: Given): Answers {
  // The constant is a difference in °F; the reader has taken it for a temperature.
  const b = given.si('b') * 1.8 + 32;
  const at = (f: number) => typicalGradeViscosity(pascalSecond(given.si('mu0')), b, celsius((f - 32) / 1.8));
  return { mu_100F: at(100), mu_150F: at(150), mu_200F: at(200), mu_212F: at(212), mu_100C: at(212) };
}

function density60(given: Given): Answers {
  const { expansion, factor, density } = densityFrom60F(
    kilogramPerCubicMetre(given.si('rho_60F')),
    celsius(given.si('t')),
  );
  return { alpha60: expansion * 1.8, VCF: factor, rho_t: density };
}

/** Viscosity, index, grades and density of the oil. */
export const OIL_PROPERTY_RUNNERS: Runners = {
  'visc.d341.00': walther,
  'visc.d341.01': lowViscosity,
  'visc.d2270': index,
  'visc.j300': grade,
  'visc.sd': typicalGrade,
  'visc.vi': (given) => {
    // The index falls on a straight line in U, so two of its points give the U of an index.
    const [l, h] = [given.si('L'), given.si('H')];
    const [at0, at1] = [indexBetween(l, h, 0), indexBetween(l, h, 1)];
    return { U: (given.si('VI') - at0) / (at1 - at0) };
  },
  'dens.api.': density60,
  'dens.api15': (given) => {
    const base = kilogramPerCubicMetre(given.si('rho_15C'));
    const rho = densityAt(base, celsius(given.si('t')));
    return { VCF: rho / base, rho_t: rho };
  },
};

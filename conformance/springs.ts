import {
  activeCoils,
  activeCoilsForRate,
  activeMass,
  bergstraesserFactor,
  bucklingFreeLength,
  coilShearStress,
  coilSpringRate,
  kilogramPerCubicMetre,
  loadAtShearStress,
  metre,
  nestedLoads,
  newton,
  newtonPerMetre,
  pascal,
  type SpringEnds,
  solidLength,
  springIndex,
  surgeFrequency,
  totalCoils,
  wahlFactor,
  wireStrength,
} from '@fettle/core';
import type { Answers, Given, Runners } from './case.ts';

const length = (given: Given, key: string) => metre(given.si(key));

function surge(given: Given): Answers {
  const [wire, mean] = [length(given, 'wire_diameter'), length(given, 'mean_diameter')];
  const active = given.si('active_turns');
  const rate = coilSpringRate(wire, mean, active, pascal(given.si('G')));
  const g = given.has('g') ? given.si('g') : 1;
  const density = given.has('density') ? given.si('density') : given.si('weight_density') / g;
  const mass = activeMass(wire, mean, active, kilogramPerCubicMetre(density));
  const frequency = surgeFrequency(rate, mass);
  const c = springIndex(wire, mean);
  return {
    spring_index: c,
    bergstrasser_KB: bergstraesserFactor(c),
    rate,
    active_mass: mass,
    active_weight: mass * g,
    surge_frequency: frequency,
    natural_frequency_fixed_fixed: frequency,
    max_working_frequency_at_1_20: frequency / 20,
  };
}

function plainGround(given: Given): Answers {
  const wire = length(given, 'wire_diameter');
  const mean = metre(given.si('outside_diameter') - wire);
  const ends = given.text('ends') as SpringEnds;
  const total = given.si('total_turns');
  const active = activeCoils(total, ends);
  const c = springIndex(wire, mean);
  const rate = coilSpringRate(wire, mean, active, pascal(given.si('G')));
  const m = given.si('m');
  // A is printed for a wire in millimetres and megapascals.
  const strength = wireStrength(wire, given.si('A') * 1e6 * 1e-3 ** m, m);
  // The problem takes 0.45 of the tensile strength as torsional yield.
  const yieldStress = pascal(0.45 * strength);
  const load = loadAtShearStress(wire, mean, yieldStress, bergstraesserFactor(c));
  const solid = solidLength(wire, total, ends);
  return {
    active_turns: active,
    mean_diameter: mean,
    spring_index: c,
    rate,
    solid_length: solid,
    tensile_strength: strength,
    torsional_yield: yieldStress,
    bergstrasser_KB: bergstraesserFactor(c),
    force_at_solid_yield: load,
    free_length_no_set: solid + load / rate,
    critical_free_length: bucklingFreeLength(mean, 0.5),
  };
}

function nested(given: Given): Answers {
  const g = pascal(given.si('G'));
  const spring = (side: string) => {
    const [wire, mean] = [length(given, `${side}_wire`), length(given, `${side}_mean_diameter`)];
    return { wire, mean, rate: coilSpringRate(wire, mean, given.si(`${side}_active`), g) };
  };
  const [outer, inner] = [spring('outer'), spring('inner')];
  const loads = nestedLoads(
    newton(given.si('force')),
    outer.rate,
    inner.rate,
    length(given, 'free_length_difference'),
  );
  const stress = (s: typeof outer, load: typeof loads.longer) =>
    coilShearStress(s.wire, s.mean, load, wahlFactor(springIndex(s.wire, s.mean)));
  return {
    outer_rate: outer.rate,
    inner_rate: inner.rate,
    outer_force: loads.longer,
    inner_force: loads.shorter,
    outer_deflection: loads.longer / outer.rate,
    inner_deflection: loads.shorter / inner.rate,
    outer_shear_stress_wahl: stress(outer, loads.longer),
    inner_shear_stress_wahl: stress(inner, loads.shorter),
  };
}

function valveSpring(given: Given): Answers {
  const wire = length(given, 'wire_diameter');
  const mean = metre(given.si('spring_index') * wire);
  const active = activeCoilsForRate(
    wire,
    mean,
    pascal(given.si('G')),
    newtonPerMetre(given.si('rate_wanted')),
  );
  return {
    mean_diameter: mean,
    active_turns_unrounded: active,
    total_turns: totalCoils(Math.round(active), given.text('ends') as SpringEnds),
  };
}

function endsTable(given: Given): Answers {
  const [total, wire] = [given.si('total_turns'), length(given, 'wire_diameter')];
  const rows: readonly (readonly [string, SpringEnds])[] = [
    ['plain', 'plain'],
    ['plain_ground', 'plain ground'],
    ['squared', 'squared'],
    ['squared_ground', 'squared and ground'],
  ];
  return Object.fromEntries(
    rows.flatMap(([key, ends]) => [
      [`active_${key}`, activeCoils(total, ends)],
      [`solid_${key}`, solidLength(wire, total, ends)],
    ]),
  );
}

export const SPRING_RUNNERS: Runners = {
  'spr-shigley-10-4-surge': surge,
  'spr-surge-two-forms': surge,
  'spr-shigley-p10-3': plainGround,
  'spr-bhandari-10-19-nested': nested,
  'spr-bhandari-10-15-valve': valveSpring,
  'spr-factors': (given) => {
    const c = given.si('spring_index');
    return { wahl: wahlFactor(c), bergstrasser: bergstraesserFactor(c) };
  },
  'spr-buckling': (given) => ({
    critical_free_length_steel: bucklingFreeLength(
      length(given, 'mean_diameter'),
      given.si('end_condition_alpha'),
    ),
  }),
  'spr-ends-table': endsTable,
};

import {
  activeCoils,
  activeCoilsForRate,
  bergstraesserFactor,
  bucklingFreeLength,
  centrifugalHead,
  coilSpringRate,
  compiledNetwork,
  crackingPressure,
  creepingHoleFlow,
  cubicMetrePerSecond,
  frictionFactor,
  kilogramPerCubicMetre,
  loadAtShearStress,
  longHoleCoefficient,
  metre,
  newton,
  newtonPerMetre,
  orificeFlow,
  pascal,
  pascalSecond,
  preloadFromLengths,
  pressureLoss,
  radialFaceFlow,
  radianPerSecond,
  reynoldsNumber,
  SHARP_EDGE,
  type SpringEnds,
  shortTubeCoefficient,
  slotFlow,
  solidLength,
  solvedNetwork,
  springIndex,
  squareMetre,
  totalCoils,
  wahlFactor,
  wireForLoad,
} from '@fettle/core';
import type { Answers, Given, Runners } from './case.ts';

const TURN = 2 * Math.PI;

const ONE = pascal(1);

const PSI = 6894.757293168;

const INCH = 0.0254;

/** Density of water behind a specific gravity. */
const WATER = 1000;

const length = (given: Given, key: string) => metre(given.si(key));

const orificeDensity = (given: Given) => kilogramPerCubicMetre(given.si('SG') * WATER);

function sullivan(given: Given): Answers {
  const diameter = metre(Math.sqrt((4 * given.si('A')) / Math.PI));
  const ideal = orificeFlow(diameter, 1, pascal(given.si('delta_p')), orificeDensity(given));
  return { Cd: given.si('Q') / ideal };
}

/** A pump of fixed flow against nothing but the valve: the network finds where the valve lets it all by. */
function override(given: Given): Answers {
  const [rate, x0] = [given.si('spring_rate'), given.si('preload_compression')];
  const area = squareMetre((Math.PI / 4) * given.si('plunger_diameter') ** 2);
  const preload = preloadFromLengths(newtonPerMetre(rate), metre(x0), metre(0));
  const pressureAt = (litres: number): number => {
    const network = compiledNetwork({
      fluid: { dynamic_viscosity: 0.01, density: given.si('rho') },
      smoothing_pressure: 1e-3,
      elements: [
        { id: 'pump', law: 'gear-pump', to: 'outlet', displacement: litres / 60_000, speed_ratio: 1 },
        {
          id: 'valve',
          law: 'relief-valve',
          from: 'outlet',
          plunger_area: area,
          spring_rate: rate,
          preload,
          port_width: given.si('port_opening_width_total'),
          discharge_coefficient: given.si('Cd'),
        },
      ],
    });
    if (!network.ok) throw new Error(JSON.stringify(network.issues));
    const solved = solvedNetwork(network.value, { speed: TURN, temperature: 300 });
    if (!solved.ok) throw new Error(JSON.stringify(solved.issues));
    return solved.value.pressures.outlet!;
  };
  const answers: Record<string, number> = { cracking_pressure: crackingPressure(preload, area) };
  for (const litres of [5, 10, 20]) {
    const p = pressureAt(litres);
    answers[`p_at_${litres}Lmin`] = p;
    answers[`lift_at_${litres}Lmin`] = (p * area - preload) / rate;
  }
  return answers;
}

function squaredSpring(given: Given): Answers {
  const wire = length(given, 'wire_diameter');
  const mean = metre(given.si('outside_diameter') - wire);
  const ends = given.text('ends') as SpringEnds;
  const total = given.si('total_coils');
  const active = activeCoils(total, ends);
  const rate = coilSpringRate(wire, mean, active, pascal(given.si('G')));
  const c = springIndex(wire, mean);
  // Music wire as the example takes it: S_sy = 0.45 · 201/d^0.145 kpsi, d in inches.
  const yieldStress = pascal((0.45 * 201e3 * PSI) / (wire / INCH) ** 0.145);
  const load = loadAtShearStress(wire, mean, yieldStress, bergstraesserFactor(c));
  const solid = solidLength(wire, total, ends);
  return {
    mean_diameter: mean,
    spring_index: c,
    active_coils: active,
    rate,
    bergstraesser_KB: bergstraesserFactor(c),
    F_at_torsional_yield: load,
    deflection: load / rate,
    solid_length: solid,
    free_length: solid + load / rate,
    buckling_free_length_limit: bucklingFreeLength(mean, 0.5),
  };
}

function safetyValve(given: Given): Answers {
  const preload = given.si('blow_off_pressure') * (Math.PI / 4) * given.si('valve_diameter') ** 2;
  const rate = newtonPerMetre(preload / given.si('initial_compression'));
  const most = newton(rate * (given.si('initial_compression') + given.si('max_lift')));
  const c = given.si('spring_index');
  const wanted = wireForLoad(most, c, pascal(given.si('tau_allow')), wahlFactor(c));
  // The example goes on with the next whole millimetre and the next whole coil.
  const wire = metre(Math.ceil(wanted * 1e3) / 1e3);
  const active = activeCoilsForRate(wire, metre(c * wire), pascal(given.si('G')), rate);
  const total = totalCoils(Math.ceil(active), 'squared and ground');
  return {
    preload,
    rate,
    wire_diameter_required: wanted,
    active_coils_unrounded: active,
    solid_length: solidLength(wire, total, 'squared and ground'),
  };
}

function pipe(given: Given): Answers {
  const d = length(given, 'd');
  const weight = given.has('specific_weight') ? given.si('specific_weight') : 0;
  const density = kilogramPerCubicMetre(given.has('rho') ? given.si('rho') : weight / 9.8);
  const viscosity = pascalSecond(given.has('mu') ? given.si('mu') : given.si('nu') * density);
  const flow = cubicMetrePerSecond(given.has('Q') ? given.si('Q') : (given.si('v') * Math.PI * d * d) / 4);
  const re = reynoldsNumber(d, flow, density, viscosity);
  const loss = pressureLoss(d, length(given, 'L'), flow, density, frictionFactor(re, 0));
  return { Re: re, delta_p: loss, ...(weight > 0 ? { head_loss: loss / weight } : {}) };
}

function jet(given: Given): Answers {
  const q = orificeFlow(
    length(given, 'd'),
    given.si('Cd'),
    pascal(given.si('delta_p')),
    kilogramPerCubicMetre(given.si('rho')),
  );
  return { Q: q, Q_Lmin: q };
}

/** The whole system with every path laminar, through the network itself and not by its algebra. */
function laminarSystem(given: Given): Answers {
  const mu = pascalSecond(given.si('mu'));
  const faces =
    4 *
    radialFaceFlow(
      given.si('face_fraction'),
      length(given, 'end_clearance_four_faces'),
      given.si('r_root') / given.si('r_shaft'),
      ONE,
      mu,
    );
  const tipPaths =
    2 *
    slotFlow(
      given.si('width'),
      length(given, 'tip_clearance_two_gears'),
      given.si('tip_land') * given.si('teeth_sealing'),
      ONE,
      mu,
    );
  const network = compiledNetwork({
    fluid: { dynamic_viscosity: mu, density: 850 },
    elements: [
      { id: 'pump', law: 'gear-pump', to: 'gallery', displacement: given.si('displacement'), speed_ratio: 1 },
      { id: 'slip', law: 'laminar-leak', from: 'gallery', strength: (faces + tipPaths) * mu },
      {
        id: 'mains',
        law: 'groove-bearing',
        from: 'gallery',
        count: given.si('mains'),
        diameter: 2 * given.si('journal_radius'),
        land_length: given.si('land'),
        radial_clearance: given.si('c'),
        eccentricity_ratio: given.si('eccentricity_ratio'),
      },
    ],
  });
  if (!network.ok) throw new Error(JSON.stringify(network.issues));
  const solved = solvedNetwork(network.value, { speed: given.si('N_pump'), temperature: 373 });
  if (!solved.ok) throw new Error(JSON.stringify(solved.issues));
  const { pressures, flows } = solved.value;
  const p = pressures.gallery!;
  return {
    G_bearings: flows.mains! / p,
    G_pump: flows.slip! / p,
    p_gallery_no_relief: p,
    eta_v: flows.mains! / flows.pump!,
  };
}

/** Holes, valves and their springs, passages, and the whole system. */
export const CIRCUIT_RUNNERS: Runners = {
  'orifice.esposito': (given) => ({
    Q: orificeFlow(length(given, 'd'), given.si('C'), pascal(given.si('delta_p')), orificeDensity(given)),
  }),
  'orifice.sullivan': sullivan,
  'orifice.cd': () => ({
    Cd_min: SHARP_EDGE.min,
    Cd_max: SHARP_EDGE.max,
    Cc_von_mises: SHARP_EDGE.slotContraction,
  }),
  'rv.override': override,
  'spring.shigley': squaredSpring,
  'spring.bhandari': safetyValve,
  'pipe.esposito': pipe,
  'pipe.gallery': pipe,
  'pipe.centrifugal': (given) => ({
    delta_p: centrifugalHead(
      kilogramPerCubicMetre(given.si('rho')),
      radianPerSecond(given.si('N')),
      length(given, 'r_inner'),
      length(given, 'r_outer'),
    ),
  }),
  'jet.': jet,
  'jet.licht': (given) => ({ Cd: longHoleCoefficient(given.si('Re'), given.si('L_over_d')) }),
  'jet.merritt': (given) => ({ Cd: shortTubeCoefficient(given.si('D_Re_over_L')) }),
  'jet.wuest': (given) => ({
    Q: creepingHoleFlow(length(given, 'd'), pascal(given.si('delta_p')), pascalSecond(given.si('mu'))),
  }),
  'net.linear': laminarSystem,
};

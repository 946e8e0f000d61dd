import {
  answered,
  calculatorNamed,
  celsius,
  fedBearingAt,
  grooveFeed,
  guideRelativeClearance,
  isoSommerfeld,
  metre,
  metrePerSecond,
  pascal,
  pascalSecond,
  plainBearingAt,
  plainBearingFor,
  plainFilm,
  selfContainedRise,
  TRUMPLER,
  trumplerFilm,
  typicalGradeViscosity,
} from '@fettle/core';
import type { Answers, Given, Runners } from './case.ts';

const TURN = 2 * Math.PI;

/** The calculator by its fixed keys, everything in SI. */
function bearing(input: Readonly<Record<string, number | string>>): Record<string, number> {
  const calculator = calculatorNamed('journal-bearing');
  if (!calculator.ok) throw new Error('no calculator journal-bearing');
  const answer = answered(calculator.value, input, { bareNumbersAreSi: true });
  if ('issues' in answer) throw new Error(JSON.stringify(answer.issues));
  return Object.fromEntries(Object.entries(answer.results).map(([key, { value }]) => [key, Number(value)]));
}

/** A bearing of the shape asked; its size, speed and oil cancel out of what the tables print. */
const OF_SHAPE = { diameter: 0.05, radial_clearance: 25e-6, speed: 200, dynamic_viscosity: 0.01 };

function tableRow(given: Given): Answers {
  const e = given.si('eccentricity_ratio');
  if (given.text('L_over_D') === 'infinite') {
    const b = plainBearingAt(plainFilm(Number.POSITIVE_INFINITY), e);
    if (!b) throw new Error('no solution');
    return {
      h0_over_c: 1 - b.eccentricity,
      S: b.sommerfeld,
      attitude_angle_phi: b.attitude,
      friction_variable_rf_over_c: b.friction,
      flow_variable_Q_rcNL: b.flow,
      side_flow_ratio_Qs_Q: b.sideRatio,
      P_over_pmax: 1 / b.peak,
    };
  }
  const length = given.si('L_over_D') * OF_SHAPE.diameter;
  const b = bearing({ ...OF_SHAPE, length, eccentricity_ratio: e });
  const { radial_clearance: c, speed, dynamic_viscosity: mu, diameter } = OF_SHAPE;
  return {
    h0_over_c: b.minimum_film! / c,
    S: b.sommerfeld_number!,
    attitude_angle_phi: b.attitude_angle!,
    friction_variable_rf_over_c: b.friction_variable!,
    flow_variable_Q_rcNL: b.flow_variable!,
    side_flow_ratio_Qs_Q: b.side_flow_ratio!,
    P_over_pmax: b.load! / (length * diameter) / b.maximum_pressure!,
    Q_leak_bar: (b.side_flow_ratio! * b.flow_variable!) / Math.PI,
    Q_inlet_bar: b.flow_variable! / Math.PI,
    pmax_bar: (b.maximum_pressure! * c * c) / (mu * (speed / TURN) * (diameter / 2) ** 2),
  };
}

/**
 * Two axial grooves at the split, at no pressure. The transcription does not say how large the databook's grooves
 * are: 10° and all but the edges is assumed.
 */
function twoGrooves(given: Given): Answers {
  const shape = {
    lengthOverDiameter: given.si('L_over_D'),
    supply: { kind: 'two-axial-grooves', length: 0.95, arc: Math.PI / 18 },
  } as const;
  const b = fedBearingAt(shape, given.si('eccentricity_ratio'), 0);
  if (!b) throw new Error('no solution');
  return { S: b.sommerfeld, attitude_angle_phi: b.attitude };
}

function shigley(given: Given): Answers {
  const r = given.si('r');
  const length = given.si('L');
  const load = given.si('W');
  const b = bearing({
    diameter: 2 * r,
    length,
    radial_clearance: given.si('c'),
    speed: given.si('N'),
    dynamic_viscosity: given.si('mu'),
    load,
  });
  return {
    P: load / (2 * r * length),
    S: b.sommerfeld_number!,
    h0_over_c: b.minimum_film! / given.si('c'),
    eccentricity_ratio: b.eccentricity_ratio!,
    h0: b.minimum_film!,
    friction_variable: b.friction_variable!,
    f: (b.friction_variable! * given.si('c')) / r,
    torque: b.friction_torque!,
    power: b.power_loss!,
  };
}

/** All but concentric: what is left of the load does not show in the friction. */
const CENTRED = 1e-4;

function petroff(given: Given): Answers {
  const b = bearing({
    diameter: given.si('D'),
    length: given.si('L'),
    radial_clearance: given.si('diametral_clearance') / 2,
    speed: given.si('N'),
    dynamic_viscosity: given.si('mu'),
    eccentricity_ratio: CENTRED,
  });
  return { torque: b.friction_torque!, power: b.power_loss! };
}

function petroffLine(given: Given): Answers {
  const n = given.si('N') / TURN;
  const s = (given.si('r_over_c') ** 2 * given.si('mu') * n) / given.si('P');
  const centred = plainBearingAt(plainFilm(1), CENTRED);
  if (!centred) throw new Error('no solution');
  // Friction over load goes with S while the film is concentric.
  const friction = (centred.friction / centred.sommerfeld) * s;
  return { S: s, friction_variable: friction, f: friction / given.si('r_over_c') };
}

/** Shigley's constants of SAE 20 in his own unit, μ = μ0 exp(b/(T_F + 95)). */
const SAE_20 = { mu0: 0.0136, b: 1271.6 };

/** A bearing with a full groove warms its oil, which thins it: the film temperature at which both agree. */
function pressureFed(given: Given): Answers {
  const reyn = 6894.757293168e-6;
  const [d, c, land] = [given.si('journal_diameter'), given.si('c'), given.si('land_length_each_side')];
  const [r, load, omega] = [d / 2, given.si('W'), given.si('N')];
  const pressure = load / (4 * r * land);
  const sump = given.si('sump_temperature');
  const heat = given.si('rho') * given.si('cp');
  // Each half is a bearing as long as its land, with the pressure on both lands.
  const film = plainFilm(land / d);
  const at = (temperature: number) => {
    const mu = typicalGradeViscosity(pascalSecond(SAE_20.mu0 * reyn), SAE_20.b, celsius(temperature));
    const b = plainBearingFor(film, ((r / c) ** 2 * mu * (omega / TURN)) / pressure);
    if (!b) throw new Error('no solution');
    const flow = grooveFeed(
      metre(d),
      metre(land),
      metre(c),
      b.eccentricity,
      pascal(given.si('p_supply')),
      mu,
    );
    const rise = (b.friction * (c / r) * load * r * omega) / (heat * flow);
    return { mu, b, flow, rise };
  };
  let [low, high] = [sump, sump + 150];
  for (let k = 0; k < 60; k++) {
    const t = (low + high) / 2;
    if (sump + at(t).rise / 2 > t) low = t;
    else high = t;
  }
  const { mu, b, flow, rise } = at(low);
  return {
    P_st: pressure,
    T_film: low,
    mu_film: mu,
    eccentricity_ratio: b.eccentricity,
    h0: c * (1 - b.eccentricity),
    Qs: flow,
    // A difference, compared with a printed one on the scale of degrees Fahrenheit, whose zero lies elsewhere.
    delta_T: rise - 32 / 1.8,
    heat_loss: heat * flow * rise,
  };
}

/** ρc behind the constant 9.70 of the printed equation: 4 π P/ρc in °F for P in psi. */
const SHIGLEY_HEAT = (4 * Math.PI * 6894.757293168 * 9.7) / (1 / 1.8);

/** Journal bearings of finite length, and the rules that go with them. */
export const BEARING_RUNNERS: Runners = {
  'jb.rb.inf': tableRow,
  'jb.rb.1': tableRow,
  'jb.rb.0': tableRow,
  'jb.kb.': tableRow,
  'jb.som.': twoGrooves,
  'jb.shigley.': shigley,
  'jb.petroff.fox': petroff,
  'jb.petroff.eval': petroffLine,
  'jb.pressurefed.': pressureFed,
  'jb.trumpler': (given) => ({
    h0_min: trumplerFilm(metre(given.si('journal_diameter'))),
    T_max: TRUMPLER.hottest - 273.15,
    start_pressure_max: TRUMPLER.startPressure,
    design_factor: TRUMPLER.designFactor,
  }),
  'jb.deltaT.': (given) => ({
    delta_T:
      selfContainedRise(
        pascal(given.si('P')),
        given.si('friction_variable'),
        given.si('flow_variable'),
        given.si('side_flow_ratio'),
        SHIGLEY_HEAT,
      ) -
      32 / 1.8,
  }),
  'jb.so-conv': (given) => ({ So: isoSommerfeld(given.si('S')) }),
  'jb.vdi-clearance': (given) => ({
    psi_permille: guideRelativeClearance(metrePerSecond(given.si('sliding_speed'))),
  }),
};

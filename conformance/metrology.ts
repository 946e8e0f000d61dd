import {
  bracketMiddle,
  capabilityIndex,
  celsius,
  conformity,
  effectiveDof,
  exact,
  expanded,
  fittedLine,
  fromHalfWidth,
  fromResolution,
  inUnit,
  kindsOf,
  lengthAtTemperature,
  linear,
  measuredAt20,
  metre,
  monteCarlo,
  normalDensity,
  normalQuantile,
  parseQuantity,
  perKelvin,
  printQuantity,
  propagated,
  REFERENCE_CELSIUS,
  rectangularSumHalfInterval,
  type SharedRisk,
  sharedRisk,
  shareInside,
  standardUncertainty,
  studentQuantile,
  term,
  triesFor,
  type Uncertain,
  uncertain,
} from '@fettle/core';
import type { Answers, Given, Runners } from './case.ts';
import { GEOMETRY_RUNNERS } from './geometry.ts';

const NANO = 1e-9;

/** The program's own reading of what the case says; the harness's factors stay out of it. */
function readIn(text: string, kind = kindsOf(text.replace(/^\S+ /, ''))[0]): number {
  if (kind === undefined) throw new Error(`no kind has the unit of ${text}`);
  const read = parseQuantity(text, kind);
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.value.value;
}

/** "conventional" and "550 ft.lbf/s" explain the unit; they are no part of its name. */
const withoutRemark = (text: string): string => text.replace(/ \((conventional|550 ft\.lbf\/s)\)$/, '');

const toSi = (given: Given): Answers => {
  const value = readIn(withoutRemark(given.said('value')));
  return { value_si: value, value_si_exact: value };
};

const contribution = (q: Uncertain, source: string): number =>
  Math.abs(q.terms.find((t) => t.source === source)?.u ?? 0);

/** GUM H.1: l = l_s + d − l_s (δα θ + α_s δθ). */
function endGauge(given: Given): Answers {
  const si = (key: string): number => given.si(key);
  const inputs = [
    uncertain(si('l_s'), term('l_s', si('u_l_s'), 'normal', si('nu_l_s'))),
    uncertain(si('d'), term('d', si('u_d'), 'normal', si('nu_d'))),
    uncertain(
      si('delta_alpha'),
      term(
        'delta_alpha',
        fromHalfWidth(si('halfwidth_delta_alpha_rectangular'), 'rectangular'),
        'rectangular',
        si('nu_delta_alpha'),
      ),
    ),
    uncertain(
      si('theta_mean'),
      term('theta_mean', si('u_theta_mean')),
      term('theta_swing', fromHalfWidth(si('halfwidth_theta_arcsine'), 'arcsine'), 'arcsine'),
    ),
    uncertain(
      si('alpha_s'),
      term('alpha_s', fromHalfWidth(si('halfwidth_alpha_s_rectangular'), 'rectangular'), 'rectangular'),
    ),
    uncertain(
      si('delta_theta'),
      term(
        'delta_theta',
        fromHalfWidth(si('halfwidth_delta_theta_rectangular'), 'rectangular'),
        'rectangular',
        si('nu_delta_theta'),
      ),
    ),
  ];
  const l = propagated(
    ([ls = 0, d = 0, da = 0, theta = 0, as = 0, dt = 0]) => ls + d - ls * (da * theta + as * dt),
    inputs,
  );
  const { u, dof, k } = expanded(l, 0.99);
  return {
    l: l.value,
    contribution_l_s: contribution(l, 'l_s'),
    contribution_d: contribution(l, 'd'),
    contribution_delta_alpha: contribution(l, 'delta_alpha'),
    contribution_delta_theta: contribution(l, 'delta_theta'),
    u_alpha_s: standardUncertainty(inputs[4] ?? exact(0)),
    u_theta: standardUncertainty(inputs[3] ?? exact(0)),
    u_c: u,
    nu_eff_truncated: Math.floor(dof),
    k_99: k,
    // The guide multiplies by u_c as it has printed it, in whole nanometres.
    U_99: k * Math.round(u / NANO) * NANO,
  };
}

/** A product of two inputs that are both about zero is invisible to the first-order law and visible to trials. */
function endGaugeSecondOrder(given: Given): Answers {
  const product = (a: string, b: string): number =>
    monteCarlo(
      ([x = 0, y = 0]) => given.si('l_s') * x * y,
      [uncertain(0, term(a, given.si(a))), uncertain(0, term(b, given.si(b)))],
      { trials: 1_000_000, seed: 20 },
    ).u;
  const one = product('u_delta_alpha', 'u_theta');
  const two = product('u_alpha_s', 'u_delta_theta');
  return {
    term_delta_alpha_theta: one,
    term_alpha_s_delta_theta: two,
    u_c: standardUncertainty(
      uncertain(
        0,
        term('first order', given.si('contribution_first_order')),
        term('one', one),
        term('two', two),
      ),
    ),
  };
}

function calibrationLine(given: Given): Answers {
  const t = given.list('t');
  const line = fittedLine(
    given.list('b').map((b, i) => [t[i] ?? Number.NaN, b] as const),
    given.si('t0'),
  );
  const at30 = line.at(given.si('t_predict'));
  return {
    intercept: line.intercept,
    u_intercept: line.uIntercept,
    slope: line.slope,
    u_slope: line.uSlope,
    r: line.correlation,
    s_residual: line.sd,
    sum_sq_residual: line.sd ** 2 * line.dof,
    b_at_30: at30.value,
    u_b_at_30: at30.u,
  };
}

function dominantRectangular(given: Given): Answers {
  const spreads = given.list('u');
  const q = uncertain(0, ...spreads.map((u, i) => term(`source ${i}`, u, 'rectangular')));
  const trials = monteCarlo(([x = 0]) => x, [q], { trials: 1_000_000, seed: 9 });
  return {
    u_y: standardUncertainty(q),
    half_interval_95_guf: expanded(q, given.si('p')).U,
    half_interval_95_mc: (trials.quantile(0.975) - trials.quantile(0.025)) / 2,
    half_interval_95_exact: rectangularSumHalfInterval(
      spreads.map((u) => Math.sqrt(3) * u),
      given.si('p'),
    ),
  };
}

function expansionCoefficient(given: Given): Answers {
  const measured = (key: string): Uncertain => uncertain(given.si(key), term(key, given.si(`u_${key}`)));
  const alpha = propagated(
    ([l0 = 0, l1 = 0, t0 = 0, t1 = 0]) => (l1 - l0) / (l0 * (t1 - t0)),
    ['L0', 'L1', 'T0', 'T1'].map(measured),
  );
  return { alpha: alpha.value, u_alpha: standardUncertainty(alpha) };
}

/** The bounds the guideline prints beside its decision rules, tightest first. */
const PRINTED_BOUNDS = [1e-6, 0.0016, 0.025, 0.05, 0.5];

function falseAccept(given: Given): Answers {
  const u = 1;
  const value = -given.si('guard_band_w_over_U') * given.si('k') * u;
  const pfa = 1 - conformity({ value, u }, { upper: 0 }).probabilityIn;
  return {
    pfa_at_acceptance_limit: pfa,
    pfa_bound_printed: PRINTED_BOUNDS.find((bound) => pfa <= bound) ?? 1,
  };
}

/** The x where a rising function passes a target. */
function crossing(f: (x: number) => number, target: number, from: number, to: number): number {
  let [low, high] = [from, to];
  for (let i = 0; i < 100; i++) {
    const half = (low + high) / 2;
    if (f(half) < target) low = half;
    else high = half;
  }
  return (low + high) / 2;
}

function ballBearing(given: Given): Answers {
  const scale = 0.25e-6;
  const density = (x: number): number => (x / scale) ** 3 * (Math.exp(-x / scale) / (6 * scale));
  const risk = (accepted: number): SharedRisk =>
    sharedRisk(
      { density, from: 0, to: 40 * scale },
      given.si('u_m'),
      { upper: given.si('T_U') },
      { upper: accepted },
    );
  const open = risk(given.si('T_U'));
  const limit = crossing((a) => risk(a).consumer, given.si('target_consumer_risk'), 0, given.si('T_U'));
  return {
    p_nonconforming: open.nonconforming,
    global_consumer_risk_no_guard: open.consumer,
    acceptance_limit: limit,
    acceptance_limit_fine: limit,
    global_producer_risk_no_guard: open.producer,
    global_producer_risk_guarded: risk(limit).producer,
  };
}

const STANDARD_PRODUCT = { density: normalDensity, from: -9, to: 9 };

function conforms(given: Given): Answers {
  const limit = (key: string): number | undefined => (given.has(key) ? given.si(key) : undefined);
  const { verdict, probabilityIn } = conformity(
    { value: given.si('y'), u: given.si('u') },
    { lower: limit('T_L'), upper: limit('T_U') },
  );
  return {
    p_conform: probabilityIn,
    p_conform_fine: probabilityIn,
    decision: { in: 1, 'cannot-tell': 0, out: -1 }[verdict],
  };
}

function speedLimit(given: Given): Answers {
  const beyond = (value: number): number =>
    1 - conformity({ value, u: value * given.si('u_rel') }, { upper: given.si('limit') }).probabilityIn;
  const limit = given.si('limit');
  const decision = crossing(beyond, given.si('required_p_nonconform'), limit, 2 * limit);
  return { decision_limit: decision, decision_limit_fine: decision };
}

function capability(given: Given): Answers {
  const limits = { lower: given.si('LL'), upper: given.si('UL') };
  const [value, u] = [given.si('mean'), given.si('sd')];
  return {
    cpk: capabilityIndex(value, u, limits),
    risk_total: 1 - conformity({ value, u }, limits).probabilityIn,
  };
}

function guardedProduct(given: Given): Answers {
  const spec = given.si('spec_limit');
  const accept = spec * given.si('acceptance_over_spec');
  const { consumer, producer } = sharedRisk(
    STANDARD_PRODUCT,
    1 / given.si('ratio_product_sd_to_u'),
    { lower: -spec, upper: spec },
    { lower: -accept, upper: accept },
  );
  return { pfa: consumer, pfr: producer };
}

function toleranceTable(given: Given): Answers {
  const u = 1 / given.si('ratio_product_sd_to_u');
  return {
    pfa_percent: given.list('in_tolerance_probability').map((p) => {
      const edge = normalQuantile((1 + p) / 2);
      const limits = { lower: -edge, upper: edge };
      return sharedRisk(STANDARD_PRODUCT, u, limits, limits).consumer;
    }),
  };
}

function feelerInterval(given: Given): Answers {
  const [goes, stops] = [given.si('go_leaf'), given.si('no_go_leaf')];
  const leafU = given.has('leaf_error_limit')
    ? fromHalfWidth(given.si('leaf_error_limit'), 'rectangular')
    : 0;
  const { value, u } = bracketMiddle(goes, stops, leafU);
  return { gap: value, u, low: goes, high: stops };
}

function feelerShare(given: Given): Answers {
  const bracket = { goes: given.si('go_leaf'), stops: given.si('no_go_leaf') };
  return { p_conform: shareInside(bracket, { upper: given.si('upper_limit') }) ?? Number.NaN };
}

const at = (temperature: number, expansion: number) => ({
  temperature: exact(temperature),
  expansion: exact(expansion),
});

function warmClearance(given: Given): Answers {
  const sized = (part: string, t: number): number =>
    lengthAtTemperature(metre(given.si(`${part}_20`)), celsius(t), perKelvin(given.si(`alpha_${part}`)));
  const clearance = (t: number): number => sized('bore', t) - sized('piston', t);
  return { clearance_20: clearance(REFERENCE_CELSIUS), clearance_t: clearance(given.si('t')) };
}

function warmScale(given: Given): Answers {
  const l20 = measuredAt20(
    exact(given.si('reading')),
    at(given.si('t_part'), given.si('alpha_part')),
    at(given.si('t_scale'), given.si('alpha_scale')),
  ).value;
  return { L_20: l20, correction_um: l20 - given.si('reading') };
}

function doubtFromTemperature(given: Given): Answers {
  const part = {
    temperature: uncertain(REFERENCE_CELSIUS + given.si('dt'), term('thermometer', given.si('u_dt'))),
    expansion: uncertain(given.si('alpha'), term('coefficient', given.si('u_alpha'))),
  };
  // The case is linear in αΔt: the part as long at 20 °C as the length it names.
  const warm = propagated(
    ([t = 0, a = 0]) => lengthAtTemperature(metre(given.si('L')), celsius(t), perKelvin(a)),
    [part.temperature, part.expansion],
  );
  return { u_L: standardUncertainty(warm) };
}

export const METROLOGY_RUNNERS: Runners = {
  'sp811-': toSi,
  'sp811-degF-212': (given) => ({ t_C: inUnit(readIn(given.said('t')), 'degC') }),
  'two-grams-in-ounces': (given) => ({
    m_oz: readIn(printQuantity(readIn(given.said('m'), 'mass'), 'oz', 4), 'mass'),
  }),
  'gum-h1-uc': endGauge,
  'gum-h1-second-order': endGaugeSecondOrder,
  'gum-h3-calibration-line': calibrationLine,
  'gum-g2-t-': (given) => ({ t: studentQuantile((1 + given.si('p')) / 2, given.si('nu')) }),
  'gum-ws-equal': (given) => {
    const dof = given.list('nu');
    const terms = given.list('u').map((u, i) => term(`source ${i}`, u, 'normal', dof[i] ?? Number.NaN));
    return { nu_eff: effectiveDof(uncertain(0, ...terms)) };
  },
  'gum-typeb-rectangular': (given) => ({ u: fromHalfWidth(given.si('half_width'), 'rectangular') }),
  'gum-typeb-arcsine': (given) => ({ u: fromHalfWidth(given.si('half_width'), 'arcsine') }),
  'gum-resolution': (given) => ({ u: fromResolution(given.si('resolution')) }),
  'gum-s1-table4-dominant-rectangular': dominantRectangular,
  'nist-tn1900-e13-expansion': expansionCoefficient,
  'ilac-g8-': falseAccept,
  'jcgm106-ball-bearing': ballBearing,
  'jcgm106-': conforms,
  'jcgm106-speed-limit': speedLimit,
  'decision-zone-': conforms,
  'cpk-specific-risk-centred': capability,
  'deaver-guardband': guardedProduct,
  'rp19-table-4to1': toleranceTable,
  'feeler-interval-': feelerInterval,
  'feeler-conform-upper-split': feelerShare,
  'feeler-pull-rule': (given) => ({
    piston_to_liner_clearance: linear([{ factor: 1, of: exact(given.si('feeler')) }], given.si('offset'))
      .value,
  }),
  'bisect-': (given) => ({ max_trials: triesFor(given.si('leaves')) }),
  'iso1-reference': (given) => {
    const kelvin = readIn(given.said('t'));
    return { t_ref: inUnit(kelvin, 'degC'), t_ref_K: kelvin };
  },
  'bore-iron-vs-piston-aluminium': warmClearance,
  'scale-and-part-both-warm': warmScale,
  'u-temperature': doubtFromTemperature,
  ...GEOMETRY_RUNNERS,
};

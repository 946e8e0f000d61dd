import {
  bracketMiddle,
  capabilityIndex,
  celsius,
  conformity,
  exact,
  fromHalfWidth,
  inUnit,
  kindsOf,
  lengthAtTemperature,
  linear,
  measuredAt20,
  metre,
  normalDensity,
  normalQuantile,
  parseQuantity,
  perKelvin,
  printQuantity,
  propagated,
  REFERENCE_CELSIUS,
  type SharedRisk,
  sharedRisk,
  shareInside,
  standardUncertainty,
  term,
  triesFor,
  uncertain,
} from '@fettle/core';
import type { Answers, Given, Runners } from './case.ts';
import { GEOMETRY_RUNNERS } from './geometry.ts';
import { UNCERTAINTY_RUNNERS } from './uncertainty.ts';

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
  ...UNCERTAINTY_RUNNERS,
  ...GEOMETRY_RUNNERS,
};

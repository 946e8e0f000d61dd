import {
  effectiveDof,
  exact,
  expanded,
  fittedLine,
  fromHalfWidth,
  fromResolution,
  monteCarlo,
  propagated,
  rectangularSumHalfInterval,
  standardUncertainty,
  studentQuantile,
  term,
  type Uncertain,
  uncertain,
} from '@fettle/core';
import type { Answers, Given, Runners } from './case.ts';

const NANO = 1e-9;

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

export const UNCERTAINTY_RUNNERS: Runners = {
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
};

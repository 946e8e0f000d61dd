import {
  answered,
  CATALOGUE,
  compressionSpread,
  inUnit,
  parseQuantity,
  permissibleUnbalance,
  rodWeights,
  USUAL_SPREADS,
} from '@fettle/core';
import type { Answers, Given, Runners } from './case.ts';

const PSI = 6894.757293168;

/** A spread at the limit passes; the case is judged by both kinds of limit, which can disagree. */
function compression(given: Given): Answers {
  const { spread, fraction } = compressionSpread(given.list('readings'));
  const [psi15, psi20] = USUAL_SPREADS.pressure.map((psi) => Number(spread <= psi * PSI * (1 + 1e-12)));
  const [within10, within15] = USUAL_SPREADS.fraction.map((share) => Number(fraction <= share));
  return {
    spread,
    spread_fraction_of_max: fraction,
    within_15psi: psi15!,
    within_20psi: psi20!,
    within_10pct: within10!,
    within_15pct: within15!,
  };
}

/** As somebody asks for it: through the catalogue, each mass with its unit. */
function onThePin(given: Given): Answers {
  const keys = {
    big_end: 'big_end_each',
    shells: 'bearing_pair',
    small_end: 'small_end',
    piston: 'piston',
    pin: 'pin',
    rings: 'rings',
    oil: 'oil',
  };
  const masses = Object.fromEntries(Object.entries(keys).map(([key, printed]) => [key, given.said(printed)]));
  const answer = answered(
    CATALOGUE.get('bobweight')!,
    {
      ...masses,
      rods_per_pin: given.text('rods_per_pin'),
      factor: given.text('factor'),
    },
    { bareNumbersAreSi: false },
  );
  if (!('results' in answer)) throw new Error(answer.issues[0]!.message);
  const of = (key: string) => Number(answer.results[key]?.value);
  return {
    rotating: of('rotating'),
    reciprocating_per_pin: of('reciprocating'),
    bobweight: of('bobweight'),
  };
}

function unbalance(given: Given): Answers {
  const { unbalance: kept } = permissibleUnbalance(given.si('G'), given.si('mass'), given.si('speed'));
  // The printed factor 9549 is 30 000/π cut to four figures.
  return { U_per: kept * (9549 / (30_000 / Math.PI)), U_per_exact: kept };
}

function rod(given: Given): Answers {
  const { total, fromBigEnd } = rodWeights(
    given.si('big_end_scale'),
    given.si('small_end_scale'),
    given.si('length'),
  );
  return { total, cg_from_big_end: fromBigEnd };
}

/** Print gives a limit in both trades; ours is said in one of them. */
function bothTrades(given: Given): Answers {
  const read = parseQuantity(given.said('limit'), 'length');
  if (!read.ok) throw new Error(read.issues[0]!.message);
  return { limit_mm: inUnit(read.value.value, 'mm') / 1000 };
}

export const PRACTICE_RUNNERS: Runners = {
  'compression-spread-': compression,
  'bobweight-': onThePin,
  'iso21940-': unbalance,
  'rod-end-weights': rod,
  'roundness-new-bore': bothTrades,
};

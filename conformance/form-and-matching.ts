import { answered, CATALOGUE, fittedOval, leastSquaresCircle, matching } from '@fettle/core';
import type { Answers, Given, Runners } from './case.ts';

function circle(given: Given): Answers {
  const y = given.list('y');
  const found = leastSquaresCircle(given.list('x').map((x, i) => [x, y[i]!] as const))!;
  return {
    xc: found.x,
    yc: found.y,
    R: found.radius,
    xc_fine: found.x,
    yc_fine: found.y,
    R_fine: found.radius,
    sum_sq_radial: found.sumOfSquares,
  };
}

/** A profile of lobes, seen all round and by two points opposite. */
function lobes(given: Given): Answers {
  const count = 720;
  const radius = (angle: number) => given.si('R') + given.si('A') * Math.cos(given.si('lobes') * angle);
  const angles = Array.from({ length: count }, (_, i) => (2 * Math.PI * i) / count);
  const found = leastSquaresCircle(
    angles.map((a) => [radius(a) * Math.cos(a), radius(a) * Math.sin(a)] as const),
  )!;
  const diameters = angles.map((a) => radius(a) + radius(a + Math.PI));
  return {
    RONt_lsc: found.outOfRound,
    two_point_diameter_range: Math.max(...diameters) - Math.min(...diameters),
  };
}

/** Four diameters as eight points: an oval's difference of diameters is twice its radial out-of-round. */
function oval(given: Given): Answers {
  const diameters = [0, 45, 90, 135].map((angle) => ({ angle, d: given.si(`D_${angle}`) }));
  const points = diameters.flatMap(({ angle, d }) =>
    [angle, angle + 180].map((at) => {
      const a = (at * Math.PI) / 180;
      return [(d / 2) * Math.cos(a), (d / 2) * Math.sin(a)] as const;
    }),
  );
  const found = leastSquaresCircle(points)!;
  const harmonic = fittedOval(diameters.map(({ angle, d }) => [(angle * Math.PI) / 180, d] as const))!;
  return {
    out_of_round_diametral: 2 * found.outOfRound,
    mean_diameter: 2 * found.radius,
    second_harmonic_diameter_amplitude: harmonic.ovality / 2,
  };
}

function taper(given: Given): Answers {
  const answer = answered(
    CATALOGUE.get('bore-taper')!,
    {
      first: given.said('D_top'),
      second: given.said('D_bottom'),
      apart: given.said('separation_top_bottom'),
    },
    { bareNumbersAreSi: false },
  );
  if (!('results' in answer)) throw new Error(JSON.stringify(answer));
  const of = (key: string): number => Number(answer.results[key]?.value);
  return { taper_trade: of('taper'), taper_per_inch: of('rate'), half_angle_rad: of('half_angle') };
}

function optima(costs: readonly (readonly number[])[]): Answers {
  return { min_sum: matching(costs)!.total, bottleneck_min_max: matching(costs, 'worst')!.worst };
}

const counted = (n: number) =>
  Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_, j) => i * j));

/** Pistons to bores: squares about the target clearance, which sorting by size gives as well. */
function pistons(given: Given): Answers {
  const [bores, sizes, target] = [given.list('bore'), given.list('piston'), given.si('target_clearance')];
  const found = matching(bores.map((bore) => sizes.map((size) => (bore - size - target) ** 2)))!;
  const clearances = found.assignment.map((j, i) => bores[i]! - sizes[j]!);
  const rank = bores.map((_, i) => i).sort((a, b) => bores[a]! - bores[b]!);
  const inside = clearances.every((c) => c > 0.025e-3 - 1e-9 && c < 0.045e-3 + 1e-9);
  return {
    clearances_by_rank: rank.map((i) => clearances[i]!),
    'all_within_0.025_0.045': inside ? 1 : 0,
  };
}

function weights(given: Given): Answers {
  const masses = given.list('piston_mass');
  const spread = Math.max(...masses) - Math.min(...masses);
  return { spread, within_limit: spread <= given.si('limit_spread') ? 1 : 0 };
}

export const FORM_AND_MATCHING_RUNNERS: Runners = {
  'circle-': circle,
  'roundness-lobes': lobes,
  'roundness-ellipse': oval,
  'taper-definition': taper,
  'assign-': (given) => optima(given.table('cost')),
  'assign-machol-wien': (given) => optima(counted(given.si('n'))),
  'match-pistons': pistons,
  'piston-weight-spread': weights,
};

import {
  annulusLeak,
  centreDistanceRule,
  cubicMetre,
  dimensionlessFeed,
  dimensionlessSideFlow,
  eccentricAnnulus,
  exactHoleConductance,
  gearPumpDisplacement,
  grooveFeed,
  halfGrooveFactor,
  holeFactor,
  idealFlow,
  metre,
  metrePerSecond,
  moduleRule,
  newton,
  pascal,
  pascalSecond,
  plainBearingAt,
  plainFilm,
  pocketFactor,
  radialFaceFlow,
  radian,
  radianPerSecond,
  rootRingRule,
  shortBearing,
  shortBearingEccentricity,
  shortBearingStiffness,
  slotFlow,
  tipDrag,
} from '@fettle/core';
import type { Answers, Given, Runners } from './case.ts';

const length = (given: Given, key: string) => metre(given.si(key));

function shortBearingCase(given: Given): Answers {
  if (given.has('W')) {
    const [c, load] = [length(given, 'c'), newton(given.si('W'))];
    const surface = metrePerSecond((given.si('omega') * given.si('D')) / 2);
    const e = shortBearingEccentricity(load, c, pascalSecond(given.si('mu')), surface, length(given, 'L'));
    const k = shortBearingStiffness(load, c, e);
    return { eccentricity_ratio: e, kxx: k.xx, kxy: k.xy, kyx: k.yx, kyy: k.yy };
  }
  const s = shortBearing(given.si('L_over_D'), given.si('eccentricity_ratio'));
  return {
    S: s.sommerfeldNumber,
    attitude_angle_phi: s.attitudeAngle,
    Qs_over_rcNL: s.sideFlowVariable,
    theta_pmax_from_hmax: s.greatestPressureAt,
  };
}

/** How far the short bearing may be trusted: its figures over those of the finite solution. */
function againstFinite(given: Given): Answers {
  const [ratio, e] = [given.si('L_over_D'), given.si('eccentricity_ratio')];
  const short = shortBearing(ratio, e);
  const finite = plainBearingAt(plainFilm(ratio), e);
  if (!finite) throw new Error('no solution');
  return {
    S_ocvirk_over_S_finite: short.sommerfeldNumber / finite.sommerfeld,
    Qs_ocvirk_over_Qs_finite: short.sideFlowVariable / (finite.flow * finite.sideRatio),
    phi_ocvirk_minus_finite: short.attitudeAngle - finite.attitude,
  };
}

function annulus(given: Given): Answers {
  const e = given.has('eccentricity_ratio') ? given.si('eccentricity_ratio') : 0;
  const diameter = metre(given.has('radius') ? 2 * given.si('radius') : given.si('piston_diameter'));
  const at = (ratio: number) =>
    annulusLeak(
      diameter,
      length(given, 'length'),
      length(given, 'radial_clearance'),
      ratio,
      pascal(given.si('delta_p')),
      pascalSecond(given.si('mu')),
    );
  return { Q: at(e), ratio_to_concentric: at(e) / at(0) };
}

function fullGroove(given: Given): Answers {
  const q = grooveFeed(
    length(given, 'D'),
    length(given, 'land_length_each_side'),
    length(given, 'c'),
    given.si('eccentricity_ratio'),
    pascal(given.si('p_supply')),
    pascalSecond(given.si('mu')),
  );
  return { Q: q, Q_Lmin: q };
}

function halfGroove(given: Given): Answers {
  const e = given.si('eccentricity_ratio');
  const factor = halfGrooveFactor(e);
  return {
    factor_vs_concentric_half_groove: factor,
    flow_ratio_half_over_full_groove: factor / 2 / eccentricAnnulus(e),
  };
}

function holeInStrip(given: Given): Answers {
  const x = given.si('dH_over_B');
  const exact = exactHoleConductance(x);
  // D³ψ³ = 8 c³, so 12 μ Q/(c³ p) is 96 Qp*.
  return { Q_times_12mu_over_h3p: exact, iso_over_exact: (96 * dimensionlessFeed(x, 0, holeFactor)) / exact };
}

function pumpGears(given: Given): Answers {
  const gears = {
    teeth: given.si('teeth'),
    tipDiameter: length(given, 'tip_diameter'),
    faceWidth: length(given, 'width'),
    pressureAngle: radian(given.si('pressure_angle')),
    module: length(given, 'module'),
    centreDistance: length(given, 'centre_distance'),
  };
  return {
    V_single_flank: gearPumpDisplacement(gears, 1),
    V_dual_flank: gearPumpDisplacement(gears, 2),
    V_centre_distance_rule: centreDistanceRule(gears),
    V_2pi_m2_z_b: moduleRule(gears),
    V_annulus_to_root: rootRingRule(gears),
  };
}

function tips(given: Given): Answers {
  const back = slotFlow(
    given.si('width'),
    length(given, 'tip_clearance'),
    given.si('tip_land') * given.si('teeth_sealing'),
    pascal(given.si('delta_p')),
    pascalSecond(given.si('mu')),
  );
  const forward = tipDrag(
    length(given, 'width'),
    length(given, 'tip_clearance'),
    metrePerSecond(given.si('tip_speed')),
  );
  return { Q_poiseuille_back: back, Q_couette_forward: forward, Q_net_back: back - forward };
}

/** Bearings and thin films: short bearing, annulus, grooves, holes, gear pumps and their slip. */
export const FILM_RUNNERS: Runners = {
  'jb.ocvirk.friswell': shortBearingCase,
  'jb.ocvirk.2': shortBearingCase,
  'jb.ocvirk.3': shortBearingCase,
  'jb.ocvirk.vs': againstFinite,
  'jb.iso7902.q3': (given) => {
    const q3 = dimensionlessSideFlow(given.si('B_over_D'), given.si('eccentricity_ratio'));
    // The second key prints a finite table's value with the 1.2 % by which the formula may miss it.
    return { Q3_star: q3, Q3_star_finite_table: q3 };
  },
  'leak.annulus': annulus,
  'leak.groove360': fullGroove,
  'leak.groove180': halfGroove,
  'leak.hole.iso': (given) => {
    const x = given.si('dH_over_B');
    return { qH: holeFactor(x), Qp_star: dimensionlessFeed(x, given.si('eccentricity_ratio'), holeFactor) };
  },
  'leak.pocket.iso': (given) => {
    const x = given.si('bP_over_B');
    return {
      qP: pocketFactor(x),
      Qp_star: dimensionlessFeed(x, given.si('eccentricity_ratio'), pocketFactor),
    };
  },
  'leak.hole.strip': holeInStrip,
  'pump.involute': pumpGears,
  'pump.cengel': (given) => ({
    // Two lobes on each of two rotors pass in a turn, one volume each half turn and side.
    Q: idealFlow(cubicMetre(4 * given.si('volume_per_half_turn_one_side')), radianPerSecond(given.si('N'))),
  }),
  'slip.radial': (given) => ({
    Q: radialFaceFlow(
      1,
      length(given, 'gap'),
      given.si('R2_over_R1'),
      pascal(given.si('delta_p')),
      pascalSecond(given.si('mu')),
    ),
  }),
  'slip.tip': tips,
  'slip.end': (given) => ({
    Q_one_face: radialFaceFlow(
      given.si('fraction_of_circle'),
      length(given, 'end_clearance_each_side'),
      given.si('r_root') / given.si('r_shaft'),
      pascal(given.si('delta_p')),
      pascalSecond(given.si('mu')),
    ),
  }),
};

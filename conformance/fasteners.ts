import {
  equalStrengthEngagement,
  externalShearArea,
  type FastenerStrength,
  fastenerStrength,
  fromUnit,
  holdingTorque,
  hubHoopStress,
  internalShearArea,
  isoNutProof,
  jointConstant,
  type Metre,
  metre,
  metricThread,
  mildSteel,
  minorDiameterArea,
  minorDiameterExternal,
  minorDiameterInternal,
  newton,
  newtonMetre,
  newtonPerMetre,
  nutDilation,
  nutFactor,
  nutThreadBending,
  type Outcome,
  pascal,
  perKelvin,
  pitchDiameter,
  preloadAtStress,
  pressPressure,
  proofLoad,
  radian,
  saeNutProof,
  shaftHoopStress,
  shrinkTemperature,
  slidingForce,
  squareMetre,
  standardTolerance,
  stressArea,
  stripRatio,
  type Thread,
  TIGHTENING_SCATTER,
  tighteningFactor,
  toleranceDeviations,
  torqueByFriction,
  torqueByNutFactor,
  totalFriction,
  unifiedLimits,
  unifiedThread,
  wrenchSetting,
} from '@fettle/core';
import type { Answers, Given, Runners } from './case.ts';

function must<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.issues.map((issue) => issue.message).join(' '));
  return outcome.value;
}
function there<T>(value: T | undefined): T {
  if (value === undefined) throw new Error('the program holds no such row');
  return value;
}
const length = (given: Given, key: string): Metre => metre(given.si(key));

function thread(given: Given): Thread {
  const major = length(given, 'major_diameter');
  if (given.has('pitch')) return metricThread(major, length(given, 'pitch'));
  return unifiedThread(major, Math.round(given.si('threads_per_inch') * 0.0254));
}

function threadSizes(given: Given): Answers {
  const sizes = thread(given);
  const limits = given.has('length_of_engagement')
    ? unifiedLimits(sizes, length(given, 'length_of_engagement'))
    : undefined;
  return {
    basic_pitch_diameter: pitchDiameter(sizes),
    basic_minor_diameter_internal: minorDiameterInternal(sizes),
    pitch_diameter_d2: pitchDiameter(sizes),
    minor_diameter_internal_D1: minorDiameterInternal(sizes),
    minor_diameter_external_d3: minorDiameterExternal(sizes),
    tensile_stress_area: stressArea(sizes),
    minor_diameter_area: minorDiameterArea(sizes),
    ...(limits && {
      external_major_min: limits.externalMajorMin,
      external_pitch_min: limits.externalPitchMin,
      internal_minor_max: limits.internalMinorMax,
      internal_pitch_max: limits.internalPitchMax,
    }),
  };
}

const strengths = (found: FastenerStrength): Answers => ({
  proof_strength: found.proof,
  yield_strength_min: found.yield,
  tensile_strength_min: found.tensile,
});

function saeStrength(given: Given): Answers {
  const grade = given.text('grade');
  const ends = [length(given, 'size_min'), length(given, 'size_max')].map((d) =>
    must(fastenerStrength(grade, d)),
  );
  // The printed row must hold at both of its ends.
  if (ends[0]!.proof !== ends[1]!.proof) throw new Error(`${given.id}: the row's two ends differ`);
  return strengths(ends[0]!);
}

function isoStrength(given: Given): Answers {
  const large = given.text('diameter_range') === 'd>16';
  const found = must(fastenerStrength(`ISO ${given.text('property_class')}`, metre(large ? 0.02 : 0.01)));
  return {
    tensile_nominal: there(found.tensileNominal),
    tensile_min: found.tensile,
    yield_or_Rp02_min: found.yield,
    proof_stress: found.proof,
    proof_to_yield_ratio: found.proof / found.yield,
  };
}

function nutLoads(given: Given): Answers {
  const diameter = metre(Number(/m(\d+)$/.exec(given.id)![1]) / 1000);
  const area = squareMetre(given.si('tensile_stress_area'));
  return Object.fromEntries(
    ['8', '10', '12'].map((cls) => [
      `proof_load_class_${cls}`,
      proofLoad(there(isoNutProof(cls, diameter)), area),
    ]),
  );
}

const steel = (given: Given): Answers => {
  const found = there(mildSteel(given.text('material')));
  return { tensile_min: found.tensile, yield_min: found.yield };
};

function vdiTable(given: Given): Answers {
  const sizes = thread(given);
  const inThread = given.si('thread_friction');
  const friction = {
    thread: inThread,
    bearing: given.si('head_friction'),
    bearingDiameter: metre((given.si('head_bearing_diameter_dw') + given.si('hole_diameter_dh')) / 2),
  };
  const answers: Record<string, number> = {};
  for (const cls of ['8.8', '10.9', '12.9']) {
    if (!given.has(`Rp02_${cls}`)) continue;
    const limit = pascal(given.si('yield_utilisation') * given.si(`Rp02_${cls}`));
    const preload = preloadAtStress(limit, sizes, inThread);
    answers[`preload_${cls}`] = preload;
    answers[`torque_${cls}`] = torqueByFriction(preload, sizes, friction);
  }
  return answers;
}

function scatter(given: Given): Answers {
  const asked = given.text('method');
  const names: readonly (readonly [string, string])[] = [
    ['yield-controlled', 'yield or angle control'],
    ['angle-controlled', 'yield or angle control'],
    ['hydraulic', 'hydraulic, elongation'],
    ['torque wrench, nominal torque set by test', 'torque wrench, torque found by test on the joint'],
    ['precision power driver', 'precision power driver'],
  ];
  const [low, high] = there(TIGHTENING_SCATTER[there(names.find(([start]) => asked.startsWith(start)))[1]]);
  return { scatter_low: low, scatter_high: high };
}

function shortForm(given: Given): Answers {
  const preload = newton(given.si('preload_stress') * given.si('tensile_stress_area'));
  return { torque: torqueByNutFactor(preload, given.si('nut_factor_K'), length(given, 'nominal_diameter')) };
}

function preloadExample(given: Given): Answers {
  const load = proofLoad(pascal(given.si('proof_strength')), squareMetre(given.si('tensile_stress_area')));
  const preload = newton(given.si('preload_fraction_of_proof') * load);
  const major = length(given, 'nominal_diameter');
  return {
    preload,
    torque_dry: torqueByNutFactor(preload, given.si('nut_factor_dry'), major),
    torque_lubricated: torqueByNutFactor(preload, given.si('nut_factor_lubricated'), major),
  };
}

function joint(given: Given): Answers {
  const share = jointConstant(newtonPerMetre(given.si('kb')), newtonPerMetre(given.si('km')));
  const area = given.si('tensile_stress_area');
  return {
    joint_constant_C: share,
    preload_stress: given.si('preload') / area,
    service_stress: (share * given.si('external_load') + given.si('preload')) / area,
  };
}

function frictionFromTorque(given: Given): Answers {
  const torque = newtonMetre(given.si('torque'));
  const preload = newton(given.si('preload'));
  return {
    total_friction: totalFriction(torque, preload, thread(given), length(given, 'mean_bearing_diameter')),
    nut_factor_K: torque / (preload * given.si('major_diameter')),
  };
}

const adapter = (given: Given): Answers => ({
  wrench_setting: wrenchSetting(
    newtonMetre(given.si('desired_torque')),
    length(given, 'wrench_length'),
    length(given, 'adapter_length'),
    radian(given.si('adapter_angle')),
  ),
});

/** The factors of the conformance table are checked against the program's own. */
const UNITS: Readonly<Record<string, string>> = {
  'tor-unit-lbfin': 'lbf.in',
  'tor-unit-kgfcm': 'kgf.cm',
  'tor-unit-ozfin': 'ozf.in',
  'tor-unit-lbf': 'lbf',
  'tor-unit-ksi': 'ksi',
  'tor-unit-in': 'in',
};
const oneUnit = (given: Given): Answers => ({ value: fromUnit(1, there(UNITS[given.id])) });

function stripping(given: Given): Answers {
  const pitch = metre(1 / given.si('threads_per_inch'));
  const limits = {
    externalMajorMin: length(given, 'external_major_min'),
    externalPitchMin: length(given, 'external_pitch_min'),
    internalMinorMax: length(given, 'internal_minor_max'),
    internalPitchMax: length(given, 'internal_pitch_max'),
  };
  const engagement = length(given, 'length_of_engagement');
  const answers: Record<string, number> = {
    shear_area_external: externalShearArea(pitch, engagement, limits),
    shear_area_internal: internalShearArea(pitch, engagement, limits),
  };
  if (given.has('tensile_stress_area')) {
    const needed = equalStrengthEngagement(squareMetre(given.si('tensile_stress_area')), pitch, limits);
    answers.required_engagement_equal_materials = needed;
    answers.required_engagement_over_d = needed / ((7 / 16) * 0.0254);
  }
  if (given.has('tensile_strength_external')) {
    const bolt = pascal(given.si('tensile_strength_external'));
    answers.J_strength_ratio = stripRatio(pitch, limits, bolt, pascal(given.si('tensile_strength_internal')));
  }
  return answers;
}

function isoFits(given: Given): Answers {
  const size = length(given, 'nominal_size');
  const answers: Record<string, number> = {};
  for (const cls of ['H7', 'm6', 'n6', 'p6', 'r6', 's6', 'u6']) {
    const { lower, upper } = must(toleranceDeviations(size, cls));
    answers[`${cls}_lower`] = lower;
    answers[`${cls}_upper`] = upper;
    if (cls === 'p6' || cls === 's6') {
      answers[`H7${cls}_interference_max`] = upper - answers.H7_lower!;
      answers[`H7${cls}_interference_min`] = lower - answers.H7_upper!;
    }
  }
  return answers;
}

const grades = (given: Given): Answers =>
  Object.fromEntries(
    [6, 7, 8].map((grade) => [`IT${grade}`, there(standardTolerance(length(given, 'up_to'), grade))]),
  );

function press(given: Given): Answers {
  const si = (key: string, other: string, factor: number) =>
    metre(given.has(key) ? given.si(key) : factor * given.si(other));
  const same = given.has('E');
  const elastic = (side: string) => ({
    modulus: pascal(given.si(same ? 'E' : `E_${side}`)),
    // With one material and a solid shaft Poisson's ratio cancels.
    poisson: same ? 0.3 : given.si(`nu_${side}`),
  });
  const fit = {
    bore: si('interface_diameter', 'interface_radius', 2),
    interference: si('diametral_interference', 'radial_interference', 2),
    hubOutside: si('hub_outer_diameter', 'hub_outer_radius', 2),
    shaftBore: metre(given.has('shaft_bore') ? given.si('shaft_bore') : 0),
    hub: elastic('hub'),
    shaft: elastic('shaft'),
  };
  const pressure = pressPressure(fit);
  const answers = {
    pressure,
    hub_bore_hoop_stress: hubHoopStress(pressure, fit),
    shaft_hoop_stress: shaftHoopStress(pressure, fit),
  };
  if (!given.has('friction')) return answers;
  const force = slidingForce(pressure, fit.bore, length(given, 'length'), given.si('friction'));
  return { ...answers, axial_holding_force: force, holding_torque: holdingTorque(force, fit.bore) };
}

const shrink = (given: Given): Answers => ({
  temperature_rise: shrinkTemperature(
    length(given, 'diametral_interference'),
    length(given, 'assembly_clearance'),
    length(given, 'diameter'),
    perKelvin(given.si('expansion')),
  ),
});

export const FASTENER_RUNNERS: Runners = {
  'thr-': threadSizes,
  'str-sae-': saeStrength,
  'str-iso-': isoStrength,
  'str-iso-proofload-': (given) => ({
    proof_load: proofLoad(pascal(given.si('proof_stress')), squareMetre(given.si('tensile_stress_area'))),
  }),
  'str-nut-': nutLoads,
  'str-nut-sae-': (given) => ({
    proof_stress: there(saeNutProof(/grade (\d)/.exec(given.text('grade'))![1]!)),
  }),
  'str-mild-': steel,
  'tor-K': (given) => ({ nut_factor_K: there(nutFactor(given.text('bolt_condition'))).nominal }),
  'tor-KFD-': shortForm,
  'tor-shigley-8-3-stress': joint,
  'tor-preload-': preloadExample,
  'tor-vdi2230-': vdiTable,
  'tor-alphaA-': (given) => ({ alpha_A: tighteningFactor(given.si('preload_scatter_plus_minus')) }),
  'tor-scatter-': scatter,
  'tor-din946-': frictionFromTorque,
  'tor-adapter-': adapter,
  'tor-unit-': oneUnit,
  // The program reads no long tons; its own pound and inch must still make up the printed figure.
  'tor-unit-tonf-uk-in2': () => ({ value: fromUnit(2240, 'lbf') / fromUnit(1, 'in') ** 2 }),
  'strip-': stripping,
  'strip-alexander-C1-': (given) => ({ C1: nutDilation(given.si('width_across_flats_over_d')) }),
  'strip-alexander-C3-': (given) => ({ C3: nutThreadBending(given.si('strength_ratio_Rs')) }),
  'fit-iso286-': isoFits,
  'fit-it-': grades,
  'fit-lame-': press,
  'fit-shrink-': shrink,
};

import {
  angleAtHalfStroke,
  boreForVolume,
  brakeMeanPressure,
  buretteLimit,
  camTiming,
  clearanceForRatio,
  compressionRatio,
  coneLift,
  cubicMetre,
  deadCentres,
  distanceFromTop,
  dynamicCompression,
  fitClearance,
  isentropicRatio,
  meanPistonSpeed,
  metre,
  normalisedError,
  pistonArea,
  pistonTravel,
  pistonVelocity,
  pooled,
  portArea,
  portLift,
  radian,
  radianPerSecond,
  rootSumSquareHalfRange,
  type SizeLimits,
  type SliderCrank,
  shaftForClearance,
  shellCrush,
  shellWall,
  standardTolerance,
  standardUncertainty,
  sweptVolume,
  term,
  uncertain,
  valveArea,
  volumeRatio,
  watt,
} from '@fettle/core';
import type { Answers, Given, Runners } from './case.ts';

/** A centred mechanism of unit throw, for cases given by rod over crank alone. */
const unitCrank = (given: Given): SliderCrank => ({
  crankRadius: metre(1),
  rod: metre(given.si('rod_over_crank')),
  offset: metre(0),
});

const limits = (given: Given, key: string): SizeLimits => {
  const [least, greatest] = given.list(key);
  return { least: metre(least!), greatest: metre(greatest!) };
};

function fromVolume(given: Given): Answers {
  const swept = cubicMetre(given.si('swept_volume'));
  const bore = boreForVolume(swept, given.si('bore_over_stroke'));
  return {
    bore,
    stroke: swept / pistonArea(bore),
    compression_ratio: compressionRatio(swept, cubicMetre(given.si('clearance_volume'))),
  };
}

function twelve(given: Given): Answers {
  const bore = metre(given.si('bore'));
  const stroke = metre(given.si('stroke'));
  const swept = sweptVolume(bore, stroke);
  const count = given.si('cylinders');
  return {
    swept_volume_each: swept,
    total_swept: count * swept,
    piston_area: pistonArea(bore),
    piston_area_total: count * pistonArea(bore),
    cr_naval: compressionRatio(swept, cubicMetre(given.si('clearance_naval'))),
    cr_army: compressionRatio(swept, cubicMetre(given.si('clearance_army'))),
    swept_volume_cm3: swept,
    stroke_bore_ratio: stroke / bore,
  };
}

function speedAndPressure(given: Given): Answers {
  const speed = radianPerSecond(given.si('speed'));
  const displacement = cubicMetre(given.si('total_swept'));
  const power = watt(given.si('power'));
  return {
    piston_speed: meanPistonSpeed(metre(given.si('stroke')), speed),
    bmep: brakeMeanPressure(power, displacement, speed),
    in3_per_bhp: displacement / power,
  };
}

function carrier(given: Given): Answers {
  const swept = sweptVolume(metre(given.si('bore')), metre(given.si('stroke')));
  return {
    displacement: given.si('cylinders') * swept,
    clearance_volume_each: clearanceForRatio(swept, given.si('compression_ratio')),
  };
}

function events(given: Given): Answers {
  const timing = camTiming({
    inletOpens: radian(given.si('IVO')),
    inletCloses: radian(given.si('IVC')),
    exhaustOpens: radian(given.si('EVO')),
    exhaustCloses: radian(given.si('EVC')),
  });
  return {
    intake_duration: timing.inletDuration,
    exhaust_duration: timing.exhaustDuration,
    overlap: timing.overlap,
    intake_lobe_centre: timing.inletCentre,
    exhaust_lobe_centre: timing.exhaustCentre,
    lobe_separation_cam_deg: timing.separation,
  };
}

function offsetPin(given: Given): Answers {
  const crank = {
    crankRadius: metre(given.si('crank_radius')),
    rod: metre(given.si('rod')),
    offset: metre(given.si('pin_offset')),
  };
  const at = (degrees: number) => distanceFromTop(crank, radian((degrees * Math.PI) / 180));
  const { top, bottom } = deadCentres(crank);
  return {
    stroke: pistonTravel(crank),
    tdc_crank_angle: top,
    bdc_crank_angle: bottom,
    x_at_0: at(0),
    x_at_90: at(90),
    x_at_270: at(270),
  };
}

function volumeAt(given: Given): Answers {
  const crank = unitCrank(given);
  const angle = radian(given.si('theta'));
  const speed = radianPerSecond(1);
  return {
    V_over_Vc: volumeRatio(given.si('compression_ratio'), crank, angle),
    Sp_over_mean: pistonVelocity(crank, angle, speed) / meanPistonSpeed(metre(2), speed),
  };
}

function lateClosing(given: Given): Answers {
  const late = dynamicCompression(given.si('static_cr'), unitCrank(given), radian(given.si('IVC')));
  return { fraction_of_swept_at_ivc: late.fraction, dynamic_cr: late.ratio };
}

function poppet(given: Given): Answers {
  const valve = {
    head: metre(given.si('valve_head_diameter')),
    seatWidth: metre(given.si('seat_width')),
    seatAngle: radian(given.si('seat_angle')),
  };
  const lift = metre(given.si('lift'));
  if (!given.has('port_diameter')) {
    return { min_flow_area: valveArea(valve, lift), stage1_limit_lift: coneLift(valve) };
  }
  const throat = { port: metre(given.si('port_diameter')), stem: metre(given.si('stem_diameter')) };
  return {
    min_flow_area: valveArea(valve, lift, throat),
    stage2_limit_lift: portLift(valve, throat.port, throat.stem),
    port_area_stage3: portArea(throat.port, throat.stem),
  };
}

function sleeve(given: Given): Answers {
  const [hole, shaft] = [limits(given, 'hole'), limits(given, 'shaft')];
  const { least, greatest } = fitClearance(hole, shaft);
  return {
    clearance_min: least,
    clearance_max: greatest,
    clearance_mid: (least + greatest) / 2,
    rss_half_range: rootSumSquareHalfRange(hole, shaft),
  };
}

function bush(given: Given): Answers {
  const { least, greatest } = fitClearance(limits(given, 'hole'), limits(given, 'bush_od'));
  return { interference_min: -greatest, interference_max: -least };
}

function pin(given: Given): Answers {
  const implied = shaftForClearance(limits(given, 'bush_bore'), limits(given, 'clearance'));
  return { implied_pin_max: implied.greatest, implied_pin_min: implied.least };
}

function shell(given: Given): Answers {
  const housing = limits(given, 'housing');
  const { thin, thick } = shellWall(housing, limits(given, 'bearing_bore'));
  // The printed nominal wall is the mean of what the limits leave.
  return {
    wall_nominal: (thin + thick) / 2,
    housing_tolerance_is_H6: standardTolerance(housing.least, 6) ?? Number.NaN,
  };
}

function isoGrades(given: Given): Answers {
  const ends = given
    .text('range_mm')
    .split(',')
    .map((range) => Number(range.split('-')[1]) / 1000);
  return Object.fromEntries(
    [5, 6, 7, 8].map((grade) => [
      `IT${grade}`,
      ends.map((end) => standardTolerance(metre(end), grade) ?? Number.NaN),
    ]),
  );
}

function agreement(given: Given): Answers {
  const [x1, u1, x2, u2] = ['x1', 'u1', 'x2', 'u2'].map((key) => given.si(key)) as [
    number,
    number,
    number,
    number,
  ];
  const mean = pooled([uncertain(x1, term('leaf', u1)), uncertain(x2, term('plastic thread', u2))]);
  return {
    En: normalisedError(x1, 2 * u1, x2, 2 * u2),
    weighted_mean: mean.value.value,
    u_weighted: standardUncertainty(mean.value),
  };
}

function burettes(given: Given): Answers {
  const limit = (accuracy: 'A' | 'B') =>
    given.list('capacity').map((capacity) => buretteLimit(cubicMetre(capacity), accuracy) ?? Number.NaN);
  return { class_a_limit: limit('A'), class_b_limit: limit('B') };
}

export const GEOMETRY_RUNNERS: Runners = {
  'ganesan-1-1': fromVolume,
  'ganesan-3-2': (given) => ({
    compression_ratio_isentropic: isentropicRatio(given.si('T1'), given.si('T2'), given.si('gamma')),
  }),
  'handbook-v12-volumes': twelve,
  'handbook-v12-speed-bmep': speedAndPressure,
  'handbook-v12-valve-events': events,
  'tm294-carrier-engine': carrier,
  'piston-at-90-': (given) => ({
    travel_fraction_from_tdc: distanceFromTop(unitCrank(given), radian(Math.PI / 2)) / 2,
    crank_angle_at_half_stroke: angleAtHalfStroke(unitCrank(given)),
  }),
  'heywood-volume-': volumeAt,
  'pin-offset': offsetPin,
  'dynamic-cr-': lateClosing,
  'heywood-valve-': poppet,
  'burette-': burettes,
  'tm400-sleeve-': sleeve,
  'tm669-pressed-bush': bush,
  'tm669-pin-clearance': pin,
  'tm669-shell-wall': shell,
  'iso286-it-grades': isoGrades,
  'crush-from-protrusion': (given) => {
    const { perimeter, diametral } = shellCrush(metre(given.si('half_shell_excess_each_side')));
    return { circumferential_crush_total: perimeter, equivalent_diametral_interference: diametral };
  },
  'feeler-vs-plastic-thread-agreement': agreement,
};

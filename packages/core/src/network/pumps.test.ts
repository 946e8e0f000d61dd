import { expect, it } from 'vitest';
import { compiledNetwork, type RunningConditions, solvedNetwork } from './network.ts';
import { PreparedNetwork } from './prepared.ts';

const OIL = { dynamic_viscosity: 0.012, density: 860 } as const;
const HOT = { speed: 200, temperature: 366 } as const;
const LEAK = { id: 'leak', law: 'laminar-leak', from: 'gallery', strength: 4e-13 } as const;
const GEARS = { id: 'pump', law: 'gear-pump', to: 'gallery', displacement: 1e-5, speed_ratio: 0.5 } as const;
const ROTORS = {
  id: 'pump',
  law: 'rotor-pump',
  to: 'gallery',
  displacement: 1.42e-5,
  thickness: 0.012,
  speed_ratio: 1,
} as const;

function compiled(elements: readonly object[], fluid: object = OIL) {
  const network = compiledNetwork({ fluid, elements });
  if (!network.ok) throw new Error(JSON.stringify(network.issues));
  return network.value;
}

function solved(elements: readonly object[], conditions: RunningConditions = HOT, fluid: object = OIL) {
  const answer = solvedNetwork(compiled(elements, fluid), conditions);
  if (!answer.ok) throw new Error(JSON.stringify(answer.issues));
  return answer.value;
}

const slot = (id: string, width: number, length: number, gap: number) => ({
  id,
  law: 'slot',
  from: 'gallery',
  width,
  length,
  gap,
});

const gallery = (elements: readonly object[]) => solved(elements).pressures.gallery!;

it('a groove worn into the cover slips like a wider gap on its own face', () => {
  const [h, groove, k] = [9e-5, 6e-5, 2];
  const pump = { ...GEARS, end_clearance: h, face_ratio: k, face_split: 0.25, cover_groove: groove };
  // Each face of two gears, k wide for its length.
  const faces = [slot('plain', 2 * k, 1, 0.25 * h), slot('grooved', 2 * k, 1, 0.75 * h + groove)];
  expect(gallery([pump, LEAK])).toBeCloseTo(gallery([GEARS, ...faces, LEAK]), 2);
  expect(gallery([pump, LEAK])).toBeLessThan(0.8 * gallery([{ ...pump, cover_groove: 0 }, LEAK]));
});

it('the drive shaft leaks like any annular gap', () => {
  const shaft = {
    shaft_diameter: 0.014,
    shaft_clearance: 5e-5,
    shaft_length: 0.03,
    shaft_eccentricity: 0.8,
  };
  const gap = {
    id: 'gap',
    law: 'annulus',
    from: 'gallery',
    diameter: 0.014,
    length: 0.03,
    radial_clearance: 5e-5,
    eccentricity_ratio: 0.8,
  };
  expect(gallery([{ ...GEARS, ...shaft }, LEAK])).toBeCloseTo(gallery([GEARS, gap, LEAK]), 3);
  expect(gallery([{ ...ROTORS, ...shaft }, LEAK])).toBeCloseTo(gallery([ROTORS, gap, LEAK]), 3);
});

it('a rotor pump slips past its sides, its round tips and round its outer rotor', () => {
  const [tip, radius] = [1e-4, 0.0028];
  const pump = {
    ...ROTORS,
    side_clearance: 7e-5,
    face_ratio: 3,
    tip_clearance: tip,
    tip_radius: radius,
    tips_in_series: 2,
    body_clearance: 1.2e-4,
    body_arc: 0.018,
  };
  // By hand: 3π/8 · √(2 · 2.8 mm · 0.1 mm) = 0.88161 mm for each pair of tips.
  const paths = [
    slot('sides', 3, 1, 7e-5),
    slot('tips', 0.012, 2 * 0.88161e-3, tip),
    slot('body', 2 * 0.012, 0.018, 1.2e-4),
  ];
  expect(gallery([pump, LEAK]) / gallery([ROTORS, ...paths, LEAK])).toBeCloseTo(1, 4);
});

it('a rotor pump measured by its chambers delivers as one whose displacement is told', () => {
  const { displacement: _, ...measured } = ROTORS;
  const chambers = { inner_teeth: 4, greatest_chamber: 310e-6, least_chamber: 14.1666666667e-6 };
  // By hand: 4 · 295.833 mm² · 12 mm = 14.2 cm³.
  expect(gallery([{ ...measured, ...chambers }, LEAK])).toBeCloseTo(gallery([ROTORS, LEAK]), 1);
  const codes = (pump: object) => {
    const network = compiledNetwork({ fluid: OIL, elements: [pump, LEAK] });
    return network.ok ? [] : network.issues.map(({ code, at }) => `${code} ${at}`);
  };
  expect(codes({ ...ROTORS, ...chambers })).toEqual(['network/excluded /elements/0/inner_teeth']);
  expect(codes({ ...measured, ...chambers, least_chamber: 4e-4 })).toEqual([
    'network/impossible /elements/0/least_chamber',
  ]);
  expect(codes({ ...GEARS, cover_groove: 1e-4 })).toEqual(['network/impossible /elements/0/cover_groove']);
});

it('a knob turned gives what a network read with that value gives, gaps and all other parameters alike', () => {
  const pump = {
    ...GEARS,
    end_clearance: 9e-5,
    face_ratio: 2,
    face_split: 0.3,
    tip_clearance: 6e-5,
    tip_land: 0.0012,
    tips_in_series: 3,
    face_width: 0.019,
  };
  const grooved = { ...pump, cover_groove: 3e-5 };
  const bearing = {
    id: 'rod',
    law: 'hole-bearing-with-side-flow',
    from: 'gallery',
    diameter: 0.05,
    length: 0.03,
    hole_diameter: 0.006,
    radial_clearance: 2.5e-5,
    load: 1500,
    side_flow_factor: 0.33,
    side_flow_pressure: 2e4,
    inner_radius: 0.03,
    outer_radius: 0.05,
    film_rise: 8,
  };
  for (const first of [pump, grooved]) {
    const elements = [first, bearing];
    const network = compiled(elements);
    for (const [name, value] of Object.entries(network.parameters)) {
      if (value === 0) continue;
      const [id, key] = name.split('.') as [string, string];
      const changed = value * 1.07;
      const prepared = new PreparedNetwork(network);
      prepared.set(prepared.knob(name)!, changed);
      prepared.at(prepared.conditionsAt(HOT.speed, HOT.temperature));
      const state = prepared.coldStart();
      expect(prepared.solve(state), name).toBeGreaterThan(0);
      const anew = solved(elements.map((e) => (e.id === id ? { ...e, [key]: changed } : e)));
      expect(state[0], name).toBeCloseTo(anew.pressures.gallery!, 2);
    }
  }
});

it('a pump that draws through a pickup finds at its inlet what pipe and height leave', () => {
  const pickup = {
    id: 'pickup',
    law: 'passage',
    to: 'inlet',
    from: 'sump',
    bore: 0.012,
    length: 0.3,
    climb: 0.18,
  };
  const slow = { ...HOT, speed: 100 };
  const { pressures, cautions } = solved([{ ...GEARS, from: 'inlet' }, pickup, LEAK], slow);
  const flow = (1e-5 * 0.5 * slow.speed) / (2 * Math.PI);
  const byHand = -860 * 9.80665 * 0.18 - (128 * 0.012 * 0.3 * flow) / (Math.PI * 0.012 ** 4);
  expect(pressures.inlet!).toBeCloseTo(byHand, 3);
  expect(cautions).toEqual([]);
});

it('a strainer that chokes the pump is cautioned, first for froth, then for tearing', () => {
  const strainer = (diameter: number) =>
    solved([
      { ...GEARS, from: 'inlet' },
      { id: 'strainer', law: 'orifice', from: 'sump', to: 'inlet', diameter, discharge_coefficient: 0.62 },
      LEAK,
    ]).cautions.map(({ code }) => code);
  expect(strainer(0.02)).toEqual([]);
  // 1.59e-4 m³/s through Cd A √(2 Δp/ρ): 17 kPa at 7.2 mm, 90 kPa at 4.75 mm.
  expect(strainer(0.0076)).toEqual([]);
  expect(strainer(0.0068)).toEqual(['network/aeration']);
  expect(strainer(0.0046)).toEqual(['network/below-vacuum']);
});

it('scavenge pumps that carry too little are cautioned; they take no part in the pressures', () => {
  const scavenge = (displacement: number, efficiency = 1) => ({
    id: 'back',
    law: 'scavenge-pump',
    displacement,
    speed_ratio: 0.5,
    efficiency,
    wanted_ratio: 1.2,
  });
  const with17 = solved([GEARS, scavenge(1.7e-5), LEAK]);
  expect(with17.cautions).toEqual([]);
  expect(with17.pressures).toEqual(solved([GEARS, LEAK]).pressures);
  expect(with17.flows.back! / with17.flows.pump!).toBeCloseTo(1.7, 9);
  const worn = solved([GEARS, scavenge(1.7e-5, 0.65), LEAK]);
  expect(worn.cautions.map(({ code }) => code)).toEqual(['network/scavenge']);
  expect(worn.cautions[0]!.message).toContain('1.10 times');
  const joined = compiledNetwork({
    fluid: OIL,
    elements: [GEARS, { ...scavenge(2e-5), from: 'gallery' }, LEAK],
  });
  expect(joined.ok ? [] : joined.issues.map(({ code, at }) => `${code} ${at}`)).toEqual([
    'network/aside /elements/1/from',
  ]);
});

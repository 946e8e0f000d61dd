import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type CompiledNetwork, compiledNetwork, type RunningConditions, solvedNetwork } from './network.ts';

const OIL = { dynamic_viscosity: 0.01, density: 850 } as const;
const THICK = { dynamic_viscosity: 0.02, density: 850 } as const;
const HOT = { speed: 2 * Math.PI * 10, temperature: 366 } as const;

const PUMP = {
  id: 'pump',
  law: 'gear-pump',
  to: 'gallery',
  displacement: 1e-5,
  speed_ratio: 0.5,
  end_clearance: 1e-4,
  face_ratio: 2,
} as const;
const MAINS = {
  id: 'mains',
  law: 'groove-bearing',
  from: 'gallery',
  count: 3,
  diameter: 0.06,
  land_length: 0.015,
  radial_clearance: 3e-5,
  eccentricity_ratio: 0.6,
} as const;
const RODS = {
  id: 'rods',
  law: 'hole-bearing',
  from: 'gallery',
  count: 4,
  hole: 'rotating',
  diameter: 0.05,
  length: 0.03,
  hole_diameter: 0.006,
  radial_clearance: 2.5e-5,
  eccentricity_ratio: 0.7,
} as const;
const RELIEF = {
  id: 'relief',
  law: 'relief-valve',
  from: 'gallery',
  plunger_diameter: 0.0127,
  spring_rate: 1900,
  cracking_pressure: 3e5,
  port_width: 0.015,
  hole_diameter: 0.0095,
  discharge_coefficient: 0.62,
} as const;

function compiled(elements: readonly object[], fluid: object = OIL, rest: object = {}): CompiledNetwork {
  const network = compiledNetwork({ fluid, elements, ...rest });
  if (!network.ok) throw new Error(JSON.stringify(network.issues));
  return network.value;
}

function solved(network: CompiledNetwork, conditions: RunningConditions = HOT) {
  const answer = solvedNetwork(network, conditions);
  if (!answer.ok) throw new Error(JSON.stringify(answer.issues));
  return answer.value;
}

const gallery = (network: CompiledNetwork, conditions: RunningConditions = HOT) =>
  solved(network, conditions).pressures.gallery!;

const codesOf = (input: unknown): string[] => {
  const network = compiledNetwork(input);
  return network.ok ? [] : network.issues.map((i) => `${i.code} ${i.at}`);
};

it('with every path laminar and no valve, pressure doubles with speed', () => {
  const network = compiled([PUMP, MAINS, RODS]);
  expect(gallery(network, { ...HOT, speed: 2 * HOT.speed }) / gallery(network)).toBeCloseTo(2, 9);
});

it('with every path laminar and no valve, pressure doubles with viscosity', () => {
  const elements = [PUMP, MAINS, RODS];
  expect(gallery(compiled(elements, THICK)) / gallery(compiled(elements))).toBeCloseTo(2, 9);
});

it('then the share of the pump that reaches the bearings depends on neither', () => {
  const share = (fluid: object, speed: number) => {
    const { flows } = solved(compiled([{ ...PUMP, end_clearance: 0 }, slip(), MAINS], fluid), {
      ...HOT,
      speed,
    });
    return flows.mains! / flows.pump!;
  };
  expect(share(THICK, HOT.speed)).toBeCloseTo(share(OIL, HOT.speed), 12);
  expect(share(OIL, 3 * HOT.speed)).toBeCloseTo(share(OIL, HOT.speed), 12);
});

const slip = () => ({ id: 'slip', law: 'slot', from: 'gallery', width: 0.1, length: 0.008, gap: 7e-5 });

it('a bearing’s flow goes with the cube of its own clearance while the pressure is held', () => {
  const network = compiled([PUMP, MAINS, RODS]);
  const one = solved(network);
  const wide = solved(network, { ...HOT, parameters: { 'rods.radial_clearance': 5e-5 } });
  const perPascal = (s: typeof one) => s.flows.rods! / s.pressures.gallery!;
  expect(perPascal(wide) / perPascal(one)).toBeCloseTo(8, 9);
});

it('past opening, the relief valve holds the pressure near its cracking pressure', () => {
  const network = compiled([PUMP, MAINS, RELIEF]);
  const fast = solved(network, { ...HOT, speed: 10 * HOT.speed });
  expect(fast.flows.relief!).toBeGreaterThan(0.1 * fast.flows.pump!);
  expect(fast.pressures.gallery!).toBeGreaterThan(3e5);
  expect(fast.pressures.gallery!).toBeLessThan(3.5e5);
  const free = gallery(compiled([PUMP, MAINS]), { ...HOT, speed: 10 * HOT.speed });
  expect(free).toBeGreaterThan(2 * fast.pressures.gallery!);
});

it('a shut relief valve changes nothing: a new spring cannot raise a pressure under its cracking pressure', () => {
  const worn = { ...MAINS, radial_clearance: 6e-5 };
  const without = gallery(compiled([PUMP, worn]));
  expect(without).toBeLessThan(3e5);
  expect(gallery(compiled([PUMP, worn, RELIEF]))).toBeCloseTo(without, 3);
});

it('the pressure needed by a pump against nothing but a shut valve is still found', () => {
  const network = compiled([{ ...PUMP, end_clearance: 0 }, RELIEF]);
  const { pressures, flows } = solved(network);
  expect(pressures.gallery!).toBeGreaterThan(3e5);
  expect(flows.relief! / flows.pump!).toBeCloseTo(1, 9);
});

it('a pump that nothing drains has no balance, and that is said', () => {
  const network = compiled([
    { ...PUMP, end_clearance: 0 },
    { id: 'blank', law: 'laminar-leak', from: 'gallery', strength: 0 },
  ]);
  const answer = solvedNetwork(network, HOT);
  expect(answer.ok).toBe(false);
  if (!answer.ok) expect(answer.issues[0]!.code).toBe('network/not-converged');
});

it('a ring of passages shares the flow as its two ways resist', () => {
  const pipe = (id: string, from: string, to: string, length: number) => ({
    id,
    law: 'passage',
    from,
    to,
    bore: 0.006,
    length,
  });
  const { flows } = solved(
    compiled(
      [
        PUMP,
        pipe('short', 'gallery', 'far', 0.1),
        pipe('long-1', 'gallery', 'half', 0.1),
        pipe('long-2', 'half', 'far', 0.2),
        { ...MAINS, from: 'far' },
      ],
      { dynamic_viscosity: 0.1, density: 850 },
    ),
  );
  expect(flows.short! / flows['long-1']!).toBeCloseTo(3, 6);
  expect(flows['long-2']! / flows['long-1']!).toBeCloseTo(1, 9);
});

it('a way that lets nothing through closes a loop and changes nothing: trees and loops are solved alike', () => {
  const branch = (i: number) => [
    {
      id: `way-${i}`,
      law: 'passage',
      from: i === 0 ? 'gallery' : `n${i - 1}`,
      to: `n${i}`,
      bore: 0.006,
      length: 0.1,
    },
    { ...MAINS, id: `main-${i}`, from: `n${i}`, count: 1 },
  ];
  const tree = [PUMP, RELIEF, ...[0, 1, 2, 3, 4].flatMap(branch)];
  const closed = [0, 1, 2].map((i) => ({
    id: `shut-${i}`,
    law: 'laminar-leak',
    from: `n${i}`,
    to: `n${i + 2}`,
    strength: 0,
  }));
  const [a, b] = [solved(compiled(tree)), solved(compiled([...tree, ...closed]))];
  for (const [node, pressure] of Object.entries(a.pressures))
    expect(b.pressures[node]).toBeCloseTo(pressure, 5);
  expect(b.iterations).toBe(a.iterations);
});

it('a warm start gives the same answer in fewer steps', () => {
  const network = compiled([PUMP, MAINS, RODS, RELIEF]);
  const cold = solved(network);
  const warm = solved(network, { ...HOT, start: cold.state });
  expect(warm.iterations).toBeLessThan(cold.iterations);
  expect(warm.pressures.gallery!).toBeCloseTo(cold.pressures.gallery!, 3);
});

it('an element that stands for several flows as they do apart', () => {
  const apart = compiled([PUMP, ...[1, 2, 3].map((i) => ({ ...MAINS, id: `main-${i}`, count: 1 }))]);
  expect(gallery(apart)).toBeCloseTo(gallery(compiled([PUMP, MAINS])), 3);
});

it('quantities may be written with their units', () => {
  const inches = { ...MAINS, diameter: '60 mm', land_length: '15 mm', radial_clearance: '30 um' };
  expect(gallery(compiled([PUMP, inches]))).toBeCloseTo(gallery(compiled([PUMP, MAINS])), 3);
});

it('an eccentricity from a load is the one the short bearing would run at', () => {
  const network = compiled([
    PUMP,
    { ...MAINS, eccentricity_ratio: undefined, load: 1000, load_per_krpm2: 90 },
  ]);
  const slow = solved(network);
  const fast = solved(network, { ...HOT, speed: 3 * HOT.speed });
  const perPascal = (s: typeof slow) => s.flows.mains! / s.pressures.gallery!;
  expect(perPascal(fast)).toBeLessThan(perPascal(slow));
});

it('whatever the clearances, flows balance at every node', () => {
  const clearance = fc.double({ min: 5e-6, max: 3e-4, noNaN: true });
  const network = compiled([
    { ...PUMP, to: 'outlet' },
    { ...RELIEF, from: 'outlet' },
    {
      id: 'filter',
      law: 'filter',
      from: 'outlet',
      to: 'clean',
      flow: 1e-4,
      pressure_drop: 1e4,
      dynamic_viscosity: 0.01,
    },
    {
      id: 'bypass',
      law: 'spring-valve',
      from: 'outlet',
      to: 'clean',
      area: 5e-5,
      discharge_coefficient: 0.65,
      opening_pressure: 1e5,
      opening_range: 6e4,
    },
    { id: 'delivery', law: 'passage', from: 'clean', to: 'gallery', bore: 0.01, length: 0.5, minor_loss: 3 },
    MAINS,
    { ...RODS, inner_radius: 0.03, outer_radius: 0.055 },
    {
      id: 'jets',
      law: 'spring-valve',
      from: 'gallery',
      count: 4,
      diameter: 0.0013,
      discharge_coefficient: 0.65,
      opening_pressure: 1.5e5,
      opening_range: 6e4,
    },
  ]);
  fc.assert(
    fc.property(
      clearance,
      clearance,
      clearance,
      fc.double({ min: 10, max: 600, noNaN: true }),
      (a, b, c, speed) => {
        const { flows } = solved(network, {
          ...HOT,
          speed,
          parameters: { 'pump.end_clearance': a, 'mains.radial_clearance': b, 'rods.radial_clearance': c },
        });
        const leak = flows.relief! + flows.filter! + flows.bypass!;
        expect(Math.abs(flows.pump! - leak)).toBeLessThan(1e-8 * Math.abs(flows.pump!) + 1e-15);
        const out = flows.mains! + flows.rods! + flows.jets!;
        expect(Math.abs(flows.delivery! - out)).toBeLessThan(1e-8 * Math.abs(flows.delivery!) + 1e-15);
      },
    ),
    { numRuns: 300 },
  );
});

it('says of every fault in a network where it is and what it is', () => {
  const bad = (elements: readonly object[], rest: object = {}) => codesOf({ fluid: OIL, elements, ...rest });
  expect(bad([PUMP, { ...MAINS, law: 'magic' }])).toEqual(['network/unknown-law /elements/1/law']);
  expect(bad([PUMP, { ...MAINS, id: 'pump' }])).toEqual(['network/duplicate-id /elements/1/id']);
  expect(bad([PUMP, { ...MAINS, radial_clearance: -1e-5 }])).toEqual([
    'input/out-of-range /elements/1/radial_clearance',
  ]);
  expect(bad([PUMP, { ...MAINS, radial_clearance: '2' }])).toEqual([
    'unit/missing /elements/1/radial_clearance',
  ]);
  expect(bad([PUMP, { ...MAINS, film_rise: '12 degC' }])).toEqual([
    'input/out-of-range /elements/1/film_rise',
  ]);
  expect(bad([PUMP, { ...MAINS, radial_clearance: undefined }])).toEqual([
    'network/missing /elements/1/radial_clearance',
  ]);
  expect(bad([PUMP, { ...MAINS, load: 100 }])).toEqual(['network/excluded /elements/1/load']);
  expect(bad([PUMP, { ...MAINS, colour: 3 }])).toEqual(['network/unknown-key /elements/1/colour']);
  expect(bad([PUMP, { ...RODS, hole_diameter: 0.04 }])).toEqual([
    'network/impossible /elements/1/hole_diameter',
  ]);
  expect(bad([PUMP, { ...RODS, hole: 'narrow' }])).toEqual(['network/unknown-choice /elements/1/hole']);
  expect(bad([PUMP, { ...RODS, inner_radius: 0.03 }])).toEqual(['network/missing /elements/1/outer_radius']);
  expect(bad([PUMP, MAINS], { nodes: ['galery'] })).toContain('network/unknown-node /elements/0/to');
  expect(bad([PUMP, MAINS], { nodes: ['gallery', 'lost'] })).toEqual(['network/disconnected /nodes/1']);
  expect(bad([PUMP, MAINS], { gauge: 'dash' })).toEqual(['network/unknown-node /gauge']);
  expect(bad([PUMP, { ...MAINS, to: 'gallery' }])).toEqual(['network/loop /elements/1']);
  expect(bad([PUMP, { ...MAINS, from: undefined }])).toEqual([
    'network/missing /elements/1/from',
    'network/loop /elements/1',
  ]);
  expect(codesOf({ fluid: { kv40: '93 mm2/s' }, elements: [PUMP, MAINS] })).toEqual(['network/fluid /fluid']);
  expect(codesOf({ fluid: OIL, elements: [PUMP, MAINS], colour: 1 })).toEqual([
    'network/unknown-key /colour',
  ]);
  expect(codesOf({ fluid: OIL, elements: 'none' })).toEqual(['network/shape /elements']);
  expect(codesOf(null)).toEqual(['network/shape ']);
});

it('takes no speed, temperature or replaced parameter for granted', () => {
  const network = compiled([PUMP, MAINS]);
  const codes = (conditions: RunningConditions) => {
    const answer = solvedNetwork(network, conditions);
    return answer.ok ? [] : answer.issues.map((i) => `${i.code} ${i.at}`);
  };
  expect(codes({})).toEqual(['network/missing /speed', 'network/missing /temperature']);
  expect(codes({ ...HOT, parameters: { 'mains.colour': 1 } })).toEqual([
    'network/unknown-parameter /parameters/mains.colour',
  ]);
  expect(codes({ ...HOT, parameters: { 'mains.radial_clearance': Number.NaN } })).toEqual([
    'number/not-finite /parameters/mains.radial_clearance',
  ]);
  expect(codes({ ...HOT, parameters: { 'mains.radial_clearance': -1 } })).toEqual([
    'input/out-of-range /parameters/mains.radial_clearance',
  ]);
});

it('a replaced parameter must still be possible beside the others', () => {
  const answer = solvedNetwork(compiled([PUMP, RODS]), {
    ...HOT,
    parameters: { 'rods.hole_diameter': 0.04 },
  });
  expect(answer.ok ? [] : answer.issues.map((i) => i.code)).toEqual(['network/impossible']);
});

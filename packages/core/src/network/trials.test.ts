import fc from 'fast-check';
import { expect, it } from 'vitest';
import { exact, standardUncertainty, term, type Uncertain, uncertain } from '../uncertainty/uncertain.ts';
import { pressureBand } from './band.ts';
import { compiledNetwork, solvedNetwork } from './network.ts';
import { PreparedNetwork } from './prepared.ts';
import { pressureMap } from './running-map.ts';
import { networkTrials, type TrialPlan, trialSpreads } from './trials.ts';

const NETWORK = unwrapped(
  compiledNetwork({
    gauge: 'gallery',
    fluid: { kv40: '93 mm2/s', kv100: '10.8 mm2/s', density15: '885 kg/m3' },
    elements: [
      {
        id: 'pump',
        law: 'gear-pump',
        to: 'gallery',
        displacement: 1e-5,
        speed_ratio: 0.5,
        end_clearance: 1e-4,
        face_ratio: 2,
      },
      {
        id: 'relief',
        law: 'relief-valve',
        from: 'gallery',
        plunger_diameter: 0.0127,
        spring_rate: 1900,
        cracking_pressure: 3e5,
        port_width: 0.015,
        hole_diameter: 0.0095,
        discharge_coefficient: 0.62,
      },
      {
        id: 'mains',
        law: 'groove-bearing',
        from: 'gallery',
        count: 3,
        diameter: 0.06,
        land_length: 0.015,
        radial_clearance: 3e-5,
        load: 1000,
        load_per_krpm2: 90,
        film_rise: 12,
      },
      { id: 'way', law: 'passage', from: 'gallery', to: 'pin', bore: 0.005, length: 0.1, minor_loss: 2 },
      {
        id: 'rods',
        law: 'hole-bearing',
        from: 'pin',
        count: 4,
        hole: 'rotating',
        diameter: 0.05,
        length: 0.03,
        hole_diameter: 0.006,
        radial_clearance: 2.5e-5,
        load: 2000,
      },
    ],
  }),
);
const IDLE = { speed: 63, temperature: 366 };
const FAST = { speed: 500, temperature: 350 };
const DRAWN = {
  parameters: {
    'mains.radial_clearance': uncertain(3e-5, term('micrometer', 1e-6), term('bore gauge', 1.5e-6)),
    'rods.radial_clearance': uncertain(2.5e-5, term('micrometer', 1e-6), term('rod', 1e-6)),
    'pump.end_clearance': uncertain(1e-4, term('feeler', 6e-6, 'rectangular')),
    'way.bore': uncertain(0.005, term('bore', 2e-5)),
  },
  viscosityShare: uncertain(1, term('oil', 0.03)),
  reliefPreloadShare: uncertain(1, term('spring', 0.02)),
};
const PLAN: TrialPlan = { drawn: DRAWN, running: [IDLE, FAST], seed: 7, trials: 400 };

function unwrapped<T>(outcome: { ok: true; value: T } | { ok: false; issues: readonly unknown[] }): T {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

const chunksOf = (plan: TrialPlan) => [...unwrapped(networkTrials(NETWORK, plan))];

it('trials shared out over workers are the same trials to the last bit', () => {
  const whole = chunksOf(PLAN).flatMap(({ pressures }) => [...pressures]);
  const parts = [0, 130, 310].flatMap((first, i) =>
    chunksOf({ ...PLAN, first, trials: [130, 180, 90][i]!, chunk: 37 }),
  );
  expect(parts.flatMap(({ pressures }) => [...pressures])).toEqual(whole);
});

it('another seed draws other trials', () => {
  const [a] = chunksOf({ ...PLAN, trials: 3 });
  const [b] = chunksOf({ ...PLAN, trials: 3, seed: 8 });
  expect([...a!.pressures]).not.toEqual([...b!.pressures]);
});

it('the first trials come before the others are run', () => {
  const iterator = unwrapped(networkTrials(NETWORK, { ...PLAN, trials: 1e9, chunk: 50 }))[Symbol.iterator]();
  const { value } = iterator.next();
  expect(value).toMatchObject({ first: 0, trials: 50, lost: [] });
  expect(value.pressures).toHaveLength(100);
});

it('many trials spread as the first-order band says', () => {
  const small = { ...DRAWN, parameters: scaled(DRAWN.parameters, 0.2) };
  const shares = {
    viscosityShare: uncertain(1, term('oil', 0.006)),
    reliefPreloadShare: uncertain(1, term('spring', 0.004)),
  };
  const drawn = { ...small, ...shares };
  const spreads = trialSpreads(chunksOf({ ...PLAN, drawn, trials: 6000 }), 2);
  const band = unwrapped(pressureBand(NETWORK, { drawn, running: [IDLE, FAST] }));
  spreads.forEach(({ mean, u, lost }, i) => {
    const { pressure } = band[i]!;
    const first = standardUncertainty(pressure);
    expect(lost).toBe(0);
    // 6000 trials know a spread to 1/√(2·6000), 0.9 %; three of that and a little curvature.
    expect(Math.abs(u / first - 1)).toBeLessThan(0.04);
    expect(Math.abs(mean - pressure.value)).toBeLessThan(0.1 * first);
  });
});

const scaled = (parameters: Readonly<Record<string, Uncertain>>, by: number) =>
  Object.fromEntries(
    Object.entries(parameters).map(([name, { value, terms }]) => [
      name,
      { value, terms: terms.map((t) => ({ ...t, u: t.u * by })) },
    ]),
  );

it('the effects of the band are what solving twice gives', () => {
  const drawn = { ...DRAWN, parameters: scaled(DRAWN.parameters, 1e-3) };
  const band = unwrapped(pressureBand(NETWORK, { drawn, running: [IDLE, FAST] }));
  [IDLE, FAST].forEach((running, i) => {
    for (const [name, of] of Object.entries(drawn.parameters)) {
      const u = standardUncertainty(of);
      const at = (value: number) =>
        unwrapped(solvedNetwork(NETWORK, { ...running, parameters: { [name]: value } })).pressures.gallery!;
      const twice = (at(of.value + u) - at(of.value - u)) / 2;
      expect(Math.abs(band[i]!.effects.get(name)! - twice), name).toBeLessThan(1e-4 * Math.abs(twice) + 1e-5);
    }
  });
});

it('what shares a source shifts together: one micrometer’s error widens the band, or cancels in it', () => {
  const both = (sign: number) => ({
    parameters: {
      'mains.radial_clearance': uncertain(3e-5, term('micrometer', 1e-6)),
      'rods.radial_clearance': uncertain(2.5e-5, term('micrometer', sign * 1e-6)),
    },
  });
  const band = (sign: number) => unwrapped(pressureBand(NETWORK, { drawn: both(sign), running: [IDLE] }))[0]!;
  const [together, against] = [band(1), band(-1)];
  const [a, b] = [...together.effects.values()];
  expect(standardUncertainty(together.pressure)).toBeCloseTo(Math.abs(a! + b!), 6);
  expect(standardUncertainty(against.pressure)).toBeCloseTo(Math.abs(a! - b!), 6);
});

it('a relief preload counts only where the valve is open, and there by as much as a spring solved anew', () => {
  const { reliefPreloadShare } = DRAWN;
  const SLOW = { speed: 15, temperature: 400 };
  const band = unwrapped(
    pressureBand(NETWORK, { drawn: { parameters: {}, reliefPreloadShare }, running: [SLOW, FAST] }),
  );
  expect(standardUncertainty(band[0]!.pressure)).toBe(0);
  const at = (cracking: number) =>
    unwrapped(solvedNetwork(NETWORK, { ...FAST, parameters: { 'relief.cracking_pressure': cracking } }))
      .pressures.gallery!;
  expect(standardUncertainty(band[1]!.pressure)).toBeCloseTo((at(3.06e5) - at(2.94e5)) / 2, -1);
});

it('a draw past nothing is held at as good as shut, and counted', () => {
  const drawn = { parameters: { 'pump.end_clearance': uncertain(1e-6, term('feeler', 1e-5)) } };
  const chunks = chunksOf({ ...PLAN, drawn });
  const held = chunks.reduce((sum, chunk) => sum + chunk.held, 0);
  expect(held).toBeGreaterThan(150);
  expect(held).toBeLessThan(250);
  const shut = unwrapped(solvedNetwork(NETWORK, { ...IDLE, parameters: { 'pump.end_clearance': 0 } }))
    .pressures.gallery!;
  const most = Math.max(...chunks.flatMap(({ pressures }) => [...pressures].filter((_, i) => i % 2 === 0)));
  expect(most).toBeCloseTo(shut, 1);
});

it('a film’s own rise in temperature is drawn like anything else', () => {
  const drawn = { parameters: { 'mains.film_rise': uncertain(12, term('rise', 2)) } };
  const [spread] = trialSpreads(chunksOf({ ...PLAN, drawn, running: [IDLE], trials: 1500 }), 1);
  const at = (rise: number) =>
    unwrapped(solvedNetwork(NETWORK, { ...IDLE, parameters: { 'mains.film_rise': rise } })).pressures
      .gallery!;
  expect(spread!.u / Math.abs((at(14) - at(10)) / 2)).toBeCloseTo(1, 1);
  const effect = unwrapped(pressureBand(NETWORK, { drawn, running: [IDLE] }))[0]!.effects.get(
    'mains.film_rise',
  )!;
  expect(effect / ((at(14) - at(10)) / 2)).toBeCloseTo(1, 2);
});

it('values that exclude each other lose the trial, and it is named', () => {
  const drawn = { parameters: { 'rods.hole_diameter': uncertain(0.0299, term('hole', 1e-4)) } };
  const lost = chunksOf({ ...PLAN, drawn }).flatMap((chunk) => chunk.lost);
  expect(lost.length).toBeGreaterThan(30);
  expect(lost.length).toBeLessThan(120);
});

it('a map has at every point what one solve gives', () => {
  fc.assert(
    fc.property(
      // Speeds that all but meet make a straight line through them point anywhere.
      fc.array(
        fc.oneof(
          fc.double({ min: 20, max: 700, noNaN: true }),
          fc.constantFrom(20, 20 + 1e-12, 65, 65 + 1e-9),
        ),
        { minLength: 1, maxLength: 6 },
      ),
      fc.array(fc.double({ min: 260, max: 410, noNaN: true }), { minLength: 1, maxLength: 3 }),
      fc.double({ min: 1e-5, max: 2e-4, noNaN: true }),
      (speeds, temperatures, clearance) => {
        const parameters = { 'mains.radial_clearance': clearance };
        const { pressures, unsolved } = unwrapped(pressureMap(NETWORK, { speeds, temperatures, parameters }));
        expect(unsolved).toEqual([]);
        temperatures.forEach((temperature, t) => {
          speeds.forEach((speed, s) => {
            const one = unwrapped(solvedNetwork(NETWORK, { speed, temperature, parameters }));
            expect(Math.abs(pressures[t * speeds.length + s]! - one.pressures.gallery!)).toBeLessThan(0.05);
          });
        });
      },
    ),
    { numRuns: 200 },
  );
});

it('a start out of this world is given up for a fresh one', () => {
  const prepared = new PreparedNetwork(NETWORK);
  prepared.at(prepared.conditionsAt(IDLE.speed, IDLE.temperature));
  const pressureFrom = (start: number) => {
    const state = prepared.coldStart().fill(start);
    state[NETWORK.nodes.length] = 0;
    expect(prepared.solve(state)).toBeGreaterThan(0);
    return state[NETWORK.nodes.indexOf('gallery')]!;
  };
  const sane = pressureFrom(3e5);
  for (const start of [1e12, -1e12, 1e200, Number.NaN]) expect(pressureFrom(start)).toBeCloseTo(sane, 2);
});

it('a point without a balance is named, and holds no number', () => {
  const blocked = unwrapped(
    compiledNetwork({
      gauge: 'gallery',
      fluid: { dynamic_viscosity: 0.01, density: 850 },
      elements: [
        { id: 'pump', law: 'gear-pump', to: 'gallery', displacement: 1e-5, speed_ratio: 0.5 },
        { id: 'blank', law: 'laminar-leak', from: 'gallery', strength: 0 },
      ],
    }),
  );
  const map = unwrapped(pressureMap(blocked, { speeds: [100, 200], temperatures: [350] }));
  expect(map.pressures).toEqual([undefined, undefined]);
  expect(map.unsolved).toHaveLength(2);
  const trials = networkTrials(blocked, { ...PLAN, drawn: { parameters: {} } });
  expect(trials.ok ? [] : trials.issues.map(({ code }) => code)).toEqual(['network/not-converged']);
});

it('says what cannot be drawn or run', () => {
  const codes = (outcome: { ok: boolean; issues?: readonly { code: string; at: string }[] }) =>
    outcome.ok ? [] : outcome.issues!.map(({ code, at }) => `${code} ${at}`);
  expect(
    codes(networkTrials(NETWORK, { ...PLAN, drawn: { parameters: { 'mains.colour': exact(1) } } })),
  ).toEqual(['network/unknown-parameter /parameters/mains.colour']);
  expect(codes(networkTrials(NETWORK, { ...PLAN, node: 'attic' }))).toEqual(['network/unknown-node /node']);
  expect(codes(networkTrials(NETWORK, { ...PLAN, running: [{ speed: 0, temperature: 350 }] }))).toEqual([
    'network/missing /speed',
  ]);
  expect(
    codes(pressureBand(NETWORK, { drawn: { parameters: {}, viscosityShare: exact(0) }, running: [IDLE] })),
  ).toEqual(['network/share /viscosityShare']);
  expect(codes(pressureMap(NETWORK, { speeds: [Number.NaN], temperatures: [350] }))).toEqual([
    'network/missing /speed',
  ]);
});

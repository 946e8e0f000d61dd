import { readFileSync } from 'node:fs';
import {
  compiledNetwork,
  networkTrials,
  pressureBand,
  type SolvedNetwork,
  solvedNetwork,
  standardUncertainty,
  term,
  trialSpreads,
  type Uncertain,
  uncertain,
} from '@fettle/core';
import { expect, it } from 'vitest';

// The invented six-cylinder engine whose laws are written out so exactly that independent programs reproduce
// its pressures. Printed: gauge pressures in bar and flows in l/min; three programs agreed on them to 2e-7 Pa.
const FILE: unknown = JSON.parse(
  readFileSync(new URL('./networks/six-cylinder-reference.json', import.meta.url), 'utf8'),
);

const PRINTED = [
  {
    rpm: 700,
    t: 110,
    P: 1.769,
    F: 1.7172,
    G4: 1.7021,
    M4: 1.7013,
    R4: 1.7449,
    H1: 1.6067,
    H7: 1.6029,
    delivered: 5.427,
    relief: 0,
  },
  {
    rpm: 2000,
    t: 90,
    P: 4.039,
    F: 3.8215,
    G4: 3.7355,
    M4: 3.7338,
    R4: 4.0962,
    H1: 3.5396,
    H7: 3.5311,
    delivered: 16.73,
    relief: 2.195,
  },
] as const;

function reference(rpm: number, t: number): SolvedNetwork {
  const network = compiledNetwork(FILE);
  if (!network.ok) throw new Error(JSON.stringify(network.issues));
  const solved = solvedNetwork(network.value, { speed: (rpm * Math.PI) / 30, temperature: t + 273.15 });
  if (!solved.ok) throw new Error(JSON.stringify(solved.issues));
  return solved.value;
}

const CRACKING = 4e5;

const litresPerMinute = (flow: number): number => flow * 60_000;

for (const row of PRINTED) {
  it(`the reference network at ${row.rpm} rev/min and ${row.t} °C has the printed pressures and flows`, () => {
    const { pressures, flows } = reference(row.rpm, row.t);
    for (const node of ['P', 'F', 'G4', 'M4', 'R4', 'H1', 'H7'] as const)
      expect(Math.abs(pressures[node]! - row[node] * 1e5), node).toBeLessThanOrEqual(5);
    const delivered = flows.pump! - flows['end-slip']! - flows['tip-slip']!;
    expect(Math.abs(litresPerMinute(delivered) - row.delivered)).toBeLessThanOrEqual(0.0005);
    expect(Math.abs(litresPerMinute(flows.relief!) - row.relief)).toBeLessThanOrEqual(0.0005);
  });

  it(`a second method finds the same pressures at ${row.rpm} rev/min to 1 Pa`, () => {
    const { pressures } = reference(row.rpm, row.t);
    const second = byShooting(row.rpm, row.t);
    expect(Object.keys(second).sort()).toEqual(Object.keys(pressures).sort());
    for (const [node, pressure] of Object.entries(second))
      expect(Math.abs(pressures[node]! - pressure), node).toBeLessThan(1);
  });
}

it('none of three thousand engines drawn at random, cold or hot, fails to balance', () => {
  const network = compiledNetwork(FILE);
  if (!network.ok) throw new Error(JSON.stringify(network.issues));
  let seed = 1;
  const random = () => {
    seed = (seed * 1103515245 + 12345) % 2147483648;
    return seed / 2147483648;
  };
  const sizes = Object.entries(network.value.parameters).filter(([name]) =>
    /clearance|gap|spring_rate|cracking|bore|\.area/.test(name),
  );
  expect(sizes.length).toBeGreaterThan(50);
  for (let i = 0; i < 3000; i++) {
    const parameters = Object.fromEntries(
      sizes.map(([name, value]) => [name, value * Math.exp(2 * random() - 1)]),
    );
    const speed = 5 + 700 * random();
    const solved = solvedNetwork(network.value, { speed, temperature: 263 + 150 * random(), parameters });
    if (!solved.ok) throw new Error(JSON.stringify(solved.issues));
    expect(solved.value.residual).toBeLessThan(1e-9 * solved.value.flows.pump!);
  }
});

it('all 24 000 solves of two thousand drawn engines at twelve conditions balance, and spread as the first-order band says', () => {
  const network = compiledNetwork(FILE);
  if (!network.ok) throw new Error(JSON.stringify(network.issues));
  const normal = (name: string, u: number) => [
    name,
    uncertain(network.value.parameters[name] ?? Number.NaN, term(name, u)),
  ];
  const names = Object.keys(network.value.parameters);
  const parameters: Record<string, Uncertain> = Object.fromEntries([
    ...names.filter((n) => /^(main|rod)-\d\.radial_clearance$/.test(n)).map((n) => normal(n, 2.5e-6)),
    ...names.filter((n) => /^cam-\d\.radial_clearance$/.test(n)).map((n) => normal(n, 4e-6)),
    ...names.filter((n) => n.endsWith('-slip.gap')).map((n) => normal(n, 6e-6)),
  ]);
  expect(Object.keys(parameters)).toHaveLength(13 + 7 + 2);
  const running = [700, 1500, 3000, 5500].flatMap((rpm) =>
    [60, 90, 120].map((t) => ({ speed: (rpm * Math.PI) / 30, temperature: t + 273.15 })),
  );
  const drawn = {
    parameters,
    viscosityShare: uncertain(1, term('viscosity', 0.03)),
    reliefPreloadShare: uncertain(1, term('preload', 0.02)),
  };
  const trials = networkTrials(network.value, { drawn, running, seed: 1, trials: 2000 });
  if (!trials.ok) throw new Error(JSON.stringify(trials.issues));
  const chunks = [...trials.value];
  expect(chunks.flatMap(({ lost }) => lost)).toEqual([]);
  expect(chunks.reduce((sum, { pressures }) => sum + pressures.length, 0)).toBe(24_000);
  const band = pressureBand(network.value, { drawn, running });
  if (!band.ok) throw new Error(JSON.stringify(band.issues));
  // First order knows one slope: where the relief valve stands just at its opening it cannot tell both sides.
  const atTheKink: number[] = [];
  trialSpreads(chunks, running.length).forEach(({ mean, u }, i) => {
    const alone = solvedNetwork(network.value, running[i]!);
    if (!alone.ok) throw new Error(JSON.stringify(alone.issues));
    if (Math.abs(alone.value.pressures.P! - CRACKING) < 0.02 * CRACKING) {
      atTheKink.push(i);
      return;
    }
    const { pressure } = band.value[i]!;
    const first = standardUncertainty(pressure);
    // The cube of the gaps and the jets' valves bend the answer: some hundredths of the spread.
    if (Math.abs(alone.value.pressures.G4! - 2.06e5) > 1e4)
      expect(Math.abs(u / first - 1), `spread at ${i}`).toBeLessThan(0.06);
    else expect(Math.abs(u / first - 1), `spread at ${i}, piston jets half open`).toBeLessThan(0.15);
    expect(Math.abs(mean - pressure.value) / first, `mean at ${i}`).toBeLessThan(0.4);
  });
  expect(atTheKink).toEqual([3]);
});

/** The root of a rising function, by halving alone. */
function root(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  for (let i = 0; i < 200 && b - a > 1e-15 * Math.max(Math.abs(a), Math.abs(b)); i++) {
    const middle = (a + b) / 2;
    if (f(middle) > 0) b = middle;
    else a = middle;
  }
  return (a + b) / 2;
}

/**
 * The same engine written out a second time, by hand, without the program's laws, matrices or Newton steps:
 * the network is a tree, so every branch is a rising function of the pressure at its root, and each flow is
 * halved out of its own balance, the innermost first.
 */
function byShooting(rpm: number, t: number): Record<string, number> {
  const mu = 1.464e-4 * Math.exp(856 / (t + 95));
  const rho = 870 * (1 - 6.5e-4 * (t - 15));
  const omega = (Math.PI * rpm) / 30;
  const found: Record<string, number> = {};
  const q = (area: number, dp: number) =>
    (0.65 * area * Math.sqrt(2 / rho) * dp) / Math.sqrt(Math.abs(dp) + 500);
  const s = (u: number) => (u <= 0 ? 0 : u >= 1 ? 1 : u * u * (3 - 2 * u));
  const loss = (flow: number, length: number, d: number, k: number) => {
    const size = Math.abs(flow);
    const v = size / ((Math.PI * d * d) / 4);
    const re = (rho * v * d) / mu;
    const laminar = (128 * mu * length * size) / (Math.PI * d ** 4);
    const blasius = size === 0 ? 0 : (0.3164 * re ** -0.25 * (length / d) * rho * v * v) / 2;
    return Math.sign(flow) * (Math.max(laminar, blasius) + (k * rho * v * v) / 2);
  };
  const eccentricity = (w: number, c: number, radius: number, length: number) =>
    root(
      (e) =>
        (e / (1 - e * e) ** 2) * Math.sqrt(16 * e * e + Math.PI ** 2 * (1 - e * e)) -
        (4 * w * c * c) / (mu * omega * radius * length ** 3),
      0,
      1 - 1e-12,
    );
  const krpm2 = (rpm / 1000) ** 2;
  const grooved = (radius: number, land: number, c: number, e: number, p: number) =>
    (Math.PI * 2 * radius * c ** 3 * (1 + 1.5 * e * e) * p) / (6 * mu * land);
  const mainE = eccentricity((1500 + 90 * krpm2) / 2, 30e-6, 0.032, 0.009);
  const rodE = eccentricity(2500 + 160 * krpm2, 28e-6, 0.026, 0.02);
  const rod = (p: number) =>
    (0.675 * (0.006 / 0.02 + 0.4) ** 1.75 * 28e-6 ** 3 * (1 + 1.5 * rodE * rodE) * p) / mu +
    (0.33 * rodE * 28e-6 * omega * 0.026 * 0.02 * p) / (Math.abs(p) + 2e4);
  const head = 0.5 * rho * omega ** 2 * (0.055 ** 2 - 0.032 ** 2);
  const MOST = 5e-3;
  /** Flow through a pipe into a branch that takes `into(p)` at its far end. */
  const through = (p: number, l: number, d: number, k: number, lift: number, into: (p: number) => number) => {
    const flow = root((x) => x - into(p + lift - loss(x, l, d, k)), -MOST, MOST);
    into(p + lift - loss(flow, l, d, k));
    return flow;
  };
  const note = (node: string, p: number) => {
    found[node] = p;
  };
  const rodAt = (i: number) => (p: number) => {
    note(`R${i}`, p);
    return rod(p);
  };
  const mainAt = (i: number) => (p: number) => {
    note(`M${i}`, p);
    const own = grooved(0.032, 0.009, 30e-6, mainE, p);
    return i === 7 ? own : own + through(p, 0.075, 0.005, 2, head, rodAt(i));
  };
  const jets = (p: number) => s((p - 1.5e5) / 0.6e5) * q((Math.PI * 0.0013 ** 2) / 4, p);
  // A chain of nodes is walked from its far end: guess the last pressure, add up towards the root.
  const headGallery = (last: number): { p: number; flow: number } => {
    let p = last;
    let flow = 0;
    for (let i = 7; i >= 1; i--) {
      if (i < 7) p += loss(flow, 0.11, 0.009, 0.3);
      note(`H${i}`, p);
      flow += grooved(0.015, 0.008, 35e-6, 0.5, p) + (i < 7 ? (6e-14 * p) / mu : 0);
    }
    return { p: p + loss(flow, 0.4, 0.007, 75), flow };
  };
  const intoHead = (pG7: number) => headGallery(root((h7) => headGallery(h7).p - pG7, 0, 1e6)).flow;
  const gallery = (last: number): { p: number; flow: number } => {
    let p = last;
    let flow = 0;
    for (let i = 7; i >= 1; i--) {
      if (i < 7) p += loss(flow, 0.11, 0.012, 0.3);
      note(`G${i}`, p);
      flow += through(p, 0.045, 0.006, 1.5, 0, mainAt(i));
      if (i === 7) flow += intoHead(p);
      else flow += jets(p);
      if (i === 1) flow += q((Math.PI * 0.001 ** 2) / 4, p);
    }
    const pF = p + loss(flow, 0.3, 0.012, 2);
    note('F', pF);
    const across = root((d) => d / (6e9 * mu) + s((d - 1e5) / 0.6e5) * q(5e-5, d) - flow, 0, 1e6);
    note('P', pF + across);
    return { p: pF + across, flow };
  };
  const surplus = (g7: number) => {
    const { p, flow } = gallery(g7);
    const lift = Math.min(Math.max((1.5394e-4 * (p - 4e5)) / 4000, 0), 8e-3);
    const slip = ((0.1 * 0.07e-3 ** 3) / 0.008 + (0.06 * 0.08e-3 ** 3) / 0.006) * (p / (12 * mu));
    return flow + q(0.012 * lift, p) + slip - (18e-6 * 0.5 * rpm) / 60;
  };
  gallery(root(surplus, 0, 1e6));
  return found;
}

// The reference network solved once, over a map and in many trials, beside the plain way to do the same; and a
// thousand trials of a formula.
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { Worker } from 'node:worker_threads';
import {
  compiledNetwork,
  monteCarlo,
  pressureBand,
  pressureMap,
  solvedNetwork,
  term,
  trialSpreads,
  uncertain,
} from '@fettle/core';
import { cYardstick } from './c-yardstick.mjs';
import { plainNetwork, plainSolved } from './network-plain.mjs';
import {
  CELSIUS,
  DRAWN,
  FILE,
  good,
  NETWORK,
  PRELOAD_U,
  RPM,
  RUNNING,
  referenceTrials,
  SPREADS,
  VISCOSITY_U,
} from './reference-trials.mjs';
import { compared, mediansOf } from './side-by-side.mjs';

const IN_C = 'plain C';
const TRIALS = 2000;
const SEED = 1;
const clearance = 'main-1.radial_clearance';
const middle = FILE.elements.find(({ id }) => id === 'main-1').radial_clearance;
const span = (first, last, count) =>
  Array.from({ length: count }, (_, i) => first + (i * (last - first)) / (count - 1));
const SPEEDS = span(600, 6500, 40);
const TEMPERATURES = span(0, 145, 30);

/** Prints each way with its budget [ms], and as a share of the plain way, and of the plain C, where there is one. */
async function budgeted(title, ways, { plain, budgets }) {
  console.log(`\n${title}`);
  const medians = await mediansOf(ways, { rounds: 9, least: 60 });
  const base = medians.find(({ name }) => name === plain)?.time;
  for (const { name, time } of medians) {
    const budget = budgets[name];
    const share = base === undefined ? '' : `${(time / base).toPrecision(3)} ×`;
    const inC = medians.find((one) => one.name === IN_C)?.time;
    const ofC = inC === undefined ? '' : `${(time / inC).toPrecision(3)} × C`.padStart(12);
    const said = budget === undefined ? '' : `of ${budget} ms: ${time <= budget ? 'kept' : 'MISSED'}`;
    console.log(`  ${share.padStart(9)}${ofC}  ${time.toPrecision(3).padStart(6)} ms  ${name}  ${said}`);
  }
}

export async function network() {
  const running = { speed: (700 * Math.PI) / 30, temperature: 383.15 };
  const { state, iterations } = good(solvedNetwork(NETWORK, running));
  const next = { ...running, temperature: 383.65, start: state };
  const plain = plainNetwork(FILE);
  const plainStart = new Array(plain.order.length).fill(3e5);
  const plainAt = (elements, rpm, celsius, start, share = 1, preloadShare = 1) =>
    plainSolved(plain, elements, { rpm, celsius, share, preloadShare }, start);
  const gauge = plain.order.indexOf(FILE.gauge);
  agreed(plainAt(FILE.elements, 700, 110, plainStart)?.[gauge], state[NETWORK.nodes.indexOf(FILE.gauge)]);

  await compared(`Reference network, ${NETWORK.nodes.length} nodes (${iterations} steps from cold)`, {
    'the plain way, from nothing': () => plainAt(FILE.elements, 700, 110, plainStart),
    'from nothing (cold)': () => good(solvedNetwork(NETWORK, running)),
    'half a degree on from an answer (warm)': () => good(solvedNetwork(NETWORK, next)),
    'read, checked and solved from nothing': () => good(solvedNetwork(good(compiledNetwork(FILE)), running)),
  });

  const c = cYardstick();
  if (c) await agreedWithC(c);
  /** The same in C, which says itself how long it took. */
  const inC = (command) =>
    c && { [IN_C]: { timed: async (repeat) => 1000 * (await c.ask(command(repeat)))[0] } };

  let turn = 0;
  const changed = () => middle * (1 + (turn++ % 9) / 100);
  const ours = (temperatures) => () => {
    const { unsolved } = good(
      pressureMap(NETWORK, {
        speeds: SPEEDS.map((rpm) => (rpm * Math.PI) / 30),
        temperatures: temperatures.map((t) => t + 273.15),
        parameters: { [clearance]: changed() },
      }),
    );
    if (unsolved.length > 0) throw new Error(`${unsolved.length} points of the map found no balance`);
  };
  const plainly = (temperatures) => () => {
    const radial_clearance = changed();
    const elements = FILE.elements.map((e) => (e.id === 'main-1' ? { ...e, radial_clearance } : e));
    for (const t of temperatures) {
      let start = plainStart;
      for (const rpm of SPEEDS) {
        start = plainAt(elements, rpm, t, start);
        if (!start) throw new Error('a point found no balance the plain way');
      }
    }
  };
  await budgeted(
    'One clearance changed: pressure over 40 speeds',
    { 'the plain way': plainly([93]), curve: ours([93]) },
    { plain: 'the plain way', budgets: { curve: 1 } },
  );
  await budgeted(
    'One clearance changed: pressure over 40 speeds × 30 temperatures',
    { 'the plain way': plainly(TEMPERATURES), map: ours(TEMPERATURES), ...inC((times) => `m ${times} 1`) },
    { plain: 'the plain way', budgets: { map: 16 } },
  );
  await budgeted(
    'First-order band at 12 points',
    { band: () => good(pressureBand(NETWORK, { drawn: DRAWN, running: RUNNING })) },
    { budgets: { band: 5 } },
  );

  const half = TRIALS / 2;
  const workers = [0, 1].map(
    () => new Worker(new URL('./network-worker.mjs', import.meta.url), { workerData: { seed: SEED } }),
  );
  const inWorker = (worker, first) =>
    new Promise((resolve, reject) => {
      const chunks = [];
      worker.removeAllListeners();
      worker.on('error', reject);
      worker.on('message', (chunk) => (chunk === 'done' ? resolve(chunks) : chunks.push(chunk)));
      worker.postMessage({ first, trials: half });
    });
  const together = async () =>
    (await Promise.all(workers.map((worker, i) => inWorker(worker, i * half)))).flat();
  const alone = () => whole([...referenceTrials(SEED, 0, TRIALS)]);
  await budgeted(
    `${TRIALS} trials at 12 points`,
    {
      'the plain way': () => plainTrials(plainAt, plainStart),
      'one thread': alone,
      'two workers': async () => whole(await together()),
      'the first 200': () => whole([...referenceTrials(SEED, 0, 200)]),
      ...inC((times) => `t ${times} ${TRIALS}`),
    },
    { plain: 'the plain way', budgets: { 'one thread': 400, 'two workers': 250, 'the first 200': 50 } },
  );
  c?.close();
  const [one, two] = [alone(), whole(await together())];
  for (const worker of workers) await worker.terminate();
  const spreads = [one, two].map((chunks) =>
    trialSpreads(chunks, RUNNING.length).map(({ mean, u }) => [mean, u]),
  );
  if (JSON.stringify(spreads[0]) !== JSON.stringify(spreads[1]))
    throw new Error('two workers drew other trials than one thread');
  console.log('  all 24 000 balanced; two workers give the same trials to the last bit');
  printMemory();
}

/** The C program finds the same: every pressure of the map, and the spread of the trials as far as they can tell. */
async function agreedWithC({ ask }) {
  const [, lost, ...map] = await ask('m 1 0');
  if (lost > 0) throw new Error(`the plain C finds no balance at ${lost} points of the map`);
  const { pressures } = good(
    pressureMap(NETWORK, {
      speeds: SPEEDS.map((rpm) => (rpm * Math.PI) / 30),
      temperatures: TEMPERATURES.map((t) => t + 273.15),
    }),
  );
  const apart = Math.max(...map.map((one, i) => Math.abs(one - pressures[i])));
  if (!(apart < 1)) throw new Error(`the plain C lies ${apart} Pa from the program on the map`);
  const [, lostTrials, ...spread] = await ask(`t 1 ${TRIALS}`);
  if (lostTrials > 0) throw new Error(`the plain C finds no balance in ${lostTrials} trials`);
  const own = trialSpreads([...referenceTrials(SEED, 0, TRIALS)], RUNNING.length);
  own.forEach(({ mean, u }, k) => {
    const [theirs, deviation] = spread.slice(2 * k, 2 * k + 2);
    // Other draws of the same: means within five of their own deviations, spreads within a tenth.
    if (Math.abs(theirs - mean) > 5 * u * Math.sqrt(2 / TRIALS) || Math.abs(deviation / u - 1) > 0.1)
      throw new Error(
        `the plain C draws ${theirs} ±${deviation} Pa at point ${k}, the program ${mean} ±${u} Pa`,
      );
  });
  console.log(`  the plain C lies within ${apart.toPrecision(2)} Pa on the map, and its trials agree`);
}

function agreed(plain, ours) {
  if (!(Math.abs(plain - ours) < 0.1))
    throw new Error(`the plain way finds ${plain} Pa, the program ${ours} Pa`);
}

function whole(chunks) {
  const lost = chunks.reduce((sum, chunk) => sum + chunk.lost.length, 0);
  if (lost > 0) throw new Error(`${lost} trials found no balance`);
  return chunks;
}

function plainTrials(plainAt, cold) {
  let state = SEED;
  // Any even draw will do for a comparison of times.
  const uniform = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state + 0.5) / 2 ** 32;
  };
  const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  const points = RPM.flatMap((rpm) =>
    CELSIUS.map((t) => ({ rpm, t, start: plainAt(FILE.elements, rpm, t, cold) })),
  );
  const drawn = new Map(SPREADS.map((spread) => [spread.id, spread]));
  for (let trial = 0; trial < TRIALS; trial++) {
    const elements = FILE.elements.map((e) => {
      const spread = drawn.get(e.id);
      return spread ? { ...e, [spread.key]: e[spread.key] + spread.u * normal() } : e;
    });
    const share = 1 + VISCOSITY_U * normal();
    const preload = 1 + PRELOAD_U * normal();
    for (const { rpm, t, start } of points)
      if (!plainAt(elements, rpm, t, start, share, preload))
        throw new Error('a trial found no balance the plain way');
  }
}

/** What 2000 trials at 12 points leave behind and what passes through while they run. */
function printMemory() {
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc');
  const used = () => {
    const { heapUsed, arrayBuffers } = process.memoryUsage();
    return heapUsed + arrayBuffers;
  };
  collect();
  const before = used();
  const chunks = [...referenceTrials(SEED, 0, TRIALS)];
  const most = used();
  collect();
  const kept = used();
  const size = (bytes) => `${(bytes / 1e6).toPrecision(3)} MB`;
  console.log(
    `  memory of ${chunks.length} chunks: ${size(kept - before)} kept, ${size(most - before)} when done, before anything was collected`,
  );
}

export async function trials() {
  const inputs = ['a', 'b', 'c', 'd'].map((name) => uncertain(1, term(name, 0.01)));
  const f = ([a, b, c, d]) => (a * b ** 3) / (c + d);
  const one = [1, 1, 1, 1];
  let sum = 0;
  await compared('Monte Carlo, 1000 trials of four inputs', {
    'the formula alone, 1000 times': () => {
      for (let i = 0; i < 1000; i++) {
        one[0] = i;
        sum += f(one);
      }
    },
    'as the book does it': () => {
      sum += monteCarlo(f, inputs, { trials: 1000, seed: 1 }).mean;
    },
  });
  if (Number.isNaN(sum)) throw new Error('the trials gave no number');
}

// The reference network, and a thousand trials of a formula: what an answer with its spread costs.
import { readFileSync } from 'node:fs';
import { compiledNetwork, monteCarlo, solvedNetwork, term, uncertain } from '@fettle/core';
import { compared } from './side-by-side.mjs';

function good(outcome) {
  if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join('\n'));
  return outcome.value;
}

const FILE = JSON.parse(
  readFileSync(new URL('../conformance/networks/six-cylinder-reference.json', import.meta.url), 'utf8'),
);

export async function network() {
  const compiled = good(compiledNetwork(FILE));
  const running = { speed: (700 * Math.PI) / 30, temperature: 383.15 };
  const { state, iterations } = good(solvedNetwork(compiled, running));
  const near = { ...running, start: state };
  // A little hotter, as the next trial of a Monte Carlo or the next step of a curve would be.
  const next = { ...running, temperature: 383.65 };
  const nodes = compiled.nodes.length;
  const system = Float64Array.from(
    { length: nodes * nodes },
    (_, i) => 1 / (1 + i) + (i % (nodes + 1) ? 0 : 9),
  );

  await compared(`Reference network, ${nodes} nodes (${iterations} steps from cold)`, {
    'plain elimination of a system as large, once': () => eliminated(system, nodes),
    'solved from the same answer (warm)': () => good(solvedNetwork(compiled, near)),
    'solved half a degree on from that answer (warm)': () =>
      good(solvedNetwork(compiled, { ...next, start: state })),
    'solved from nothing (cold)': () => good(solvedNetwork(compiled, running)),
    'read, checked and solved from nothing': () => good(solvedNetwork(good(compiledNetwork(FILE)), running)),
  });
}

/** Gaussian elimination without pivoting, in a copy. */
function eliminated(matrix, n) {
  const a = matrix.slice();
  for (let k = 0; k < n; k++)
    for (let i = k + 1; i < n; i++) {
      const factor = a[i * n + k] / a[k * n + k];
      for (let j = k; j < n; j++) a[i * n + j] -= factor * a[k * n + j];
    }
  return a;
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

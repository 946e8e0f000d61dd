// `npm run bench`: what the program costs beside the plainest way to do the same. Read the ratios, not the times.
import { join } from 'node:path';
import { nodeStatus, ROOT, ready } from './setup.mjs';

const built = () => nodeStatus([join(ROOT, 'node_modules/typescript/bin/tsc'), '-b', 'packages/cli']) === 0;

if (!ready() || !built()) process.exit(1);
const { network, trials } = await import('../bench/network.bench.mjs');
const { films } = await import('../bench/film.bench.mjs');
const { orbits } = await import('../bench/orbit.bench.mjs');
const { diagnosing } = await import('../bench/diagnosis.bench.mjs');
const { planning } = await import('../bench/plan.bench.mjs');
const { pairing } = await import('../bench/matching.bench.mjs');
const { stacking } = await import('../bench/stack.bench.mjs');
const { judging } = await import('../bench/judging.bench.mjs');
const { folding, keeping } = await import('../bench/ledger.bench.mjs');
for (const measure of [
  network,
  trials,
  films,
  orbits,
  diagnosing,
  planning,
  pairing,
  stacking,
  judging,
  folding,
  keeping,
])
  await measure();

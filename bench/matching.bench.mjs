// Pairing a hundred with a hundred: on random costs and on costs full of ties.
import { matching } from '@fettle/core';
import { shortestPaths } from './plain-assignment.mjs';
import { compared } from './side-by-side.mjs';

const N = 100;

/** Park and Miller's numbers, 0 to 1. */
function numbers(seed) {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

const table = (cost) => Array.from({ length: N }, () => Array.from({ length: N }, cost));

export async function pairing() {
  const draw = numbers(17);
  const random = table(draw);
  const tied = table(() => Math.floor(draw() * 3));
  const least = (found) => found.reduce((sum, j, i) => sum + random[i][j], 0);
  if (Math.abs(least(shortestPaths(random)) - matching(random).total) > 1e-9)
    throw new Error('the two ways disagree');
  await compared(`Pairing ${N} with ${N} (budget 0.4 ms, with ties no more than ten times that)`, {
    'plain shortest paths, row by row, random costs': () => shortestPaths(random),
    'with reductions first, random costs': () => matching(random),
    'plain shortest paths, row by row, costs 0, 1 and 2': () => shortestPaths(tied),
    'with reductions first, costs 0, 1 and 2': () => matching(tied),
  });
}

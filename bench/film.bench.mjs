// One journal bearing in detail, and the table of a new bearing, beside relaxation point by point.
import {
  bearingTable,
  fedBearingAt,
  fedBearingFor,
  plainBearingAt,
  plainFilm,
  tabledBearing,
} from '@fettle/core';
import { compared } from './side-by-side.mjs';

const E = 0.6;
const RATIO = 0.5;

/**
 * The flooded film by successive over-relaxation on even steps, pressure held from falling below nothing: the plainest
 * way there is. As many points as the program takes, though even steps make less of them.
 */
function relaxed(round, half) {
  const p = Array.from({ length: round + 1 }, () => new Float64Array(half + 2));
  const [dx, dz] = [(2 * Math.PI) / round, RATIO / half];
  const gap = (i) => 1 + E * Math.cos(i * dx);
  const factor = 1.8;
  for (let sweep = 0; sweep < 20_000; sweep++) {
    let most = 0;
    let moved = 0;
    for (let i = 1; i < round; i++) {
      const [west, east] = [gap(i - 0.5) ** 3 / (dx * dx), gap(i + 0.5) ** 3 / (dx * dx)];
      const side = gap(i) ** 3 / (dz * dz);
      const source = (-6 * (gap(i + 0.5) - gap(i - 0.5))) / dx;
      for (let j = 0; j < half; j++) {
        // The middle plane is a mirror; the row past the last one lies on the edge and stays nought.
        const inner = p[i][j === 0 ? 1 : j - 1];
        const wanted =
          (source + west * p[i - 1][j] + east * p[i + 1][j] + side * (inner + p[i][j + 1])) /
          (west + east + 2 * side);
        const next = Math.max(0, p[i][j] + factor * (wanted - p[i][j]));
        moved = Math.max(moved, Math.abs(next - p[i][j]));
        most = Math.max(most, next);
        p[i][j] = next;
      }
    }
    if (moved < 1e-6 * most) break;
  }
  let [fx, fy] = [0, 0];
  for (let i = 1; i < round; i++)
    for (let j = 0; j < half; j++) {
      const force = p[i][j] * dx * dz * (j === 0 ? 1 : 2);
      fx -= force * Math.cos(i * dx);
      fy += force * Math.sin(i * dx);
    }
  return (2 * RATIO) / (Math.PI * Math.hypot(fx, fy));
}

const HOLE = { lengthOverDiameter: RATIO, supply: { kind: 'hole', diameter: 0.25, at: Math.PI } };
const GROOVE = { lengthOverDiameter: RATIO, supply: { kind: 'full-groove', width: 0.12 } };

export async function films() {
  const film = plainFilm(RATIO);
  const off = (s) => `${((s / 0.31929 - 1) * 100).toFixed(2)} % off the converged load`;
  const table = bearingTable(HOLE);
  let k = 0;
  // Never the same load twice, so that nothing can be kept from the last time.
  const load = () => 0.2 * (1 + 0.001 * (k++ % 50));
  await compared('One journal bearing in detail (budget 2 ms)', {
    [`flooded, relaxation on even steps, 64 × 6: ${off(relaxed(64, 6))}`]: () => relaxed(64, 6),
    [`flooded, on the graded grid, 64 × 6: ${off(plainBearingAt(film, E).sommerfeld)}`]: () =>
      plainBearingAt(plainFilm(RATIO), E),
    'fed by a hole, conserving mass, eccentricity given': () =>
      fedBearingAt(HOLE, 0.6 + 0.001 * (k++ % 50), 0.2),
    'fed by a hole, conserving mass, load given': () => fedBearingFor(HOLE, load(), 0.2),
    'fed by a full groove, conserving mass, load given': () => fedBearingFor(GROOVE, load(), 0.2),
    'the same out of its table': () => tabledBearing(table, load(), 0.2),
  });
  const places = table.supply.length * table.logSommerfeld.length;
  await compared(
    `Table of a new bearing, ${places} loaded films (budget 300 ms)`,
    {
      'each film from nothing': {
        // A tenth of them stands for all: each is its own.
        calls: 0.1,
        run: () => {
          for (let i = 0; i < places; i += 10)
            fedBearingFor(
              HOLE,
              Math.exp(table.logSommerfeld[i % table.logSommerfeld.length]),
              table.supply[i % table.supply.length],
            );
        },
      },
      'each from its neighbours, hole': () => bearingTable(HOLE),
      'each from its neighbours, full groove': () => bearingTable(GROOVE),
    },
    { rounds: 5 },
  );
}

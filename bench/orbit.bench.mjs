// The journal's path over one cycle of a big end, beside a path with its mobility found by quadrature and fixed steps.
import { centredCrank, crankpinLoad, cylinderPressure, journalOrbit, rodMeanTurning } from '@fettle/core';
import { compared } from './side-by-side.mjs';

const POINTS = 720;
const SPEED = (3000 * Math.PI) / 30;
const CRANK = centredCrank(0.1135, 0.197);
const AREA = Math.PI * 0.0445 ** 2;
const BEARING = { radius: 0.027, land: 0.0318, lands: 1, clearance: 25e-6, viscosity: 0.008 };
const CYCLE = {
  crank: CRANK,
  area: AREA,
  compressionRatio: 6.8,
  load: 1,
  fired: true,
  inletShuts: 0.9,
  exhaustOpens: 0.9,
  ambient: 101_325,
};

export async function orbits() {
  const masses = { reciprocating: 0.96, bigEnd: 0.56 };
  const load = crankpinLoad(CRANK, AREA, masses, SPEED, cylinderPressure(CYCLE, POINTS));
  const meanTurning = rodMeanTurning(CRANK, SPEED, POINTS);
  const period = (4 * Math.PI) / SPEED;
  const once = { ...BEARING, load, meanTurning, period, mostPeriods: 3 };
  const short = { ...once, short: true };
  const least = journalOrbit(short).leastFilm;
  const plain = plainLeastFilm(once);
  if (Math.abs(plain / least - 1) > 0.02) throw new Error(`least film ${least} m, the plain way ${plain} m`);
  await compared(
    'Path of a big end over its cycle, three cycles of 720 points',
    {
      'mobility by quadrature, fixed steps': () => plainLeastFilm(once),
      'closed mobility of the short bearing, steps by their error': () => journalOrbit(short).leastFilm,
      'mobility of the bearing’s own length, table at hand': () => journalOrbit(once).leastFilm,
      'load of the crankpin over a cycle, pressure and all': () =>
        crankpinLoad(CRANK, AREA, masses, SPEED, cylinderPressure(CYCLE, POINTS)),
    },
    { rounds: 7 },
  );
}

/** Velocity by adding up the film 40 times round and solving for its direction, again and again. */
function plainVelocity(e, fx, fy) {
  const size = Math.hypot(...e);
  const line = size > 0 ? Math.atan2(e[1], e[0]) : 0;
  let [vx, vy] = [fx, fy];
  for (let turn = 0; turn < 12; turn++) {
    const towards = Math.atan2(vy, vx);
    let [xx, xy, yy] = [0, 0, 0];
    for (let k = 0; k < 40; k++) {
      const angle = towards - Math.PI / 2 + ((k + 0.5) / 40) * Math.PI;
      const film = ((1 - size * Math.cos(angle - line)) ** -3 * Math.PI) / 40;
      xx += film * Math.cos(angle) ** 2;
      xy += film * Math.cos(angle) * Math.sin(angle);
      yy += film * Math.sin(angle) ** 2;
    }
    const det = xx * yy - xy * xy;
    [vx, vy] = [(yy * fx - xy * fy) / det, (xx * fy - xy * fx) / det];
  }
  return [vx, vy];
}

function plainLeastFilm({ load, meanTurning, period, mostPeriods, ...b }) {
  const strength = b.clearance ** 2 / (b.lands * b.viscosity * b.land ** 3 * b.radius);
  const h = period / POINTS;
  let e = [0, 0];
  let greatest = 0;
  const rate = (i, at) => {
    const j = i % POINTS;
    const [vx, vy] = plainVelocity(at, strength * load.x[j], strength * load.y[j]);
    return [vx - meanTurning[j] * at[1], vy + meanTurning[j] * at[0]];
  };
  for (let cycle = 0; cycle < mostPeriods; cycle++)
    for (let i = 0; i < POINTS; i++) {
      const k1 = rate(i, e);
      const k2 = rate(i + 1, [e[0] + h * k1[0], e[1] + h * k1[1]]);
      e = [e[0] + (h / 2) * (k1[0] + k2[0]), e[1] + (h / 2) * (k1[1] + k2[1])];
      if (cycle === mostPeriods - 1) greatest = Math.max(greatest, Math.hypot(...e));
    }
  return b.clearance * (1 - greatest);
}

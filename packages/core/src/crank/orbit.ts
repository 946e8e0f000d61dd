import { type Metre, metre, type Newton, type PascalSecond, type Second, second } from '../units/si.ts';
import type { CycleVector } from './bearing-loads.ts';
import { finiteMobility } from './finite-mobility.ts';
import { type SqueezeVelocity, squeezeVelocity } from './mobility.ts';

export interface OrbitCase {
  /** On the journal [N], equal steps of one period. */
  readonly load: CycleVector;
  /** Mean of the speeds at which journal and shell turn, at the same steps [rad/s]. */
  readonly meanTurning: Float64Array;
  readonly period: Second;
  /** Of the journal [m] */
  readonly radius: Metre;
  /** Of one land [m] */
  readonly land: Metre;
  /** Lands side by side that share the load: two beside a full groove. */
  readonly lands: number;
  readonly clearance: Metre;
  readonly viscosity: PascalSecond;
  /** Takes every land as short, with the closed formula: sooner there, and too thick a film. */
  readonly short?: true;
  /** Eccentricity over clearance at the beginning; concentric when absent. */
  readonly start?: readonly [number, number];
  /** Periods after which it stops, settled or not. */
  readonly mostPeriods?: number;
}

export interface Orbit {
  /** Eccentricity over clearance at the steps of the load, of the last period. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** c (1 − ε) at its least [m] */
  readonly leastFilm: Metre;
  /** Where that is: the share of the period gone. */
  readonly leastAt: number;
  /** Periods gone through. */
  readonly periods: number;
  /** Whether the last period came back to where it began. */
  readonly settled: boolean;
}

const MOST_PERIODS = 60;
/** Greatest error of one step, as a share of the gap left. */
const STEP_ERROR = 2e-5;
const SETTLED = 1e-4;
const TOUCHING = 1e-6;

/**
 * Path of the journal's centre through its clearance, by mobility.
 *
 *     dε/dt = ω̄ k × ε + m(ε, F c²/(μ L³ R)),   ω̄ = (ω_journal + ω_shell)/2
 *
 * m is that of each land's own length, p nowhere under zero. The journal's own mass is left out: beside the load it is nothing. Steps by the pair of Bogacki and Shampine,
 * with the load straight between its given points, until a period ends where it began.
 *
 * @source mobility-method
 */
export function journalOrbit(input: OrbitCase): Orbit {
  const { load, meanTurning, period, clearance: c } = input;
  const steps = load.x.length;
  const interval = period / steps;
  const strength = (c * c) / (input.lands * input.viscosity * input.land ** 3 * input.radius);
  const finite = input.short ? undefined : finiteMobility(input.land / (2 * input.radius));
  const move: typeof squeezeVelocity = finite
    ? (ex, ey, fx, fy, into) => finite.velocity(ex, ey, fx, fy, into)
    : squeezeVelocity;
  const x = new Float64Array(steps);
  const y = new Float64Array(steps);
  const out: SqueezeVelocity = { x: 0, y: 0 };
  let [ex, ey] = input.start ?? [0, 0];
  let h = interval / 4;
  let periods = 0;
  let settled = false;

  // The state of the derivative, in variables rather than arrays: this runs some thousand times a period.
  let i = 0;
  let next = 1 % steps;
  const rate = (part: number, atX: number, atY: number): void => {
    const rest = 1 - part;
    move(
      atX,
      atY,
      strength * (rest * load.x[i]! + part * load.x[next]!),
      strength * (rest * load.y[i]! + part * load.y[next]!),
      out,
    );
    const turning = rest * meanTurning[i]! + part * meanTurning[next]!;
    out.x -= turning * atY;
    out.y += turning * atX;
  };

  const most = input.mostPeriods ?? MOST_PERIODS;
  while (periods < most && !settled) {
    const [beganX, beganY] = [ex, ey];
    for (i = 0; i < steps; i++) {
      next = (i + 1) % steps;
      x[i] = ex;
      y[i] = ey;
      let t = 0;
      rate(0, ex, ey);
      let k1x = out.x;
      let k1y = out.y;
      while (t < interval) {
        if (t + h > interval * (1 - 1e-12)) h = interval - t;
        rate((t + h / 2) / interval, ex + (h / 2) * k1x, ey + (h / 2) * k1y);
        const k2x = out.x;
        const k2y = out.y;
        rate((t + 0.75 * h) / interval, ex + 0.75 * h * k2x, ey + 0.75 * h * k2y);
        const k3x = out.x;
        const k3y = out.y;
        const toX = ex + (h / 9) * (2 * k1x + 3 * k2x + 4 * k3x);
        const toY = ey + (h / 9) * (2 * k1y + 3 * k2y + 4 * k3y);
        const gap = 1 - Math.sqrt(toX * toX + toY * toY);
        let error = Number.POSITIVE_INFINITY;
        if (gap > TOUCHING) {
          rate((t + h) / interval, toX, toY);
          const missX = (-5 / 72) * k1x + k2x / 12 + k3x / 9 - out.x / 8;
          const missY = (-5 / 72) * k1y + k2y / 12 + k3y / 9 - out.y / 8;
          error = (h * Math.sqrt(missX * missX + missY * missY)) / (STEP_ERROR * gap);
        }
        if (error <= 1 || h < interval * 1e-7) {
          t += h;
          ex = toX;
          ey = toY;
          if (gap <= TOUCHING) {
            const size = Math.sqrt(ex * ex + ey * ey);
            ex *= (1 - TOUCHING) / size;
            ey *= (1 - TOUCHING) / size;
            rate(t / interval, ex, ey);
          }
          k1x = out.x;
          k1y = out.y;
        }
        h *= Math.min(4, Math.max(0.2, 0.9 / Math.cbrt(Math.max(error, 1e-6))));
        h = Math.min(h, interval);
        if (!(h > 0)) h = interval * 1e-8;
      }
    }
    periods += 1;
    settled = Math.hypot(ex - beganX, ey - beganY) < SETTLED * (1 - Math.min(1, Math.hypot(ex, ey)));
  }
  let greatest = 0;
  let at = 0;
  for (let k = 0; k < steps; k++) {
    const size = x[k]! * x[k]! + y[k]! * y[k]!;
    if (size > greatest) {
      greatest = size;
      at = k;
    }
  }
  return {
    x,
    y,
    leastFilm: metre(c * (1 - Math.sqrt(greatest))),
    leastAt: at / steps,
    periods,
    settled,
  };
}

/** Mean of the speeds of crankpin and rod, ω/2 (1 − r cos θ/(l cos β)): the rod swings against the crank at the top. */
export function rodMeanTurning(
  { crankRadius: r, rod: l }: { readonly crankRadius: number; readonly rod: number },
  speed: number,
  steps: number,
): Float64Array {
  return Float64Array.from({ length: steps }, (_, i) => {
    const angle = (4 * Math.PI * i) / steps;
    const side = r * Math.sin(angle);
    return (speed / 2) * (1 - (r * Math.cos(angle)) / Math.sqrt(l * l - side * side));
  });
}

/**
 * Time in which a steady load without turning squeezes a short bearing from concentric to ε [s]:
 *
 *     t = (μ L³ R/(F c²)) [(ε acos(−ε) + √(1−ε²))/(1−ε²)^3/2 − 1]
 *
 * The integral of the mobility along the load, closed; touching takes for ever.
 *
 * @source mobility-method
 */
export function squeezeTime(
  e: number,
  bearing: Pick<OrbitCase, 'clearance' | 'viscosity' | 'land' | 'radius'>,
  load: Newton,
): Second {
  const { clearance, viscosity, land, radius } = bearing;
  const q = 1 - e * e;
  const gone = (e * Math.acos(-e) + Math.sqrt(q)) / q ** 1.5 - 1;
  return second((gone * viscosity * land ** 3 * radius) / (load * clearance * clearance));
}

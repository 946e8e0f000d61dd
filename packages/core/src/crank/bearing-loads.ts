import { pistonAcceleration, type SliderCrank } from '../geometry/piston-motion.ts';
import { type Kilogram, type RadianPerSecond, radian, type SquareMetre } from '../units/si.ts';

const CYCLE = 4 * Math.PI;

/** A vector over one cycle (two turns) at equal steps. */
export interface CycleVector {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** Masses of one throw: the rod is two points, one at each end. */
export interface ThrowMasses {
  /** Piston, rings, pin and the rod's small end [kg]. */
  readonly reciprocating: Kilogram;
  /** The rod's big end [kg]. */
  readonly bigEnd: Kilogram;
}

/** Angle of the rod from the bore axis: sin β = r sin θ/l. */
const rodSine = ({ crankRadius, rod, offset }: SliderCrank, angle: number): number =>
  (crankRadius * Math.sin(angle) - offset) / rod;

/**
 * Load of the rod on its crankpin over one cycle [N]; x along the bore towards the head, y to the side the pin moves
 * to after top dead centre.
 *
 *     C = (p A − m_rec a)/cos β,  F = C (−cos β, sin β) + m_big ω² r (cos θ, sin θ)
 *
 * C is the thrust along the rod, a the acceleration of the piston away from the top. Friction of the piston is left
 * out, and so is the little couple that a rod of two points lacks.
 *
 * @param pressure  over that of the crankcase, at equal steps of the cycle from the firing top dead centre [Pa]
 * @source rod-two-masses
 */
export function crankpinLoad(
  crank: SliderCrank,
  area: SquareMetre,
  masses: ThrowMasses,
  speed: RadianPerSecond,
  pressure: Float64Array,
): CycleVector {
  const steps = pressure.length;
  const x = new Float64Array(steps);
  const y = new Float64Array(steps);
  const outwards = masses.bigEnd * speed * speed * crank.crankRadius;
  for (let i = 0; i < steps; i++) {
    const angle = (CYCLE * i) / steps;
    const sine = rodSine(crank, angle);
    const along =
      pressure[i]! * area - masses.reciprocating * pistonAcceleration(crank, radian(angle), speed);
    x[i] = -along + outwards * Math.cos(angle);
    y[i] = (along * sine) / Math.sqrt(1 - sine * sine) + outwards * Math.sin(angle);
  }
  return { x, y };
}

/** Turning moment of a crankpin load about the crank's axis [N·m]. */
export function crankTorque(crank: SliderCrank, { x, y }: CycleVector): Float64Array {
  const r = crank.crankRadius;
  return x.map((fx, i) => {
    const angle = (CYCLE * i) / x.length;
    return r * (Math.cos(angle) * y[i]! - Math.sin(angle) * fx);
  });
}

/** The load seen from the rod: x from big end to small end. This is the frame of its shells. */
export function seenFromRod(crank: SliderCrank, { x, y }: CycleVector): CycleVector {
  return turned({ x, y }, (angle) => Math.asin(rodSine(crank, angle)));
}

/** The load seen from the crankpin: x outwards from the crank's axis. This is where its oil hole goes round. */
export const seenFromPin = (load: CycleVector): CycleVector => turned(load, (angle) => -angle);

function turned({ x, y }: CycleVector, by: (angle: number) => number): CycleVector {
  const out = { x: new Float64Array(x.length), y: new Float64Array(x.length) };
  for (let i = 0; i < x.length; i++) {
    const angle = by((CYCLE * i) / x.length);
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    out.x[i] = cos * x[i]! - sin * y[i]!;
    out.y[i] = sin * x[i]! + cos * y[i]!;
  }
  return out;
}

/** One throw beside a main bearing. */
export interface ThrowBeside {
  /** Of the rod on the pin, in the frame of its own bore. */
  readonly load: CycleVector;
  /** Crank angle at which its cylinder fires [rad], from the engine's zero. */
  readonly fires: number;
  /** Direction of its bore, turned the way the crank turns from the engine's zero [rad]. */
  readonly bore: number;
  /** How much of it this main carries: half where mains stand on both sides. */
  readonly share: number;
  /** Centrifugal force of what turns with the throw and is not balanced, ω² times mass times radius [N]. */
  readonly outwards: number;
}

/**
 * Load of the crank on one main bearing over one cycle, in the engine's frame [N]. Each throw is taken as a beam of its
 * own on the two mains beside it, as though the crank were cut in every main. A real crank and block are stiff and
 * spread the load otherwise.
 *
 * @source rod-two-masses
 */
export function mainLoad(throws: readonly ThrowBeside[], steps: number): CycleVector {
  const x = new Float64Array(steps);
  const y = new Float64Array(steps);
  for (const { load, fires, bore, share, outwards } of throws) {
    const behind = (fires / CYCLE) * steps;
    for (let i = 0; i < steps; i++) {
      const place = (((i - behind) % steps) + steps) % steps;
      const low = Math.floor(place);
      const part = place - low;
      const high = (low + 1) % steps;
      const at = low % steps;
      const angle = (CYCLE * place) / steps;
      const fx = load.x[at]! * (1 - part) + load.x[high]! * part + outwards * Math.cos(angle);
      const fy = load.y[at]! * (1 - part) + load.y[high]! * part + outwards * Math.sin(angle);
      const [cos, sin] = [Math.cos(bore), Math.sin(bore)];
      x[i]! += share * (cos * fx - sin * fy);
      y[i]! += share * (sin * fx + cos * fy);
    }
  }
  return { x, y };
}

/** Mean and greatest size of a load over its cycle, and where the greatest is, as a share of the cycle. */
export function loadSize({ x, y }: CycleVector): { mean: number; greatest: number; at: number } {
  let sum = 0;
  let greatest = 0;
  let at = 0;
  for (let i = 0; i < x.length; i++) {
    const size = Math.hypot(x[i]!, y[i]!);
    sum += size;
    if (size > greatest) {
      greatest = size;
      at = i / x.length;
    }
  }
  return { mean: sum / x.length, greatest, at };
}

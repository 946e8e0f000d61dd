import { distanceFromTop, type SliderCrank } from '../geometry/piston-motion.ts';
import {
  type CubicMetre,
  cubicMetre,
  metre,
  type Pascal,
  type Radian,
  radian,
  type SquareMetre,
} from '../units/si.ts';

/** Gas constant of air and so, nearly, of a fresh charge [J/(kg K)]. */
const GAS = 287;
const TURN = 2 * Math.PI;

/**
 * What a running cylinder does, as far as nobody measured it. Typical of a petrol engine: none of these is printed
 * for the engine at hand, so whoever shows a load says that they stand in.
 *
 * @source cylinder-cycle
 */
export const TYPICAL_CYCLE = {
  /** n: exponent of compression and expansion, walls and all. */
  exponent: 1.3,
  /** Of the fresh charge when the inlet shuts [K]. */
  chargeTemperature: 340,
  /** Heat that a kilogram of charge leaves in the gas: 44 MJ/kg of fuel, 1 part in 15.6, less about 30 % to walls and unburnt [J/kg]. */
  heat: 2.0e6,
  /** Before top dead centre [rad]. */
  burnStarts: (20 * Math.PI) / 180,
  burnLasts: (60 * Math.PI) / 180,
  /** Of Wiebe's curve. */
  efficiency: 5,
  form: 2,
  /** Inlet shuts, after bottom dead centre [rad]. */
  inletShuts: (50 * Math.PI) / 180,
  /** Exhaust opens, before bottom dead centre [rad]. */
  exhaustOpens: (50 * Math.PI) / 180,
  ambient: 101_325,
} as const;

export interface Cycle {
  readonly crank: SliderCrank;
  readonly area: SquareMetre;
  readonly compressionRatio: number;
  /** Pressure of the charge over that of the air outside: 1 with the throttle open. */
  readonly load: number;
  /** Whether the charge burns; a cranked engine only compresses and expands it. */
  readonly fired: boolean;
  readonly inletShuts: Radian;
  readonly exhaustOpens: Radian;
  readonly ambient: Pascal;
}

/** Rate of heat release over share of the duration: the slope of Wiebe's curve, brought to 1 at its end. */
function burning(share: number): number {
  if (share <= 0 || share >= 1) return 0;
  const { efficiency: a, form: m } = TYPICAL_CYCLE;
  return (a * (m + 1) * share ** m * Math.exp(-a * share ** (m + 1))) / (1 - Math.exp(-a));
}

/** Volume above the piston [m³], θ from top dead centre. */
export function cylinderVolume({ crank, area, compressionRatio }: Cycle, angle: number): CubicMetre {
  const swept = area * 2 * crank.crankRadius;
  return cubicMetre(swept / (compressionRatio - 1) + area * distanceFromTop(crank, radian(angle)));
}

/** Heat left in the gas in one cycle, m q with m = p V/(R T) when the inlet shuts [J]. */
export function heatOfCycle(cycle: Cycle): number {
  if (!cycle.fired) return 0;
  const shut = cylinderVolume(cycle, -Math.PI + cycle.inletShuts);
  const mass = (cycle.load * cycle.ambient * shut) / (GAS * TYPICAL_CYCLE.chargeTemperature);
  return mass * TYPICAL_CYCLE.heat;
}

/** Places and weights of Gauss–Legendre with three points on 0 to 1. */
const GAUSS = [
  [0.5 - Math.sqrt(0.15), 5 / 18],
  [0.5, 4 / 9],
  [0.5 + Math.sqrt(0.15), 5 / 18],
] as const;

/**
 * Pressure over that of the air outside, at equal steps of two turns from the top dead centre at which it fires [Pa].
 *
 *     p Vⁿ = p1 V1ⁿ + (n−1) ∫ Vⁿ⁻¹ dQ,   Q = m q (1 − exp(−a x^(m+1)))/(1 − e^−a)
 *
 * Inlet: the charge's pressure until the inlet shuts. Then the law above, which is polytropic compression and
 * expansion where nothing burns. From the opening of the exhaust to bottom dead centre it falls to the outside along
 * half a cosine, and stays there until the next inlet.
 *
 * @param steps  a multiple of 4
 * @source cylinder-cycle
 */
export function cylinderPressure(cycle: Cycle, steps: number): Float64Array {
  const { exponent: n, burnStarts, burnLasts } = TYPICAL_CYCLE;
  const { load, ambient, inletShuts, exhaustOpens } = cycle;
  const step = (2 * TURN) / steps;
  const heat = heatOfCycle(cycle);
  const shut = -Math.PI + inletShuts;
  const opens = Math.PI - exhaustOpens;
  const released = (from: number, to: number): number => {
    let sum = 0;
    for (const [place, weight] of GAUSS) {
      const angle = from + place * (to - from);
      const rate = burning((angle + burnStarts) / burnLasts) / burnLasts;
      if (rate > 0) sum += weight * rate * cylinderVolume(cycle, angle) ** (n - 1);
    }
    return (n - 1) * heat * sum * (to - from);
  };
  const pressure = new Float64Array(steps);
  const charge = load * ambient;
  let constant = charge * cylinderVolume(cycle, shut) ** n;
  let before = shut;
  const closed = (angle: number): number => {
    // The curve ends with a small step, so the last interval is cut at the end of the burning.
    const end = -burnStarts + burnLasts;
    if (before < end && angle > end) constant += released(before, end) + released(end, angle);
    else constant += released(before, angle);
    before = angle;
    return constant / cylinderVolume(cycle, angle) ** n;
  };
  for (let i = -steps / 4; i < steps / 4; i++) {
    const angle = i * step;
    const at = (i + steps) % steps;
    if (angle < shut) pressure[at] = charge - ambient;
    else if (angle <= opens) pressure[at] = closed(angle) - ambient;
  }
  const last = closed(opens) - ambient;
  for (let i = 0; i < steps; i++) {
    const angle = i * step;
    if (angle > opens && angle < Math.PI)
      pressure[i] = (last * (1 + Math.cos((Math.PI * (angle - opens)) / (Math.PI - opens)))) / 2;
    else if (angle >= TURN && angle < TURN + Math.PI) pressure[i] = charge - ambient;
  }
  return pressure;
}

/** Work of the gas on the piston in one cycle, ∮ p dV by the area of the diagram [J]. */
export function diagramWork(cycle: Cycle, pressure: Float64Array): number {
  const steps = pressure.length;
  const step = (2 * TURN) / steps;
  let work = 0;
  for (let i = 0; i < steps; i++) {
    const next = pressure[(i + 1) % steps]!;
    const grown = cylinderVolume(cycle, (i + 1) * step) - cylinderVolume(cycle, i * step);
    work += ((pressure[i]! + next) / 2) * grown;
  }
  return work;
}

/** A centred slider-crank from stroke and rod. */
export const centredCrank = (stroke: number, rod: number): SliderCrank => ({
  crankRadius: metre(stroke / 2),
  rod: metre(rod),
  offset: metre(0),
});

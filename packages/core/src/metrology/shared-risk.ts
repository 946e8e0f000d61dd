import { normalCdf } from '../uncertainty/normal.ts';
import type { Limits } from './limits.ts';

export interface SharedRisk {
  /** Share of the product outside its limits. */
  readonly nonconforming: number;
  /** Outside, yet accepted. */
  readonly consumer: number;
  /** Inside, yet rejected. */
  readonly producer: number;
}

/** How the true values of a product are spread: their density, and the interval outside of which it is nothing. */
export interface Production {
  readonly density: (x: number) => number;
  readonly from: number;
  readonly to: number;
}

/**
 * What a rule of acceptance costs over a whole production rather than for one reading in hand:
 * the density of true values times the chance that a reading of standard uncertainty u is accepted, integrated.
 *
 * @source jcgm-106 9.5
 */
export function sharedRisk(product: Production, u: number, limits: Limits, accepted: Limits): SharedRisk {
  const cuts = [limits.lower, limits.upper].filter((x) => x !== undefined);
  const edges = [product.from, ...cuts.filter((x) => x > product.from && x < product.to), product.to];
  const chance = (x: number): number =>
    (accepted.upper === undefined ? 1 : normalCdf((accepted.upper - x) / u)) -
    (accepted.lower === undefined ? 0 : normalCdf((accepted.lower - x) / u));
  let [nonconforming, consumer, producer] = [0, 0, 0];
  edges.slice(1).forEach((to, i) => {
    const from = edges[i] ?? to;
    const middle = (from + to) / 2;
    const outside = (limits.lower ?? -Infinity) > middle || (limits.upper ?? Infinity) < middle;
    const share = integral(product.density, from, to);
    const taken = integral((x) => product.density(x) * chance(x), from, to);
    if (outside) {
      nonconforming += share;
      consumer += taken;
    } else producer += share - taken;
  });
  return { nonconforming, consumer, producer };
}

const PANELS = 4000;

function integral(f: (x: number) => number, from: number, to: number): number {
  const h = (to - from) / PANELS;
  let sum = f(from) + f(to);
  for (let i = 1; i < PANELS; i++) sum += (i % 2 === 1 ? 4 : 2) * f(from + i * h);
  return (sum * h) / 3;
}

/** C_pk: distance from the mean to the nearer limit in units of three standard deviations. @source iso-22514-2 */
export const capabilityIndex = (mean: number, sd: number, limits: Limits): number =>
  Math.min((limits.upper ?? Infinity) - mean, mean - (limits.lower ?? -Infinity)) / (3 * sd);

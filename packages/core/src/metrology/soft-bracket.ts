import { normalCdf } from '../uncertainty/normal.ts';
import type { Bracket } from './feeler.ts';
import type { Limits } from './limits.ts';

export interface Cut {
  readonly value: number;
  readonly u: number;
  /** Probability of just these leaf answers if the value alone were true: small means the witnesses disagree. */
  readonly agreement: number;
  readonly probabilityInside: (limits: Limits) => number;
}

/** Simpson panels over each piece. */
const PANELS = 200;
/** An edge is over after so many of its standard uncertainties. */
const EDGE_REACH = 8;
/** exp(−42) is below the last bit of one. */
const NEGLIGIBLE = 42;

/**
 * A measured value cut by what feeler leaves said. The leaves have no middle to be averaged in; they take away:
 *
 *     p(g) ∝ φ((g − y)/u) Φ((g − a)/s) Φ((b − g)/s)
 *
 * with a the leaf that goes, b the one that stops and s the standard uncertainty of an edge (leaf and feel).
 * The soft edge is a modelling choice without a published source. The product is log-concave, so it has one peak, and
 * integration runs from it outwards.
 *
 * @param q  y and u > 0
 * @param edgeU  s, above 0
 */
export function cutByBracket(
  q: { readonly value: number; readonly u: number },
  bracket: Bracket,
  edgeU: number,
): Cut {
  const { value: y, u } = q;
  if (!(u > 0 && edgeU > 0)) throw new RangeError('a soft cut takes uncertainties above 0');
  const { goes, stops } = bracket;
  const logDensity = (g: number): number =>
    -0.5 * ((g - y) / u) ** 2 +
    (goes === undefined ? 0 : logCdf((g - goes) / edgeU)) +
    (stops === undefined ? 0 : logCdf((stops - g) / edgeU));

  // The peak lies between the value and the edges that pull at it.
  const reach = [y, ...[goes, stops].filter((x) => x !== undefined)];
  const slack = 10 * Math.max(u, edgeU);
  const peak = maximum(logDensity, Math.min(...reach) - slack, Math.max(...reach) + slack);
  const top = logDensity(peak);
  const end = (towards: number): number => {
    let [near, far] = [0, Math.min(u, edgeU)];
    while (top - logDensity(peak + towards * far) < NEGLIGIBLE) far *= 2;
    for (let i = 0; i < 40; i++) {
      const half = (near + far) / 2;
      if (top - logDensity(peak + towards * half) < NEGLIGIBLE) near = half;
      else far = half;
    }
    return peak + towards * far;
  };
  const [low, high] = [end(-1), end(1)];
  const density = (g: number): number => Math.exp(logDensity(g) - top);
  // Pieces end where an edge begins and ends, so that a sharp edge gets panels of its own.
  const breaks = [goes, stops].flatMap((x) =>
    x === undefined ? [] : [x - EDGE_REACH * edgeU, x, x + EDGE_REACH * edgeU],
  );
  const integral = (f: (g: number) => number, from = low, to = high): number => {
    if (!(to > from)) return 0;
    const ends = [from, ...breaks.filter((x) => x > from && x < to).sort((a, b) => a - b), to];
    return ends.slice(1).reduce((sum, next, i) => sum + simpson(f, ends[i] ?? next, next), 0);
  };

  const whole = integral(density);
  const value = peak + integral((g) => (g - peak) * density(g)) / whole;
  const variance = integral((g) => (g - value) ** 2 * density(g)) / whole;
  return {
    value,
    u: Math.sqrt(variance),
    agreement: Math.min(1, (whole * Math.exp(top)) / (u * Math.sqrt(2 * Math.PI))),
    probabilityInside: ({ lower, upper }) =>
      Math.min(1, integral(density, Math.max(low, lower ?? low), Math.min(high, upper ?? high)) / whole),
  };
}

/** ln Φ(z), also where Φ itself is too small for a number. */
function logCdf(z: number): number {
  if (z > -30) return Math.log(normalCdf(z));
  return -0.5 * z * z - Math.log(-z * Math.sqrt(2 * Math.PI)) - 1 / (z * z);
}

/** The one peak of a log-concave function, by golden section. */
function maximum(f: (x: number) => number, from: number, to: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [from, to];
  for (let i = 0; i < 120; i++) {
    const [c, d] = [b - golden * (b - a), a + golden * (b - a)];
    if (f(c) < f(d)) a = c;
    else b = d;
  }
  return (a + b) / 2;
}

function simpson(f: (x: number) => number, from: number, to: number): number {
  const h = (to - from) / PANELS;
  let sum = f(from) + f(to);
  for (let i = 1; i < PANELS; i++) sum += (i % 2 === 1 ? 4 : 2) * f(from + i * h);
  return (sum * h) / 3;
}

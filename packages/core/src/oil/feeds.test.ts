import { expect, it } from 'vitest';
import { metre, metrePerSecond, newton, pascal, pascalSecond, radianPerSecond } from '../units/si.ts';
import {
  annulusLeak,
  dimensionlessFeed,
  eccentricAnnulus,
  exactHoleConductance,
  grooveFeed,
  halfGrooveFactor,
  holeEccentricity,
  holeFactor,
  holeFeed,
} from './bearing-feed.ts';
import { shortBearing, shortBearingEccentricity, shortBearingLoad } from './short-bearing.ts';

/** Mean of a function over an angle, by the midpoint rule: exact for these cosines. */
function mean(f: (angle: number) => number, from: number, to: number): number {
  const n = 2000;
  let sum = 0;
  for (let i = 0; i < n; i++) sum += f(from + ((i + 0.5) / n) * (to - from));
  return sum / n;
}

const gap = (e: number) => (angle: number) => (1 + e * Math.cos(angle)) ** 3;

it('the growth of a leak with eccentricity is the mean of the cubed gap', () => {
  for (const e of [0, 0.3, 0.6, 1]) {
    expect(eccentricAnnulus(e)).toBeCloseTo(mean(gap(e), 0, 2 * Math.PI), 10);
    expect(holeEccentricity('rotating', e)).toBeCloseTo(mean(gap(e), 0, 2 * Math.PI), 10);
    expect(holeEccentricity('widest', e)).toBe(gap(e)(0));
    // The standard prints 1.33 for 4/3.
    expect(halfGrooveFactor(e)).toBeCloseTo(mean(gap(e), -Math.PI / 2, Math.PI / 2), 6);
  }
});

it('both lands of a groove leak what two annular gaps do', () => {
  const [p, mu] = [pascal(3e5), pascalSecond(8e-3)];
  const one = annulusLeak(metre(0.054), metre(0.01), metre(3e-5), 0.6, p, mu);
  expect(grooveFeed(metre(0.054), metre(0.01), metre(3e-5), 0.6, p, mu)).toBeCloseTo(2 * one, 18);
});

it('a hole feeds D³ψ³ p/μ times its dimensionless feed', () => {
  const [d, b, hole, c, e] = [0.05, 0.025, 0.005, 3e-5, 0.5];
  const psi = (2 * c) / d;
  const wanted = (d ** 3 * psi ** 3 * 3e5 * dimensionlessFeed(hole / b, e, holeFactor)) / 8e-3;
  const q = holeFeed(metre(b), metre(hole), metre(c), e, pascal(3e5), pascalSecond(8e-3), 'widest');
  expect(q / wanted).toBeCloseTo(1, 12);
});

it('the hole factor of the standard stays 5 to 12 % under the exact flow of a small hole', () => {
  for (const x of [0.05, 0.1, 0.2, 0.3]) {
    const ratio = (96 * dimensionlessFeed(x, 0, holeFactor)) / exactHoleConductance(x);
    expect(ratio).toBeGreaterThan(0.88);
    expect(ratio).toBeLessThan(0.95);
  }
});

it('the eccentricity found for a load is the one at which the short bearing carries it', () => {
  const [r, l, c, mu, w] = [metre(0.05), metre(0.03), metre(1e-4), pascalSecond(0.1), radianPerSecond(157.1)];
  for (const e of [1e-6, 0.01, 0.2663, 0.6, 0.9, 0.99, 0.9999]) {
    const load = newton(shortBearingLoad(e, r, l, c, mu, w));
    const found = shortBearingEccentricity(load, c, mu, metrePerSecond(w * r), l);
    expect(Math.abs(found - e)).toBeLessThan(1e-9 * (1 - e) + 1e-14);
  }
  expect(shortBearingEccentricity(newton(0), c, mu, metrePerSecond(1), l)).toBe(0);
  expect(shortBearingEccentricity(newton(100), c, mu, metrePerSecond(0), l)).toBe(1);
});

it('the short bearing’s number and its load say the same', () => {
  const [r, l, c, mu, w, e] = [0.025, 0.0125, 5e-5, 0.01, 300, 0.4];
  const load = shortBearingLoad(e, metre(r), metre(l), metre(c), pascalSecond(mu), radianPerSecond(w));
  const s = ((r / c) ** 2 * mu * (w / (2 * Math.PI))) / (load / (l * 2 * r));
  expect(shortBearing(l / (2 * r), e).sommerfeldNumber / s).toBeCloseTo(1, 12);
});

import { expect, it } from 'vitest';
import { jointProbability } from './joint-probability.ts';
import { normalCdf } from './normal.ts';
import { exact, term, uncertain } from './uncertain.ts';

/** Two standard quantities with a correlation of ρ, by a source in common. */
const pair = (rho: number) => {
  const own = Math.sqrt(1 - rho * rho);
  return [
    uncertain(0, term('common', 1)),
    uncertain(0, term('common', rho), ...(own > 0 ? [term('own', own)] : [])),
  ];
};

it.each([-0.9, -0.5, 0, 0.3, 0.8, 0.99])(
  'two quantities over their means: ¼ + asin ρ / 2π, the known orthant probability, at ρ = %s',
  (rho) => {
    const both = jointProbability(pair(rho), [{ lower: 0 }, { lower: 0 }]);
    expect(both).toBeCloseTo(0.25 + Math.asin(rho) / (2 * Math.PI), 3);
  },
);

it('three of them over their means: ⅛ + (Σ asin ρ) / 4π', () => {
  // x1 = a, x2 = (a + b)/√2, x3 = (a + c)/√2: correlations 1/√2, 1/√2 and 1/2.
  const h = Math.SQRT1_2;
  const three = [
    uncertain(0, term('a', 1)),
    uncertain(0, term('a', h), term('b', h)),
    uncertain(0, term('a', h), term('c', h)),
  ];
  const asins = 2 * Math.asin(h) + Math.asin(0.5);
  const all = jointProbability(three, [{ lower: 0 }, { lower: 0 }, { lower: 0 }]);
  expect(all).toBeCloseTo(0.125 + asins / (4 * Math.PI), 2);
});

it('of independent quantities it is the product, of one its own', () => {
  const [a, b] = [uncertain(1, term('a', 1)), uncertain(5, term('b', 2))];
  const alone = (normalCdf(1) - normalCdf(-2)) * normalCdf(1.5);
  expect(jointProbability([a, b], [{ lower: -1, upper: 2 }, { lower: 2 }])).toBeCloseTo(alone, 4);
  expect(jointProbability([b], [{ lower: 2 }])).toBeCloseTo(normalCdf(1.5), 12);
});

it('of two that are one it is the narrower', () => {
  const q = uncertain(0, term('a', 1));
  expect(jointProbability([q, q], [{ lower: -1 }, { lower: 0.5 }])).toBeCloseTo(normalCdf(-0.5), 2);
});

it('what carries no doubt is in or out', () => {
  const q = uncertain(0, term('a', 1));
  expect(jointProbability([exact(3), q], [{ lower: 2 }, { lower: 0 }])).toBeCloseTo(0.5, 12);
  expect(jointProbability([exact(1), q], [{ lower: 2 }, { lower: 0 }])).toBe(0);
  expect(jointProbability([], [])).toBe(1);
});

it('of one whose doubt has a single degree of freedom it is Cauchy’s: ½ + arctan(t)/π', () => {
  const q = uncertain(0, term('few', 1, 'normal', 1));
  expect(jointProbability([q], [{ upper: 2 }])).toBeCloseTo(0.5 + Math.atan(2) / Math.PI, 9);
  expect(jointProbability([q], [{ lower: 3 }])).toBeCloseTo(0.5 - Math.atan(3) / Math.PI, 9);
});

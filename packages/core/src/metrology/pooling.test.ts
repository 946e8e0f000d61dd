import fc from 'fast-check';
import { expect, it } from 'vitest';
import { exact, standardUncertainty, term, uncertain } from '../uncertainty/uncertain.ts';
import { celsius, metre, perKelvin } from '../units/si.ts';
import { normalisedError, pooled } from './pooling.ts';
import { lengthAt20, lengthAtTemperature, measuredAt20 } from './temperature.ts';

it('two independent witnesses are weighted by the inverse squares of their uncertainties', () => {
  const both = pooled([uncertain(0.002, term('leaf', 0.0003)), uncertain(0.0027, term('thread', 0.00025))]);
  expect(both.value.value).toBeCloseTo(0.00241311475409836, 12);
  expect(standardUncertainty(both.value)).toBeCloseTo(0.000192055319899344, 12);
  expect(both.consistent).toBe(true);
  expect(normalisedError(0.002, 0.0006, 0.0027, 0.0005)).toBeCloseTo(0.896258159530272, 12);
});

it('what witnesses share does not shrink by asking twice', () => {
  const shared = term('micrometer', 3);
  const both = pooled([uncertain(10, shared, term('a', 1)), uncertain(12, shared, term('b', 1))]);
  expect(both.value.value).toBeCloseTo(11, 9);
  // 3² + 1²/2
  expect(standardUncertainty(both.value)).toBeCloseTo(Math.sqrt(9.5), 6);
  expect(both.chiSquare).toBeCloseTo(2, 6);
  expect(both.consistent).toBe(true);
});

it('witnesses that disagree keep the larger uncertainty, and say so in a term', () => {
  const torn = pooled([uncertain(10, term('a', 1)), uncertain(20, term('b', 1))], 'bore 2');
  expect(torn.consistent).toBe(false);
  expect(torn.chiSquare).toBeCloseTo(50, 6);
  expect(torn.birgeRatio).toBeCloseTo(Math.sqrt(50), 6);
  // Half of what separates two equal witnesses.
  expect(standardUncertainty(torn.value)).toBeCloseTo(5, 6);
  expect(torn.value.terms.some((t) => t.source === 'bore 2')).toBe(true);
});

it('exact witnesses that agree are exact, and that differ are not', () => {
  expect(standardUncertainty(pooled([exact(3), exact(3)]).value)).toBe(0);
  const torn = pooled([exact(3), exact(5)]);
  expect(torn.consistent).toBe(false);
  expect(standardUncertainty(torn.value)).toBeCloseTo(1, 9);
  expect(pooled([exact(3), uncertain(3.1, term('a', 1))]).value.value).toBeCloseTo(3, 6);
});

it('a single witness stands as it is, and none is a mistake of the program', () => {
  const one = uncertain(3, term('a', 1));
  expect(pooled([one]).value).toBe(one);
  expect(() => pooled([])).toThrow(RangeError);
});

it('the pooled value lies among its witnesses and is never less sure than the surest of agreeing ones', () => {
  const witness = fc.tuple(
    fc.double({ min: -1, max: 1, noNaN: true }),
    fc.double({ min: 0.1, max: 1, noNaN: true }),
    fc.double({ min: 0, max: 1, noNaN: true }),
  );
  fc.assert(
    fc.property(fc.array(witness, { minLength: 2, maxLength: 6 }), (rows) => {
      const witnesses = rows.map(([x, u, c], i) => uncertain(x, term(`own ${i}`, u), term('common', c)));
      const { value, weights, consistent } = pooled(witnesses);
      const values = rows.map(([x]) => x);
      expect(weights.reduce((s, w) => s + w, 0)).toBeCloseTo(1, 9);
      expect(value.value).toBeGreaterThanOrEqual(Math.min(...values) - 1e-9);
      expect(value.value).toBeLessThanOrEqual(Math.max(...values) + 1e-9);
      const surest = Math.min(...witnesses.map(standardUncertainty));
      if (consistent) expect(standardUncertainty(value)).toBeLessThanOrEqual(surest + 1e-6);
    }),
  );
});

it('a part is shorter at 20 °C than when warm, by its coefficient', () => {
  const l20 = lengthAt20(metre(0.05), celsius(30), perKelvin(11.5e-6));
  expect(l20).toBeCloseTo(0.05 * (1 - 1.15e-4 + 1.15e-4 ** 2), 12);
  expect(lengthAtTemperature(l20, celsius(30), perKelvin(11.5e-6))).toBeCloseTo(0.05, 15);
});

it('scale and part both warm: only the difference of materials counts', () => {
  const at = (t: number, alpha: number) => ({ temperature: exact(t), expansion: exact(alpha) });
  const piston = measuredAt20(exact(0.07994), at(30, 21.5e-6), at(30, 11.5e-6));
  expect(piston.value).toBeCloseTo(0.0799320077183406, 12);
  expect(measuredAt20(exact(0.08), at(35, 11.5e-6), at(35, 11.5e-6)).value).toBe(0.08);
});

it('the temperature leaves its doubt in the length', () => {
  const part = {
    temperature: uncertain(25, term('thermometer', 1)),
    expansion: uncertain(11.5e-6, term('α', 0.58e-6)),
  };
  expect(standardUncertainty(measuredAt20(exact(0.1), part))).toBeCloseTo(1.18600168633944e-6, 9);
});

import fc from 'fast-check';
import { expect, it } from 'vitest';
import { normalQuantile } from '../uncertainty/normal.ts';
import { conformity } from './conformity.ts';
import { capabilityIndex, sharedRisk } from './shared-risk.ts';
import { cutByBracket } from './soft-bracket.ts';

it('burst pressure of JCGM 106: 509.7 kPa against 490 with u 8.6 is 99 % in', () => {
  const { verdict, probabilityIn } = conformity({ value: 509.7, u: 8.6 }, { lower: 490 });
  expect(probabilityIn).toBeCloseTo(0.989, 3);
  expect(verdict).toBe('in');
});

it('the guard band of ISO 14253-1 is 1.645 u, one-sided', () => {
  const { guardBand, acceptTo, acceptFrom } = conformity({ value: 1, u: 0.1 }, { upper: 2 });
  expect(guardBand).toBeCloseTo(0.1645, 4);
  expect(acceptTo).toBeCloseTo(2 - 0.1645, 4);
  expect(acceptFrom).toBeUndefined();
});

it('on a limit nobody can tell; well beyond it, it is out', () => {
  expect(conformity({ value: 2, u: 0.1 }, { upper: 2 }).verdict).toBe('cannot-tell');
  expect(conformity({ value: 2, u: 0.1 }, { upper: 2 }).probabilityIn).toBe(0.5);
  expect(conformity({ value: 2.17, u: 0.1 }, { upper: 2 }).verdict).toBe('out');
  expect(conformity({ value: 1.83, u: 0.1 }, { upper: 2 }).verdict).toBe('in');
});

it('an exact value is in on its limit and out beyond it', () => {
  expect(conformity({ value: 2, u: 0 }, { lower: 1, upper: 2 })).toEqual({
    verdict: 'in',
    probabilityIn: 1,
    guardBand: 0,
    acceptFrom: 1,
    acceptTo: 2,
  });
  expect(conformity({ value: 2.0001, u: 0 }, { upper: 2 }).verdict).toBe('out');
});

it('no value can be proven in where limits are closer than the reading is fine', () => {
  const coarse = conformity({ value: 1.5, u: 1 }, { lower: 1, upper: 2 });
  expect(coarse.acceptFrom).toBeUndefined();
  expect(coarse.acceptTo).toBeUndefined();
  expect(coarse.verdict).toBe('cannot-tell');
});

it('a value is in exactly from acceptFrom to acceptTo', () => {
  const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  fc.assert(
    fc.property(
      number(-10, 10),
      number(0.01, 5),
      number(0.01, 2),
      number(0.01, 0.4),
      (lower, width, u, risk) => {
        const limits = { lower, upper: lower + width };
        const { acceptFrom, acceptTo } = conformity({ value: lower, u }, limits, risk);
        if (acceptFrom === undefined || acceptTo === undefined) {
          expect(conformity({ value: lower + width / 2, u }, limits, risk).verdict).not.toBe('in');
          return;
        }
        expect(conformity({ value: acceptFrom + 1e-9, u }, limits, risk).probabilityIn).toBeGreaterThan(
          1 - risk - 1e-9,
        );
        expect(conformity({ value: acceptFrom - 1e-6, u }, limits, risk).probabilityIn).toBeLessThan(
          1 - risk + 1e-9,
        );
        expect(acceptFrom + acceptTo).toBeCloseTo(2 * lower + width, 9);
        expect(acceptFrom).toBeGreaterThanOrEqual(lower + normalQuantile(1 - risk) * u - 1e-9);
      },
    ),
  );
});

it('a verdict without limits or with an impossible risk is a mistake of the program', () => {
  expect(() => conformity({ value: 1, u: 1 }, {})).toThrow(RangeError);
  expect(() => conformity({ value: 1, u: 1 }, { upper: 1 }, 0)).toThrow(RangeError);
});

it('a value cut by hard leaves far inside its spread becomes uniform between them', () => {
  const cut = cutByBracket({ value: 0.3, u: 100 }, { goes: 0.2, stops: 0.25 }, 1e-5);
  expect(cut.value).toBeCloseTo(0.225, 6);
  expect(cut.u).toBeCloseTo(0.05 / Math.sqrt(12), 5);
  expect(cut.probabilityInside({ upper: 0.22 })).toBeCloseTo(0.4, 3);
});

it('a half-normal is what one hard leaf at the value leaves', () => {
  const cut = cutByBracket({ value: 0, u: 1 }, { goes: 0 }, 1e-5);
  expect(cut.value).toBeCloseTo(Math.sqrt(2 / Math.PI), 4);
  expect(cut.u).toBeCloseTo(Math.sqrt(1 - 2 / Math.PI), 4);
  expect(cut.agreement).toBeCloseTo(0.5, 4);
});

it('leaves that allow everything cut nothing; leaves that contradict the value agree with nothing', () => {
  const free = cutByBracket({ value: 5, u: 0.1 }, { goes: 1, stops: 9 }, 0.1);
  expect(free.value).toBeCloseTo(5, 9);
  expect(free.u).toBeCloseTo(0.1, 9);
  expect(free.agreement).toBeCloseTo(1, 9);
  expect(free.probabilityInside({ lower: 5 })).toBeCloseTo(0.5, 6);
  const torn = cutByBracket({ value: 5, u: 0.1 }, { stops: 1 }, 0.1);
  expect(torn.agreement).toBeLessThan(1e-12);
  // Value and edge pull equally hard.
  expect(torn.value).toBeGreaterThan(2.5);
  expect(torn.value).toBeLessThan(3.5);
});

it('the shared risk of a production adds up', () => {
  const product = { density: (x: number) => (x >= 0 && x <= 1 ? 1 : 0), from: 0, to: 1 };
  const exactly = sharedRisk(product, 1e-6, { upper: 0.9 }, { upper: 0.9 });
  expect(exactly.nonconforming).toBeCloseTo(0.1, 9);
  expect(exactly.consumer).toBeLessThan(1e-3);
  expect(capabilityIndex(10, 0.4, { lower: 9, upper: 11 })).toBeCloseTo(0.8333, 4);
});

it('with few degrees of freedom it takes t: 6.314 u at one degree, 2.132 u at four, 1.645 u where u is known', () => {
  // Printed t0.95: GUM table G.2 gives t at 90 % two-sided, which leaves 5 % on one side: 6.31, 2.13, 1.645.
  const guard = (dof: number): number => conformity({ value: 0, u: 1, dof }, { upper: 5 }).guardBand;
  expect(guard(1)).toBeCloseTo(6.314, 3);
  expect(guard(4)).toBeCloseTo(2.132, 3);
  expect(guard(Number.POSITIVE_INFINITY)).toBeCloseTo(1.645, 3);
  // A fraction of a degree is cut off, as for the expanded uncertainty beside it (GUM G.4.1, note 1).
  expect(guard(4.9)).toBe(guard(4));
});

it('two readings prove in only at 6.314 u from the limit, where the same u known would do so at 1.645 u', () => {
  const at = (value: number, dof?: number) =>
    conformity({ value, u: 1, ...(dof !== undefined && { dof }) }, { upper: 0 }).verdict;
  expect([at(-2), at(-2, 1), at(-6.3, 1), at(-6.4, 1)]).toEqual(['in', 'cannot-tell', 'cannot-tell', 'in']);
  expect([at(2), at(2, 1), at(6.4, 1)]).toEqual(['out', 'cannot-tell', 'out']);
});

it('of a value with one degree of freedom the probability is that of Cauchy’s distribution', () => {
  // P(T ≤ t) = ½ + arctan(t)/π for one degree of freedom, by definition.
  const p = (value: number) => conformity({ value, u: 2, dof: 1 }, { lower: -1, upper: 3 }).probabilityIn;
  const cauchy = (t: number) => 0.5 + Math.atan(t) / Math.PI;
  for (const y of [-5, 0, 1, 2.5, 9, 40])
    expect(p(y)).toBeCloseTo(cauchy((3 - y) / 2) - cauchy((-1 - y) / 2), 12);
});

import { expect, it } from 'vitest';
import { instrumentBudget, LIMIT_DIVISOR } from './instrument-budget.ts';
import {
  calliperLimit,
  DIAL_INDICATOR,
  gaugeBlockLimit,
  leafLimit,
  micrometerLimit,
  pressureGaugeLimit,
  steelRuleLimit,
  torqueToolLimit,
} from './limits-of-error.ts';

it('terms divide by their divisor and add in squares; the common share is that of the common ones', () => {
  // 3 common and 4 own make 5: 9/25 of the variance is common.
  const budget = instrumentBudget([
    {
      what: 'scale',
      amount: 3 * Math.sqrt(3),
      shape: 'rectangular',
      divisor: LIMIT_DIVISOR.rectangular,
      share: 'common',
    },
    { what: 'feel', amount: 8, shape: 'normal', divisor: 2, share: 'own', dof: 9 },
  ]);
  expect(budget.terms[0]).toBeCloseTo(3, 12);
  expect(budget.terms[1]).toBe(4);
  expect(budget.u).toBeCloseTo(5, 12);
  expect(budget.U).toBeCloseTo(10, 12);
  expect(budget.commonShare).toBeCloseTo(9 / 25, 12);
  expect(budget.ownDof).toBeCloseTo(9, 12);
});

it('a budget of nothing is nothing', () => {
  expect(instrumentBudget([])).toEqual({
    terms: [],
    u: 0,
    commonShare: 0,
    U: 0,
    ownDof: Number.POSITIVE_INFINITY,
  });
});

it('limits of error come from their tables, and nothing from beyond them', () => {
  // DIN 862 as printed: 20 µm to 100 mm at .02 mm, 30 µm beyond, 20 µm more inside; 50 µm at .05 mm.
  expect(calliperLimit(0.1, 0.02e-3)).toBeCloseTo(20e-6, 12);
  expect(calliperLimit(0.15, 0.0254e-3)).toBeCloseTo(30e-6, 12);
  expect(calliperLimit(0.1, 0.01e-3, true)).toBeCloseTo(40e-6, 12);
  expect(calliperLimit(0.1, 0.05e-3)).toBeCloseTo(50e-6, 12);
  expect(calliperLimit(0.8, 0.02e-3)).toBeUndefined();
  expect(micrometerLimit(0.4)).toBeUndefined();
  expect(gaugeBlockLimit(0.5, 1)).toBeUndefined();
  expect(pressureGaugeLimit(3, 1e6)).toBeUndefined();
  // ISO 6789: 4 % above 10 N·m, 6 % up to there.
  expect(torqueToolLimit('scale', 100)).toBe(0.04);
  expect(torqueToolLimit('scale', 10)).toBe(0.06);
  expect(torqueToolLimit('beam', 100)).toBe(0.06);
  // A rule of .3 m: .3 + .2 × 1 = .5 mm; of two metres .7 mm.
  expect(steelRuleLimit(0.3)).toBeCloseTo(0.5e-3, 12);
  expect(steelRuleLimit(2)).toBeCloseTo(0.7e-3, 12);
  expect(leafLimit(0.3e-3)).toBeCloseTo(4e-6, 12);
  expect(leafLimit(0.5e-3)).toBeCloseTo(6e-6, 12);
  expect(DIAL_INDICATOR.total).toBeCloseTo(17e-6, 12);
});

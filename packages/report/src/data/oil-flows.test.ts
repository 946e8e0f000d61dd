import { asFittedNow, assessment } from '@fettle/book';
import { CATALOGUE } from '@fettle/core';
import { expect, it } from 'vitest';
import { folded, lived } from '../testing/linnet-job.ts';
import { oilFlows } from './oil-flows.ts';
import { predictionOf } from './prediction.ts';

it('lets no litre vanish: what ends somewhere and what slips back make what the pump sweeps', () => {
  const book = folded(lived().desk.entries);
  const prediction = predictionOf(book, assessment(book, asFittedNow(book), CATALOGUE).reckoning);
  if (prediction === undefined || typeof prediction === 'string')
    throw new Error(`no prediction: ${prediction}`);
  const flows = oilFlows(prediction);
  const litres = [...(flows?.alt ?? '').matchAll(/ ([\d.]+) L\/min/g)].map(([, figure]) => Number(figure));
  expect(litres.length).toBeGreaterThan(5);
  // 0.615 in³ a turn at half of 600 rpm: 0.615 × 0.016387 L × 300 = 3.023 L/min; each figure is rounded to 0.01.
  const sum = litres.reduce((whole, part) => whole + part, 0);
  expect(Math.abs(sum - 3.023)).toBeLessThan(0.005 * litres.length + 0.001);
  const shares = [...(flows?.alt ?? '').matchAll(/, (\d+) %/g)].map(([, share]) => Number(share));
  expect(Math.abs(shares.reduce((whole, part) => whole + part, 0) - 100)).toBeLessThanOrEqual(
    shares.length / 2,
  );
  expect(flows?.svg).toContain('the pump sweeps');
});

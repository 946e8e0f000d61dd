import { calculator } from '../catalogue/calculator.ts';
import { quantity, text } from '../catalogue/field.ts';
import { toleranceDeviations } from '../fits/limits-and-fits.ts';
import { metre } from '../units/si.ts';

export const LIMITS_AND_FITS = calculator({
  name: 'limits-and-fits',
  sentence: 'Deviations of a hole or shaft tolerance class such as H7 or g6 at a nominal size.',
  formula: ['tables of ISO 286; holes from K on: ES = −ei + Δ, Δ = ITn − IT(n−1)'],
  sources: ['iso-286-1', 'iso-286-2'],
  input: {
    size: quantity('length', 'Nominal size'),
    designation: text('Capital letter for a hole, small for a shaft, then the grade', 'H7'),
  },
  output: {
    lower_deviation: { kind: 'length', doc: 'Least size less nominal' },
    upper_deviation: { kind: 'length', doc: 'Greatest size less nominal' },
  },
  range:
    'over 0 up to 500 mm; holes D to H, JS, K, M, N, P to U; shafts d to h, js, k, m, n, p to u; grades 5 to 11',
  example: { size: '50 mm', designation: 'H7' },
  compute: ({ size, designation }) => {
    const found = toleranceDeviations(metre(size), designation);
    if (!found.ok) return { issues: found.issues };
    return { results: { lower_deviation: found.value.lower, upper_deviation: found.value.upper } };
  },
});

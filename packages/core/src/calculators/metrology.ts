import type { Calculator } from '../catalogue/calculator.ts';
import { BORE_TAPER } from './bore-taper.ts';
import { COMBINE_UNCERTAINTY } from './combine-uncertainty.ts';
import { FEELER } from './feeler.ts';
import { LENGTH_AT_20 } from './length-at-20.ts';
import { MATCH } from './match.ts';
import { PLANE_FORM } from './plane-form.ts';
import { READING_VERDICT } from './reading-verdict.ts';
import { ROUND_FORM } from './round-form.ts';
import { STACK } from './stack.ts';

export const METROLOGY_CALCULATORS: readonly Calculator[] = [
  READING_VERDICT,
  FEELER,
  COMBINE_UNCERTAINTY,
  LENGTH_AT_20,
  ROUND_FORM,
  PLANE_FORM,
  BORE_TAPER,
  MATCH,
  STACK,
];

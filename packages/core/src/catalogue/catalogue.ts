import { MECHANICS_CALCULATORS } from '../calculators/mechanics.ts';
import { METROLOGY_CALCULATORS } from '../calculators/metrology.ts';
import { OIL_CALCULATORS } from '../calculators/oil.ts';
import { failed, type Outcome, ok } from '../issue.ts';
import { gotInWords } from '../units/read-quantity.ts';
import type { Calculator } from './calculator.ts';
import { nearestWord } from './nearest.ts';

/** Every calculation a person might want alone, by name. */
export const CATALOGUE: ReadonlyMap<string, Calculator> = new Map(
  [...METROLOGY_CALCULATORS, ...OIL_CALCULATORS, ...MECHANICS_CALCULATORS].map((calculator) => [
    calculator.name,
    calculator,
  ]),
);

export function calculatorNamed(name: unknown): Outcome<Calculator> {
  const found = typeof name === 'string' ? CATALOGUE.get(name) : undefined;
  if (found) return ok(found);
  const names = [...CATALOGUE.keys()];
  const near = typeof name === 'string' ? nearestWord(name, names) : undefined;
  return failed({
    code: 'calculator/unknown',
    at: 'name',
    got: gotInWords(name),
    wanted: names.join(', '),
    message: `No calculation is named "${gotInWords(name)}". ${near ? `Did you mean "${near}"?` : '"fettle calc" lists them all.'}`,
  });
}

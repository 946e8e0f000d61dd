import { calculator } from '../catalogue/calculator.ts';
import { optionalQuantity, quantity } from '../catalogue/field.ts';
import type { Caution } from '../issue.ts';
import { HTHS_OF_HEAVY_40, warmGrades, winterGrades } from '../oil/grades.ts';
import { pascalSecond, squareMetrePerSecond } from '../units/si.ts';

export const OIL_GRADE = calculator({
  name: 'oil-grade',
  sentence: 'Which SAE grades an oil can be sold as.',
  formula: ['the limits of the table for kv100 and for the viscosity at 150 °C under shear'],
  sources: ['sae-j300'],
  input: {
    kv100: quantity('kinematic-viscosity', 'kinematic viscosity at 100 °C'),
    hths: optionalQuantity('dynamic-viscosity', 'at 150 °C and 1e6 1/s'),
  },
  output: {
    grades: { kind: 'value', doc: 'names of the warm grades it meets' },
    w_grades: {
      kind: 'value',
      doc: 'names of the W grades whose least kv100 it meets; their cold tests are not weighed',
    },
  },
  range: 'table of 2015; a 20 of before 2013 may be as thin as 5.6 mm²/s',
  example: { kv100: '10.8 mm2/s' },
  compute: (input) => {
    const hths = input.hths === undefined ? undefined : pascalSecond(input.hths);
    const kv100 = squareMetrePerSecond(input.kv100);
    const grades = warmGrades(kv100, hths);
    const cautions: Caution[] = [];
    if (grades.includes('40') && hths !== undefined && hths * 1e3 < HTHS_OF_HEAVY_40 - 1e-9)
      cautions.push({
        code: 'oil-grade/heavy-40',
        message: `A straight 40, 15W-40, 20W-40 or 25W-40 needs an HTHS of ${HTHS_OF_HEAVY_40} mPa·s; this one is a 40 only as 0W-40, 5W-40 or 10W-40.`,
      });
    if (grades.length > 1)
      cautions.push({
        code: 'oil-grade/overlap',
        message: `These grades overlap in kv100.${hths === undefined ? ' Give the HTHS to narrow them down.' : ''}`,
      });
    if (grades.length === 0)
      cautions.push({ code: 'oil-grade/none', message: 'It meets the limits of no warm grade.' });
    return { results: { grades, w_grades: winterGrades(kv100) }, cautions };
  },
});

import { calculator } from '../catalogue/calculator.ts';
import { quantity, text } from '../catalogue/field.ts';
import { fastenerStrength } from '../fasteners/strength.ts';
import { metre } from '../units/si.ts';

export const FASTENER_STRENGTH = calculator({
  name: 'fastener-strength',
  sentence: 'Proof, yield and least tensile stress of a bolt by its grade and diameter.',
  formula: ['table lookup by grade and size; no formula'],
  sources: ['sae-j429', 'iso-898-1'],
  input: {
    grade: text('Grade or property class as marked on the head', 'SAE 5'),
    diameter: quantity('length', 'Nominal diameter'),
  },
  output: {
    grade: { kind: 'value', doc: 'As understood' },
    proof_stress: { kind: 'pressure', doc: 'Stress held without lasting stretch' },
    yield_stress: { kind: 'pressure', doc: 'Yield or 0.2 % stress, least' },
    tensile_stress: { kind: 'pressure', doc: 'Tensile strength, the least the standard allows' },
  },
  range: 'SAE 1, 2, 4, 5, 7, 8 from 1/4 to 1-1/2 in; ISO 4.6 to 12.9 up to 39 mm, 9.8 up to 16 mm',
  example: { grade: 'SAE 5', diameter: '5/16 in' },
  compute: ({ grade, diameter }) => {
    const found = fastenerStrength(grade, metre(diameter));
    if (!found.ok) return { issues: found.issues };
    const strength = found.value;
    return {
      results: {
        grade: strength.grade,
        proof_stress: strength.proof,
        yield_stress: strength.yield,
        tensile_stress: strength.tensile,
      },
    };
  },
});

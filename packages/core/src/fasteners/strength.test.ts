import { expect, it } from 'vitest';
import { metre } from '../units/si.ts';
import { fastenerStrength } from './strength.ts';

const INCH = 0.0254;
const KSI = 6894757.293168;
const found = (grade: string, diameter: number) => {
  const outcome = fastenerStrength(grade, metre(diameter));
  return outcome.ok ? outcome.value : outcome.issues[0]!.code;
};

it.each(['SAE 5', 'grade 5', 'Gr. 5', 'SAE J429 grade 5', 'sae5'])('"%s" is Grade 5', (grade) => {
  expect(found(grade, 0.3125 * INCH)).toMatchObject({ grade: 'SAE 5', source: 'sae-j429' });
});

it.each(['ISO 8.8', '8.8', 'class 8.8', 'ISO 898-1 class 8.8'])('"%s" is class 8.8', (grade) => {
  expect(found(grade, 0.008)).toMatchObject({ grade: 'ISO 8.8', proof: 580e6, tensile: 800e6 });
});

it('the least tensile strength is given, not the nominal: 10.9 has 1040 MPa', () => {
  expect(found('ISO 10.9', 0.012)).toMatchObject({ tensile: 1040e6, tensileNominal: 1000e6, proof: 830e6 });
});

it('8.8 changes past 16 mm and Grade 5 past 1 in, the end belonging to the smaller', () => {
  expect(found('8.8', 0.016)).toMatchObject({ proof: 580e6 });
  expect(found('8.8', 0.018)).toMatchObject({ proof: 600e6 });
  expect((found('SAE 5', INCH) as { proof: number }).proof / KSI).toBeCloseTo(85, 6);
  expect((found('SAE 5', 1.125 * INCH) as { proof: number }).proof / KSI).toBeCloseTo(74, 6);
});

it('a bare 5 or 8 has no meaning, an unknown grade neither, and sizes outside a grade are said', () => {
  expect(found('8', 0.008)).toBe('fastener/unknown-grade');
  expect(found('SAE 6', 0.008)).toBe('fastener/unknown-grade');
  expect(found('7.7', 0.008)).toBe('fastener/unknown-grade');
  expect(found('9.8', 0.02)).toBe('fastener/size-out-of-grade');
  expect(found('SAE 8', 0.1 * INCH)).toBe('fastener/size-out-of-grade');
});

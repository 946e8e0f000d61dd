import fc from 'fast-check';
import { expect, it } from 'vitest';
import { celsius, kilogramPerCubicMetre, pascalSecond, squareMetrePerSecond } from '../units/si.ts';
import { densityAt, densityFrom60F } from './density.ts';
import { warmGrades, winterGrades } from './grades.ts';
import { referenceOils, roundedIndex, viscosityIndex } from './viscosity-index.ts';
import { TABLE_H, TABLE_KV100, TABLE_L } from './viscosity-index-table.ts';
import { viscosityLine, viscosityOfZ, viscosityOnLine, zOfViscosity } from './viscosity-temperature.ts';

const mm2 = (v: number) => squareMetrePerSecond(v * 1e-6);
const vi = (kv40: number, kv100: number) => viscosityIndex(mm2(kv40), mm2(kv100));
const checksum = (column: readonly number[]): number =>
  column.reduce((sum, value, i) => sum + Math.round(value * 1000) * (i + 1), 0);

it('the viscosity-index table is whole: 311 rows, rising, with the checksums of the copy', () => {
  expect([TABLE_KV100.length, TABLE_L.length, TABLE_H.length]).toEqual([311, 311, 311]);
  expect([TABLE_KV100[0], TABLE_KV100[180], TABLE_KV100[230], TABLE_KV100[310]]).toEqual([2, 20, 30, 70]);
  for (const column of [TABLE_KV100, TABLE_L, TABLE_H])
    column.slice(1).forEach((value, i) => {
      expect(value).toBeGreaterThan(column[i]!);
    });
  expect([checksum(TABLE_L), checksum(TABLE_H)]).toEqual([74419461821, 26939101085]);
});

it('the polynomials above 70 mm²/s meet the last row of the table within its last digit, or 0.03 % for L', () => {
  const { l, h } = referenceOils(mm2(70.0000001));
  // By hand 0.8353·4900 + 14.67·70 − 216 = 4903.87: the standard itself steps by 1.13 here.
  expect(Math.abs(l - 4905)).toBeLessThan(1.2);
  expect(Math.abs(h - 1558)).toBeLessThan(0.5);
});

it('the worked examples of ASTM D2270 give 92, 156 and 111', () => {
  expect(roundedIndex(vi(73.3, 8.86))).toBe(92);
  expect(roundedIndex(vi(22.83, 5.05))).toBe(156);
  expect(roundedIndex(vi(53.47, 7.8))).toBe(111);
});

it('the two procedures meet at an index of 100', () => {
  for (const kv100 of [3, 8, 15, 40, 69.9]) {
    const { h } = referenceOils(mm2(kv100));
    expect(vi(h, kv100)).toBeCloseTo(100, 9);
    expect(vi(h * (1 - 1e-9), kv100)).toBeCloseTo(100, 5);
  }
});

it('a half is rounded to the even index', () => {
  expect([roundedIndex(89.5), roundedIndex(90.5), roundedIndex(90.51)]).toEqual([90, 90, 91]);
});

it('the viscosity line passes through the two points that made it, and falls all the way', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 15, max: 500, noNaN: true }),
      fc.double({ min: 3, max: 12, noNaN: true }),
      (kv40, ratio) => {
        const kv100 = kv40 / ratio;
        const line = viscosityLine(mm2(kv40), celsius(40), mm2(kv100), celsius(100));
        const at = (t: number) => viscosityOnLine(line, celsius(t)) * 1e6;
        // Below 2 mm²/s the inverse of the standard is itself only good to 1e-3.
        expect(Math.abs(at(40) / kv40 - 1)).toBeLessThan(1e-9);
        expect(Math.abs(at(100) / kv100 - 1)).toBeLessThan(kv100 > 2 ? 1e-9 : 1e-3);
        expect(at(20)).toBeGreaterThan(kv40);
        expect(at(120)).toBeLessThan(kv100);
      },
    ),
  );
});

it('the inverse for thin oils undoes Z to a thousandth from 0.3 mm²/s', () => {
  for (const v of [0.3, 0.5, 0.8, 1, 1.5, 2])
    expect(Math.abs((viscosityOfZ(zOfViscosity(mm2(v))) * 1e6) / v - 1)).toBeLessThan(1e-3);
});

it('density is itself at its base temperature, and both bases tell the same story', () => {
  const base = kilogramPerCubicMetre(880);
  expect(densityAt(base, celsius(15))).toBe(880);
  expect(densityFrom60F(base, celsius((60 - 32) / 1.8)).density).toBeCloseTo(880, 10);
  // 60 °F is 15.56 °C: half a degree of base makes 0.04 % at most.
  const other = densityFrom60F(kilogramPerCubicMetre(densityAt(base, celsius(15.5556))), celsius(100));
  expect(Math.abs(densityAt(base, celsius(100)) / other.density - 1)).toBeLessThan(4e-5);
});

it('oil grades follow the printed limits, the upper one excluded', () => {
  expect(warmGrades(mm2(9.3))).toEqual(['30']);
  expect(warmGrades(mm2(12.5))).toEqual(['40']);
  expect(warmGrades(mm2(7))).toEqual(['12', '16', '20']);
  expect(warmGrades(mm2(7), pascalSecond(2.4e-3))).toEqual(['12', '16']);
  expect(warmGrades(mm2(13), pascalSecond(3.4e-3))).toEqual([]);
  expect(warmGrades(mm2(30))).toEqual([]);
  expect(winterGrades(mm2(5.6))).toEqual(['0W', '5W', '10W', '15W', '20W']);
});

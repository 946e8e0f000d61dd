import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { QUANTITY_KINDS, type QuantityKind } from './kinds.ts';
import { parseQuantity } from './quantity.ts';
import { fromUnit, inUnit, kindOfUnit, printQuantity, ucumCode, unitNamed, unitsOfKind } from './unit.ts';

const KINDS = Object.keys(QUANTITY_KINDS) as QuantityKind[];
const si = (text: string, kind: QuantityKind): number => {
  const read = parseQuantity(text, kind);
  if (!read.ok) throw new Error(`${text}: ${JSON.stringify(read.issues)}`);
  return read.value.value;
};
const code = (text: string, kind: QuantityKind): string | undefined => {
  const read = parseQuantity(text, kind);
  return read.ok ? undefined : read.issues[0]?.code;
};

describe('what the trade writes', () => {
  it.each([
    ['3.5052 in', 'length', 0.08903208],
    ['2thou', 'length', 0.0000508],
    ['.0035in', 'length', 0.0000889],
    ['1.2e-3 m', 'length', 0.0012],
    ['5/16 in', 'length', 0.0079375],
    ['1 1/2 in', 'length', 0.0381],
    ['1-1/2 in', 'length', 0.0381],
    ['-1 1/2"', 'length', -0.0381],
    ['2 3/8"', 'length', 0.060325],
    ['1½ in', 'length', 0.0381],
    ['+.007 IN', 'length', 0.0001778],
    ['25 \u00b5m', 'length', 25e-6],
    ['25 \u03bcm', 'length', 25e-6],
    ["2'", 'length', 0.6096],
    ['18 lb-ft', 'torque', 24.4047230699652],
    ['18 ft·lb', 'torque', 24.4047230699652],
    ['18 lbf·ft', 'torque', 24.4047230699652],
    ['18 Ft-Lbs', 'torque', 24.4047230699652],
    ['20 N·m', 'torque', 20],
    ['20 Nm', 'torque', 20],
    ['93 °C', 'temperature', 366.15],
    ['93C', 'temperature', 366.15],
    ['68 deg F', 'temperature', 293.15],
    ['10.8 mm²/s', 'kinematic-viscosity', 10.8e-6],
    ['45 PSI', 'pressure', 310264.077],
    ['600 rpm', 'speed', 20 * Math.PI],
    ['30 %', 'ratio', 0.3],
    ['1/2', 'ratio', 0.5],
    ['11.5e-6 1/K', 'expansion', 11.5e-6],
    ['11.5e-6/°C', 'expansion', 11.5e-6],
    ['4 US qt', 'volume', 0.003785411784],
    ['1 imperial gallon', 'volume', 0.00454609],
    ['1 inHg', 'pressure', 3386.389],
    ['40 lb/in', 'stiffness', 7005.07],
  ] as const)('%s as %s', (text, kind, wanted) => {
    const got = si(text, kind);
    expect(Math.abs(got - wanted)).toBeLessThanOrEqual(1e-6 * Math.abs(wanted));
  });

  it('keeps what was said beside what it means', () => {
    const read = parseQuantity(' 2 3/8" ', 'length');
    expect(read).toEqual({
      ok: true,
      value: { value: 0.060325, said: 2.375, unit: 'in', text: ' 2 3/8" ', digits: '2 3/8' },
    });
  });

  it('makes one number of three writings of one length', () => {
    expect(si('.007 in', 'length')).toBe(si('7 thou', 'length'));
    expect(si('0.1778 mm', 'length')).toBe(si('7 thou', 'length'));
    expect(si('177.8 um', 'length')).toBe(0.0001778);
  });
});

describe('what is asked about', () => {
  it.each([
    ['3.5', 'length', 'unit/missing'],
    ['0', 'pressure', 'unit/missing'],
    ['', 'length', 'number/missing'],
    ['3,5 mm', 'length', 'number/decimal-comma'],
    ['1,234 mm', 'length', 'number/decimal-comma'],
    ['1,234.5 mm', 'length', 'number/thousands-comma'],
    ['1,234,567 mm', 'length', 'number/thousands-comma'],
    ['3.5 furlong', 'length', 'unit/unknown'],
    ['3.5 MM', 'length', 'unit/unknown'],
    ['3.5 psi', 'length', 'unit/wrong-kind'],
    ['3 min', 'length', 'unit/wrong-kind'],
    ['3 m', 'time', 'unit/wrong-kind'],
    ['20 nm', 'torque', 'unit/wrong-kind'],
    ['20 lb', 'force', 'unit/wrong-kind'],
    ['20 oz', 'force', 'unit/wrong-kind'],
    ['1 gal', 'volume', 'unit/ambiguous'],
    ['1 gpm', 'flow', 'unit/ambiguous'],
    ['2 tenths', 'length', 'unit/ambiguous'],
    ['93 deg', 'temperature', 'unit/ambiguous'],
    ['7/8-9', 'length', 'number/unreadable'],
    ['1-8 UNC', 'length', 'number/unreadable'],
    ['2-3 thou', 'length', 'number/unreadable'],
    ['1/0 in', 'length', 'number/not-finite'],
    ['1e999 in', 'length', 'number/not-finite'],
    ['1e308 km', 'length', 'number/not-finite'],
    ['Infinity in', 'length', 'number/unreadable'],
    ['NaN', 'ratio', 'number/unreadable'],
    ['0x10 mm', 'length', 'unit/unknown'],
    ['1.2.3 mm', 'length', 'number/unreadable'],
    ['0.3 in', 'ratio', 'unit/wrong-kind'],
    ['1'.repeat(500), 'length', 'number/unreadable'],
  ] as const)('%s as %s is %s', (text, kind, wanted) => {
    expect(code(text, kind)).toBe(wanted);
  });

  it('names metric and inch units when the unit is missing', () => {
    const read = parseQuantity('3.5', 'length');
    if (read.ok) throw new Error('taken');
    expect(read.issues[0]?.message).toMatch(/mm.*in.*thou/);
  });

  it('offers lbf where pounds are given for a force', () => {
    const read = parseQuantity('20 lb', 'force');
    if (read.ok) throw new Error('taken');
    expect(read.issues[0]?.message).toContain('"20 lbf"');
  });

  it('answers any text with a finite number or an issue', () => {
    fc.assert(
      fc.property(fc.string(), fc.constantFrom(...KINDS), (text, kind) => {
        const read = parseQuantity(text, kind);
        if (read.ok) expect(Number.isFinite(read.value.value)).toBe(true);
        else expect(read.issues.length).toBeGreaterThan(0);
      }),
      { numRuns: 2000 },
    );
  });
});

describe('the table', () => {
  it('holds every unit once, with a code and the SI unit of its kind at factor 1', () => {
    const all = KINDS.flatMap((kind) => unitsOfKind(kind));
    expect(new Set(all.map((unit) => unit.name)).size).toBe(all.length);
    for (const kind of KINDS) {
      const ucum = QUANTITY_KINDS[kind];
      expect(
        unitsOfKind(kind).some((unit) => unit.ucum === ucum && unit.factor === 1 && unit.offset === 0),
      ).toBe(true);
    }
    for (const unit of all) expect(unit.ucum).not.toBe('');
  });

  it('gives no writing to two units of one kind', () => {
    for (const kind of KINDS)
      for (const unit of unitsOfKind(kind))
        for (const spelling of [unit.name, unit.shown, ...unit.spellings].filter(Boolean))
          expect(unitNamed(spelling, kind)?.name).toBe(unit.name);
  });

  it('prints what it reads and reads what it prints', () => {
    const names = KINDS.flatMap((kind) => unitsOfKind(kind)).map((unit) => unit.name);
    fc.assert(
      fc.property(fc.constantFrom(...names), fc.integer({ min: -99999, max: 99999 }), (name, n) => {
        const value = fromUnit(n / 100, name);
        expect(inUnit(value, name)).toBeCloseTo(n / 100, 8);
        const back = parseQuantity(printQuantity(value, name, 3), kindOfUnit(name));
        expect(back.ok && back.value.unit).toBe(name);
        expect(back.ok && back.value.said).toBeCloseTo(n / 100, 2);
      }),
    );
  });

  it('prints for people and codes for machines', () => {
    expect(printQuantity(0.0000508, 'thou')).toBe('2 thou');
    expect(printQuantity(366.15, 'degC')).toBe('93 °C');
    expect(printQuantity(24.4047230699652, 'lbf.ft', 1)).toBe('18.0 lbf·ft');
    expect(printQuantity(-1e-9, 'mm', 2)).toBe('0.00 mm');
    expect(printQuantity(25e-6, 'um')).toBe('25 μm');
    expect(printQuantity(0.3, '%')).toBe('30%');
    expect(ucumCode('psi')).toBe('[psi]');
    expect(() => ucumCode('cubit')).toThrow(RangeError);
  });
});
